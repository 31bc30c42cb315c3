"""Stress inside an outline, for pictures; `Section` reports it at the surface."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sections.geometry.outline import Outline, area_integrals
from sections.geometry.walls import IntArray
from sections.result import Array
from sections.solid.boundary import SHARP, Boundary, distances
from sections.solid.fem import contraction, solve_fem
from sections.solid.mesh import triangulate

_NEAR_NOTCH = 0.25
"""Part of the local wall round a sharp re-entrant corner where shear has no finite value in theory."""


@dataclass(frozen=True, eq=False)
class Inside:
    """Unit-action stress at the corners of triangles, the mean of what the triangles that meet there have.

    Attributes
    ----------
    points : (n, 2) drawing coordinates [mm]. triangles : (k, 3) indices of points.
    stress : (n, 3, 6) σ, τxy, τxz [MPa] for unit N, Vy, Vz [N], T, My, Mz [N·mm] at the centroid.
    warping : (n,) ω about the shear centre, zero on average [mm²].
    near_notch : (n,) True near a sharp re-entrant corner, where shear grows with every refinement.
    """

    points: Array
    triangles: IntArray
    stress: Array
    warping: Array
    near_notch: NDArray[np.bool_]


def stress_inside(outline: Outline, nu: float = 0.3) -> Inside:
    """The stress of `outline_section` inside the material, by the same elements."""
    import skfem

    area = area_integrals(outline.rings)
    mesh = triangulate(outline)
    field = solve_fem(mesh, area, nu)
    place = np.ascontiguousarray((mesh.points - area.centroid).T)
    fine = skfem.MeshTri(place, np.ascontiguousarray(mesh.triangles.T)).refined()
    corners = (np.array([[0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]), np.ones(3))
    basis = skfem.Basis(fine, skfem.ElementTriP2(), quadrature=corners)
    y, z = np.asarray(basis.global_coordinates())
    found = [basis.interpolate(column) for column in field.values.T]
    slope = np.array([np.asarray(one.grad) for one in found])

    inverse = np.linalg.inv(area.inertia)
    twist = (slope[2] + np.array([-z, y])) / field.J
    lateral = np.tensordot(inverse, contraction(y, z, nu), axes=1)
    flexure = slope[:2] - lateral - field.torque[:, None, None, None] * twist
    triangles, at = np.asarray(fine.t).T, np.asarray(fine.p).T
    shear = np.concatenate([flexure, twist[None]])
    omega = np.asarray(found[2]) + field.shear_offset[0] * z - field.shear_offset[1] * y - field.omega_mean

    stress = np.zeros((len(at), 3, 6))
    stress[:, 0, 0] = 1 / area.area
    stress[:, 0, 4:] = at @ inverse @ [[0.0, -1.0], [1.0, 0.0]]
    stress[:, 1:, 1:4] = np.moveaxis(_mean(shear, triangles, len(at)), (0, 1), (2, 1))
    points = at + area.centroid
    return Inside(
        points, triangles, stress, _mean(omega, triangles, len(at)), _near_notch(points, mesh.boundary)
    )


def _mean(values: Array, triangles: IntArray, count: int) -> Array:
    """(..., count) means at the points of values (..., k, 3) at the corners of triangles."""
    flat = triangles.reshape(-1)
    share = 1 / np.bincount(flat, minlength=count)
    rows = values.reshape(-1, flat.size)
    found = np.array([np.bincount(flat, row, minlength=count) * share for row in rows])
    return found.reshape(*values.shape[:-2], count)


def _near_notch(points: Array, edges: Boundary) -> NDArray[np.bool_]:
    sharp = np.flatnonzero(edges.corner < -SHARP)
    gap = distances(points, edges.points[edges.starts[sharp]])
    return np.asarray((gap < _NEAR_NOTCH * edges.wall[edges.starts[sharp]]).any(axis=1))
