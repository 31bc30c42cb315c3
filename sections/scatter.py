"""How far measuring errors move area, second moments and torsion constant: exact first derivatives, no sampling."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from sections.geometry import Outline, Walls
from sections.geometry.outline import area_integrals
from sections.geometry.trace import Trace
from sections.geometry.walls import IntArray
from sections.result import Array
from sections.solid.fem import solve_fem
from sections.solid.mesh import triangulate
from sections.walls.kernel import solve_walls

NAMES = ("A", "Iyy", "Izz", "J")


@dataclass(frozen=True, eq=False)
class Gradient:
    """Values of A, Iyy, Izz, J and their first derivatives.

    Attributes
    ----------
    value : (4,). by_point : (4, n, 2) by the coordinates of nodes or ring corners. by_thickness : (4, m) of walls.
    """

    value: Array
    by_point: Array
    by_thickness: Array


def wall_gradient(walls: Walls) -> Gradient:
    """Derivatives for thin walls.

    J of the cells is the least of Σ c (Δu + r)² over the warping u, c = t/L and r the lever of each wall, so that its
    derivative needs no derivative of u.
    """
    thin = solve_walls(walls.nodes, walls.ends, walls.thickness, walls.seams, walls.seam_conductance)
    place = walls.nodes - thin.centroid
    a, b, t = place[walls.ends[:, 0]], place[walls.ends[:, 1]], walls.thickness
    length = np.linalg.norm(b - a, axis=1)
    along = (b - a) / length[:, None]
    flow = thin.flow[:, 0, 2] * float(thin.J)
    square = (a * a + a * b + b * b) / 3
    inertia = (length * t)[:, None] * square
    by_length = np.array(
        [t, *(t * square[:, k] for k in (1, 0)), t**3 / 3 - (flow**2) / t],
    )
    by_t = np.array(
        [length, *(length * square[:, k] for k in (1, 0)), length * t**2 + flow**2 * length / t**2],
    )
    by_point = np.zeros((4, len(place), 2))
    for end, sign, own, other in ((0, -1.0, a, b), (1, 1.0, b, a)):
        move = by_length[:, :, None] * (sign * along)
        bend = (length * t)[:, None] * (2 * own + other) / 3
        move[1, :, 1] += bend[:, 1]
        move[2, :, 0] += bend[:, 0]
        move[3] += _lever_moves(flow, sign, other)
        for k in range(4):
            np.add.at(by_point[k], walls.ends[:, end], move[k])
    through = thin.seam_flow[:, 2] * float(thin.J)
    for end, sign in ((0, -1.0), (1, 1.0)):
        far = place[walls.seams[:, 1 - end]]
        np.add.at(by_point[3], walls.seams[:, end], _lever_moves(through, sign, far))
    value = np.array([float(thin.area), inertia[:, 1].sum(), inertia[:, 0].sum(), float(thin.J)])
    return Gradient(value, by_point, by_t)


def _lever_moves(flow: Array, sign: float, other: Array) -> Array:
    """(m, 2) 2 q ∂r/∂(one end), r = start × stop; sign −1 at the start, where `other` is the stop, else 1."""
    turned = np.column_stack([-other[:, 1], other[:, 0]])
    return np.asarray(2 * sign * flow[:, None] * turned)


def outline_gradient(outline: Outline) -> Gradient:
    """Derivatives for an outline: ∮ f δn ds with f = 1, z², y² and, for J, the square of the shear at the surface
    under a unit twist (Hadamard's formula for the torsion problem; closed form). At sharp
    re-entrant corners, where shear is not finite, the derivative of J is a few per cent low."""
    area = area_integrals(outline.rings)
    mesh = triangulate(outline)
    field = solve_fem(mesh, area, 0.0)
    edges = mesh.boundary
    first, last = edges.points - area.centroid, edges.points[edges.follows] - area.centroid
    run = last - first
    length = np.linalg.norm(run, axis=1)
    rise = field.values[field.edge_nodes[:, 4], 2] - field.values[field.edge_nodes[:, 0], 2]
    shear = (first[:, 0] * last[:, 1] - first[:, 1] * last[:, 0] + rise) / length
    outward = np.column_stack([run[:, 1], -run[:, 0]])
    corner = np.vstack(outline.rings) - area.centroid
    stop = np.vstack([np.roll(ring, -1, axis=0) for ring in outline.rings]) - area.centroid
    after = _next_corners(outline)
    span = stop - corner
    whole = (span**2).sum(axis=1)
    by_point = np.zeros((4, len(corner), 2))
    for part, weight in ((0.5 - np.sqrt(1 / 12), 0.5), (0.5 + np.sqrt(1 / 12), 0.5)):
        place = first + part * run
        share = ((place - corner[edges.side]) * span[edges.side]).sum(axis=1) / whole[edges.side]
        for k, f in enumerate((np.ones(len(place)), place[:, 1] ** 2, place[:, 0] ** 2, shear**2)):
            push = (weight * f)[:, None] * outward
            np.add.at(by_point[k], edges.side, push * (1 - share)[:, None])
            np.add.at(by_point[k], after[edges.side], push * share[:, None])
    value = np.array([area.area, area.inertia[1, 1], area.inertia[0, 0], field.J])
    return Gradient(value, by_point, np.zeros((4, 0)))


def scatter(
    trace: Trace, point_error: float, thickness_error: float = 0.0, thickness_tied: bool = False
) -> Mapping[str, float]:
    """Half-widths of A, Iyy, Izz and J as parts of their values, to first order.

    Parameters
    ----------
    point_error : half-width of each coordinate of each measured point [mm], independent of each other.
    thickness_error : the same of each measured thickness [mm]; where tied one error for all, else independent.
    """
    made = trace.geometry
    gradient = wall_gradient(made) if isinstance(made, Walls) else outline_gradient(made)
    moved = np.einsum("knd,nde->kne", gradient.by_point, trace.follows)
    count = int(max(trace.parents.max(), trace.wall_points.max(initial=0))) + 1
    points, thickness = np.zeros((4, count, 2)), np.zeros((4, count))
    for k in range(4):
        np.add.at(points[k], trace.parents, moved[k])
        for end in range(2):
            np.add.at(thickness[k], trace.wall_points[:, end], gradient.by_thickness[k] / 2)
    variance = point_error**2 * (points**2).sum(axis=(1, 2))
    if thickness_tied:
        variance += (thickness_error * thickness.sum(axis=1)) ** 2
    else:
        variance += thickness_error**2 * (thickness**2).sum(axis=1)
    return dict(zip(NAMES, (np.sqrt(variance) / gradient.value).tolist(), strict=True))


def _next_corners(outline: Outline) -> IntArray:
    counts = [len(ring) for ring in outline.rings]
    after = np.arange(1, sum(counts) + 1)
    last = np.cumsum(counts)
    after[last - 1] = last - counts
    return after
