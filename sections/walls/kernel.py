"""Thin-walled theory on a mid-line graph, for one set of dimensions or a batch of them.

Along a wall the shear flow is q = t (du/ds + r θ'), G left out, with u the axial (warping) displacement, r the
lever arm of the wall and θ' the twist. Equilibrium asks dq/ds = -t dσ/dx within a wall and a zero sum of flows at
every node. With u at the nodes as unknowns that is a Laplacian of the graph with conductance t/L (seams: their own),
and linear elements are exact at the nodes, since the load is: open, closed and multi-cell sections need no cells.
Vlasov, Thin-walled Elastic Beams (1961), has the theory; the graph form is derived here.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sections.geometry.walls import IntArray
from sections.result import Array

_QUADRATIC = np.array([[4.0, 2.0, -1.0], [2.0, 16.0, 2.0], [-1.0, 2.0, 4.0]]) / 30
"""Integrals over unit length of products of the quadratic shape functions (start, middle, end)."""


@dataclass(frozen=True, eq=False)
class ThinWalls:
    """Properties and unit shear flows of thin walls; `...` stands for the leading batch dimensions.

    Pure mid-line theory: no wall has a second moment about its own mid-line.

    Attributes
    ----------
    area : (...) [mm²]. centroid : (..., 2) [mm].
    inertia : (..., 2, 2) [[Izz, Iyz], [Iyz, Iyy]] about the centroid [mm⁴].
    J_cells, J_walls : (...) torsion constant of flows round cells, and Σ b t³/3 [mm⁴].
    shear_centre : (..., 2) [mm]. Cw : (...) about the shear centre [mm⁶].
    omega : (..., n) warping at the nodes about the shear centre, zero on average: u = θ' ω [mm²].
    shear_tensor : (..., 2, 2) [1/mm²] by energy, for forces through the shear centre.
    flow : (..., m, 3, 3) shear flow [N/mm] along each wall at its start, middle and end (it is quadratic
        between), for unit Vy and Vz [N] through the shear centre and unit T [N·mm].
    seam_flow : (..., s, 3) the flow through each seam from its first node to its second.
    """

    area: Array
    centroid: Array
    inertia: Array
    J_cells: Array
    J_walls: Array
    shear_centre: Array
    Cw: Array
    omega: Array
    shear_tensor: Array
    flow: Array
    seam_flow: Array

    @property
    def J(self) -> Array:
        """(...) torsion constant [mm⁴]."""
        return self.J_cells + self.J_walls


def solve_walls(
    nodes: Array, ends: IntArray, thickness: Array, seams: IntArray, seam_conductance: Array
) -> ThinWalls:
    """Solve thin walls of one topology.

    Parameters
    ----------
    nodes : (..., n, 2) y, z [mm]. thickness : (..., m) [mm]. seam_conductance : (..., s) [-].
    ends : (m, 2), seams : (s, 2) node indices, the same for the whole batch.

    Raises
    ------
    numpy.linalg.LinAlgError : all walls on one straight line, or unconnected pieces; `Walls` and
        `walls_section` tell both in words.
    """
    walls, unit = len(ends), np.eye(nodes.shape[-2])
    start, stop = unit[ends[:, 0]], unit[ends[:, 1]]
    edges = np.vstack([ends, seams])
    incidence = unit[edges[:, 1]] - unit[edges[:, 0]]

    first, last = nodes[..., ends[:, 0], :], nodes[..., ends[:, 1], :]
    length = np.linalg.norm(last - first, axis=-1)
    wall_area = length * thickness
    area = wall_area.sum(axis=-1)
    centroid = (wall_area[..., None, :] @ (first + last))[..., 0, :] / (2 * area[..., None])
    place = nodes - centroid[..., None, :]
    inertia = _moments(place[..., ends[:, 0], :], place[..., ends[:, 1], :], wall_area)

    gradient = place @ np.linalg.inv(inertia)
    load = _nodal_loads(gradient[..., ends[:, 0], :], gradient[..., ends[:, 1], :], wall_area)
    seam_values = np.broadcast_to(seam_conductance, (*thickness.shape[:-1], len(seams)))
    conductance = np.concatenate([thickness / length, seam_values], axis=-1)
    lever = _cross(place[..., edges[:, 0], :], place[..., edges[:, 1], :])
    twist = -(conductance * lever)[..., None, :] @ incidence
    shear = start.T @ load[0] + stop.T @ load[1]
    right = np.concatenate([shear, np.swapaxes(twist, -1, -2)], axis=-1)
    warping = _laplace(incidence, conductance, right)

    mean = conductance[..., None] * (incidence @ warping)
    mean[..., 2] += conductance * lever
    J_cells = (lever * mean[..., 2]).sum(axis=-1)
    J_walls = (wall_area * thickness**2).sum(axis=-1) / 3
    torque = (lever[..., None, :] @ mean[..., :2])[..., 0, :]
    offset = np.stack([torque[..., 1], -torque[..., 0]], axis=-1)

    mean[..., 2] /= (J_cells + J_walls)[..., None]
    flow = _along(mean[..., :walls, :], load)
    tensor = _energy(flow[..., :2], length / thickness)
    through = mean[..., walls:, :]
    tensor += _pairs(through[..., :2], through[..., :2] / seam_values[..., None])

    omega = warping[..., 2] + _cross(offset[..., None, :], place)
    omega -= ((omega[..., ends].sum(axis=-1) / 2 * wall_area).sum(axis=-1) / area)[..., None]
    Cw = _moments(omega[..., ends[:, 0], None], omega[..., ends[:, 1], None], wall_area)[..., 0, 0]
    return ThinWalls(
        area, centroid, inertia, J_cells, J_walls, centroid + offset, Cw, omega, tensor, flow, through
    )


def _moments(a: Array, b: Array, wall_area: Array) -> Array:
    """(..., i, i) Σ ∫ f f t ds of fields linear in each wall, from a (..., m, i) at its start to b at its end."""
    weight = wall_area[..., None] / 6
    return _pairs((a + b) * weight, a + b) + _pairs(a * weight, a) + _pairs(b * weight, b)


def _pairs(a: Array, b: Array) -> Array:
    return np.swapaxes(a, -1, -2) @ b


def _nodal_loads(a: Array, b: Array, wall_area: Array) -> tuple[Array, Array]:
    """∫ t p N ds at the start and the end of each wall, for p linear from a to b (..., m, i)."""
    weight = wall_area[..., None] / 6
    return weight * (2 * a + b), weight * (a + 2 * b)


def _cross(a: Array, b: Array) -> Array:
    return a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]


def _laplace(incidence: Array, conductance: Array, right: Array) -> Array:
    """(..., n, k) potentials with the first node held, of currents (..., n, k)."""
    matrix = (incidence.T * conductance[..., None, :]) @ incidence
    free = np.linalg.solve(matrix[..., 1:, 1:], right[..., 1:, :])
    return np.concatenate([np.zeros_like(free[..., :1, :]), free], axis=-2)


def _along(mean: Array, load: tuple[Array, Array]) -> Array:
    """(..., m, 3, 3) flow at the start, middle and end of each wall from its mean flow and nodal loads."""
    flow = np.repeat(mean[..., None, :], 3, axis=-2)
    flow[..., 0, :2] += load[0]
    flow[..., 2, :2] -= load[1]
    # The load is linear, so the flow is a parabola: mean = (start + 4 middle + end) / 6.
    flow[..., 1, :2] -= (load[0] - load[1]) / 4
    return flow


def _energy(flow: Array, compliance: Array) -> Array:
    """(..., i, i) Σ ∫ q q / t ds for flow (..., m, 3, i)."""
    rows = (*flow.shape[:-3], -1, flow.shape[-1])
    return _pairs((flow * compliance[..., None, None]).reshape(rows), (_QUADRATIC @ flow).reshape(rows))
