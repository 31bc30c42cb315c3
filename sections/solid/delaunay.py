"""Delaunay triangles of points."""

from __future__ import annotations

import numpy as np

from sections.geometry.walls import IntArray
from sections.result import Array

_ALLOWED = -1e-3
"""Least sum of the cotangents of the two angles that face a side; below zero the triangles are not Delaunay's."""


def delaunay(points: Array) -> IntArray:
    """(k, 3) Delaunay triangles of distinct points (n, 2), in either sense.

    Shapely's routine is fast and already loaded, but on some sets of many collinear points it fails or gives
    triangles that are not Delaunay's. Those are found out, and scipy's routine, slow to load, does them again.
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
    """Whether the two angles that face each side add up to no more than two right angles."""
    corner = points[triangles]
    sides, cotangents = [], []
    for k in range(3):
        a, b = corner[:, (k + 1) % 3] - corner[:, k], corner[:, (k + 2) % 3] - corner[:, k]
        cross = np.abs(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])
        flat = cross <= 1e-12 * np.abs(a).max(axis=1) * np.abs(b).max(axis=1)
        cotangents.append(np.where(flat, 0.0, (a * b).sum(axis=1) / np.where(flat, 1.0, cross)))
        sides.append(np.sort(triangles[:, [(k + 1) % 3, (k + 2) % 3]], axis=1))
    keys = np.vstack(sides) @ [len(points), 1]
    _, which, count = np.unique(keys, return_inverse=True, return_counts=True)
    total = np.bincount(which, np.concatenate(cotangents))
    return bool(np.all(total[count == 2] >= _ALLOWED))
