"""Delaunay triangles of points."""

from __future__ import annotations

import numpy as np

from sections.geometry.walls import IntArray
from sections.result import Array

_ALLOWED = np.pi + 1e-3
"""Largest sum of the two angles that face a side [rad]; above π the triangles are not Delaunay's."""


def delaunay(points: Array) -> IntArray:
    """(k, 3) Delaunay triangles of distinct points (n, 2), in either sense.

    Shapely's routine is fast and already loaded, but on some sets of many collinear points it fails or gives
    triangles that are not Delaunay's. Those are found out, and scipy's routine, slow to load, does them again.
    Where rounding puts points of a straight side off their line by 1e-16 of its length, such triangles have one
    without area along the side and behind it a large one that passes by the point in the middle.
    """
    import shapely

    try:
        shapes = shapely.delaunay_triangles(shapely.multipoints(points))
    except shapely.errors.GEOSException:
        return _by_scipy(points)
    corners = shapely.get_coordinates(shapes).reshape(-1, 4, 2)[:, :3]
    triangles = _indices(points, corners.reshape(-1, 2)).reshape(-1, 3)
    return triangles if _locally_delaunay(points, triangles) else _by_scipy(points)


def _by_scipy(points: Array) -> IntArray:
    from scipy.spatial import Delaunay

    return np.asarray(Delaunay(points).simplices, dtype=np.intp)


def _indices(points: Array, wanted: Array) -> IntArray:
    """Index of each wanted point among distinct points; coordinates are exactly equal."""
    _, first, which = np.unique(np.vstack([points, wanted]), axis=0, return_index=True, return_inverse=True)
    return np.asarray(first[which.reshape(-1)[len(points) :]])


def _locally_delaunay(points: Array, triangles: IntArray) -> bool:
    """Whether the two angles that face each side add up to no more than two right angles.

    Angles, as cotangents have no value in a triangle without area: there the angles are 0, 0 and π, and the π tells
    a point on a side that the triangle behind passes by.
    """
    corner = points[triangles]
    sides, angles = [], []
    for k in range(3):
        a, b = corner[:, (k + 1) % 3] - corner[:, k], corner[:, (k + 2) % 3] - corner[:, k]
        angles.append(np.arctan2(np.abs(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]), (a * b).sum(axis=1)))
        sides.append(np.sort(triangles[:, [(k + 1) % 3, (k + 2) % 3]], axis=1))
    keys = np.vstack(sides) @ [len(points), 1]
    _, which, count = np.unique(keys, return_inverse=True, return_counts=True)
    total = np.bincount(which, np.concatenate(angles))
    return bool(np.all(total[count == 2] <= _ALLOWED))
