"""Stress of unit actions at the surface of an outline."""

from __future__ import annotations

import numpy as np

from sections.geometry.outline import AreaIntegrals
from sections.geometry.walls import IntArray
from sections.result import Array
from sections.solid.boundary import SHARP, Boundary, distances
from sections.solid.fem import SaintVenant, contraction

_NEAR_NOTCH = 0.25
"""No stress is reported nearer to a sharp re-entrant corner than this part of the local wall."""
_PARTS = np.array([0.1, 0.25, 0.5])
"""Straight edges up to these parts of the section's size have 1, 3, 5 points, longer ones 7."""


def surface_stress(
    edges: Boundary, area: AreaIntegrals, field: SaintVenant, nu: float
) -> tuple[Array, Array, Array]:
    """Points (n, 2), their unit-action stress (n, 3, 6) and warping (n,).

    Points are the middles of boundary edges and the sharp convex corners, where shear vanishes. Shear follows the
    surface; it comes from the potentials' slope along the edge. On a straight side that is the slope at the middle
    by five nodes; on a chord of an arc it is the mean slope, since the chords' corners disturb the field between
    them (by 2 % at nine degrees) but not its mean.
    """
    edge, chord = _straights(edges), np.flatnonzero(edges.chord)
    corners = edges.starts[edges.corner > SHARP]
    five = field.values[field.edge_nodes[edge]]
    at_point = field.values[field.edge_nodes[:, 0]]
    first, last = at_point[edges.starts[chord]], at_point[edges.stops[chord]]
    start = np.vstack([edges.points[edge], edges.points[edges.starts[chord]]])
    stop = np.vstack([edges.points[edges.follows[edge]], edges.points[edges.stops[chord]]])
    rise = np.vstack([(five[:, 0] - 8 * five[:, 1] + 8 * five[:, 3] - five[:, 4]) / 3, last - first])
    omega = np.concatenate([five[:, 2, 2], (first[:, 2] + last[:, 2]) / 2, at_point[corners, 2]])

    points = np.vstack([(start + stop) / 2, edges.points[corners]])
    place = points - area.centroid
    inverse = np.asarray(np.linalg.inv(area.inertia), dtype=float)
    stress = np.zeros((len(points), 3, 6))
    stress[:, 0, 0] = 1 / area.area
    stress[:, 0, 4:] = place @ inverse @ [[0.0, -1.0], [1.0, 0.0]]
    run = stop - start
    shear = _along(field, rise, run, place[: len(run)], inverse, nu)
    along = run / np.linalg.norm(run, axis=1)[:, None]
    stress[: len(run), 1:, 1:4] = along[:, :, None] * shear[:, None, :]

    offset = field.shear_offset
    omega = omega + offset[0] * place[:, 1] - offset[1] * place[:, 0] - field.omega_mean
    return points, stress, omega


def _along(field: SaintVenant, rise: Array, run: Array, place: Array, inverse: Array, nu: float) -> Array:
    """(n, 3) shear along edges for unit Vy, Vz and T at the centroid.

    Parameters
    ----------
    rise : (n, 3) how much the potentials grow along each edge. run : (n, 2) the edges. place : (n, 2) their middles.
    """
    length = np.linalg.norm(run, axis=1)
    lateral = np.tensordot(inverse, contraction(place[:, 0], place[:, 1], nu), axes=1)
    twist = (place[:, 0] * run[:, 1] - place[:, 1] * run[:, 0] + rise[:, 2]) / field.J
    flexure = rise[:, :2] - np.einsum("ain,ni->na", lateral, run)
    return np.asarray(np.column_stack([flexure - np.outer(twist, field.torque), twist]) / length[:, None])


def _straights(edges: Boundary) -> IntArray:
    """Edges of straight sides at which stress is reported: a few on each side."""
    gone = np.linalg.norm(edges.points - edges.points[edges.starts[edges.side]], axis=1)
    order = np.lexsort((gone, edges.side))
    count = np.bincount(edges.side)
    length = np.linalg.norm(edges.points[edges.stops] - edges.points[edges.starts], axis=1)
    part = length / np.ptp(edges.points, axis=0).max()
    wanted = np.where(edges.chord, 0, np.minimum(1 + 2 * np.searchsorted(_PARTS, part), count))
    side = np.repeat(np.arange(len(count)), wanted)
    rank = np.arange(len(side)) - np.repeat(np.cumsum(wanted) - wanted, wanted)
    within = ((rank + 0.5) * count[side] / wanted[side]).astype(int)
    chosen = order[(np.cumsum(count) - count)[side] + within]

    notches = edges.points[edges.starts[edges.corner < -SHARP]]
    middle = (edges.points[chosen] + edges.points[edges.follows[chosen]]) / 2
    gap = distances(middle, notches).min(axis=1, initial=np.inf)
    return np.asarray(chosen[gap > _NEAR_NOTCH * edges.wall[chosen]])
