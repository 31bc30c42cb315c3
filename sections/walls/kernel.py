"""Thin-walled theory on a mid-line graph, for one set of dimensions or a batch of them.

Along a wall the shear flow is q = G t (du/ds + r θ'), with u the axial (warping) displacement, r the lever arm of
the wall and θ' the twist. Equilibrium asks dq/ds = −t dσ/dx within a wall and a zero sum of flows at every node, and
u must come back to itself round every cell. That is a weighted Laplacian of the graph with conductance t/L (seams:
their own), exact at the nodes: open, closed and multi-cell sections are one case. It is solved by a spanning tree, in
which flows follow from equilibrium alone, and one unknown for each edge that closes a cell; nobody has to name cells.
Vlasov, Thin-walled Elastic Beams (1961), has the theory; the graph form is derived here.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from sections.geometry.walls import IntArray
from sections.result import Array
from sections.walls.graph import Graph, graph_of


@dataclass(frozen=True, eq=False)
class ThinWalls:
    """Properties and unit shear flows of thin walls; `...` stands for the leading batch dimensions.

    Pure mid-line theory: no wall has a second moment about its own mid-line. With walls of several materials all
    stiffnesses are those of an equivalent section of the material that the ratios refer to.

    Attributes
    ----------
    area : (...) [mm²]. centroid : (..., 2) [mm].
    inertia : (..., 2, 2) [[Izz, Iyz], [Iyz, Iyy]] about the centroid [mm⁴].
    J_cells, J_walls : (...) torsion constant of flows round cells, and Σ b t³/3 [mm⁴].
    shear_centre : (..., 2) [mm]. Cw : (...) about the shear centre [mm⁶].
    omega : (..., n) warping at the nodes about the shear centre, zero on average: u = θ' ω [mm²].
    shear_tensor : (..., 2, 2) [1/mm²] by energy, for forces through the shear centre.
    mean_flow : (..., 3, m + s) mean shear flow [N/mm] along each wall and each seam from its first node to its
        second, for unit Vy and Vz [N] through the shear centre and unit T [N·mm].
    end_loads : (2, ..., 2, m) by how much the flow at a wall's start is above its mean, and at its end below, for
        unit Vy and Vz.
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
    mean_flow: Array
    end_loads: Array

    @property
    def J(self) -> Array:
        """(...) torsion constant [mm⁴]."""
        return self.J_cells + self.J_walls

    @cached_property
    def flow(self) -> Array:
        """(..., m, 3, 3) shear flow [N/mm] along each wall at its start, middle and end (it is quadratic between),
        for unit Vy and Vz [N] through the shear centre and unit T [N·mm]."""
        walls = self.end_loads.shape[-1]
        first, last = self.end_loads
        flow = np.repeat(self.mean_flow[..., None, :, :walls], 3, axis=-3)
        flow[..., 0, :2, :] += first
        flow[..., 2, :2, :] -= last
        # The load is linear, so the flow is a parabola: mean = (start + 4 middle + end) / 6.
        flow[..., 1, :2, :] -= (first - last) / 4
        return np.moveaxis(flow, -1, -3)

    @property
    def seam_flow(self) -> Array:
        """(..., s, 3) the flow through each seam from its first node to its second."""
        return np.swapaxes(self.mean_flow[..., self.end_loads.shape[-1] :], -1, -2)


def solve_walls(
    nodes: Array,
    ends: IntArray,
    thickness: Array,
    seams: IntArray,
    seam_conductance: Array,
    E_ratio: Array | float = 1.0,
    G_ratio: Array | float = 1.0,
) -> ThinWalls:
    """Solve thin walls of one topology.

    Parameters
    ----------
    nodes : (..., n, 2) y, z [mm]. thickness : (..., m) [mm]. seam_conductance : (..., s) [-].
    ends : (m, 2), seams : (s, 2) node indices, the same for the whole batch.
    E_ratio, G_ratio : (..., m) moduli of each wall over those of the section.

    Raises
    ------
    numpy.linalg.LinAlgError : all walls on one straight line, or unconnected pieces; `Walls` and
        `walls_section` tell both in words.
    """
    graph = graph_of(nodes.shape[-2], np.vstack([ends, seams]))
    walls = len(ends)
    y, z = nodes[..., 0], nodes[..., 1]
    first, last = graph.ends.T
    length = np.hypot(*(_at(each, last[:walls]) - _at(each, first[:walls]) for each in (y, z)))
    weight = length * thickness * E_ratio
    area = weight.sum(axis=-1)
    centroid = np.stack([_mean(weight, each, ends) / area for each in (y, z)], axis=-1)
    y, z = y - centroid[..., :1], z - centroid[..., 1:]
    Izz, Iyz, Iyy = (_integral(weight, a, b, ends) for a, b in ((y, y), (y, z), (z, z)))
    det = Izz * Iyy - Iyz**2
    if not np.all(det > 1e-18 * (Izz + Iyy) ** 2):
        raise np.linalg.LinAlgError("all walls on one straight line")

    gradient = np.stack(
        [Iyy[..., None] * y - Iyz[..., None] * z, Izz[..., None] * z - Iyz[..., None] * y], axis=-2
    )
    gradient /= det[..., None, None]
    load = _nodal_loads(weight, gradient, ends)
    shape = np.broadcast_shapes(np.shape(seam_conductance), (*area.shape, len(seams)))
    seam_compliance = 1 / np.broadcast_to(seam_conductance, shape)
    compliance = np.concatenate([length / (thickness * G_ratio), seam_compliance], axis=-1)
    lever = _at(y, first) * _at(z, last) - _at(z, first) * _at(y, last)
    mean, circulation = _flows(graph, compliance, lever, load)

    J_cells = (lever * circulation).sum(axis=-1)
    J_walls = (length * thickness**3 * G_ratio).sum(axis=-1) / 3
    torque = (lever[..., None, :] * mean).sum(axis=-1)
    offset = np.stack([torque[..., 1], -torque[..., 0]], axis=-1)
    tensor = _energy(mean, load, compliance)

    omega = _times(circulation * compliance - lever, graph.paths.T)
    omega += offset[..., :1] * z - offset[..., 1:] * y
    omega -= (_mean(weight, omega, ends) / area)[..., None]
    return ThinWalls(
        area=area,
        centroid=centroid,
        inertia=np.stack([np.stack([Izz, Iyz], axis=-1), np.stack([Iyz, Iyy], axis=-1)], axis=-2),
        J_cells=J_cells,
        J_walls=J_walls,
        shear_centre=centroid + offset,
        Cw=_integral(weight, omega, omega, ends),
        omega=omega,
        shear_tensor=tensor,
        mean_flow=np.concatenate(
            [mean, (circulation / (J_cells + J_walls)[..., None])[..., None, :]], axis=-2
        ),
        end_loads=load,
    )


def _flows(graph: Graph, compliance: Array, lever: Array, load: Array) -> tuple[Array, Array]:
    """Mean flows (..., 2, e) of Vy and Vz, and the circulation (..., e) of unit twist, G left out."""
    walls = load.shape[-1]
    start, stop = graph.paths[graph.ends[:walls, 0]], graph.paths[graph.ends[:walls, 1]]
    mean = _times(load[0], start) + _times(load[1], stop)
    cells = graph.cells
    if not len(cells):
        return mean, np.zeros_like(lever)
    round_trip = _times(compliance[..., None, :] * cells, cells.T)
    slip = -_times(mean * compliance[..., None, :], cells.T)
    right = np.concatenate([slip, _times(lever, cells.T)[..., None, :]], axis=-2)
    added = np.linalg.solve(round_trip, np.swapaxes(right, -1, -2))
    around = _times(np.swapaxes(added, -1, -2), cells)
    return mean + around[..., :2, :], around[..., 2, :]


def _times(values: Array, matrix: Array) -> Array:
    """values (..., k) @ matrix (k, j) as one product, which for many small stacks is much faster."""
    return (values.reshape(-1, values.shape[-1]) @ matrix).reshape(*values.shape[:-1], matrix.shape[1])


def _at(values: Array, nodes: IntArray) -> Array:
    return np.take(values, nodes, axis=-1)


def _mean(weight: Array, values: Array, ends: IntArray) -> Array:
    """(...) Σ ∫ f t ds of a field given at the nodes (..., n) and linear in each wall."""
    return np.asarray((weight * (_at(values, ends[:, 0]) + _at(values, ends[:, 1]))).sum(axis=-1) / 2)


def _integral(weight: Array, f: Array, g: Array, ends: IntArray) -> Array:
    """(...) Σ ∫ f g t ds of fields given at the nodes (..., n) and linear in each wall."""
    fa, fb, ga, gb = (_at(each, ends[:, k]) for each in (f, g) for k in (0, 1))
    return np.asarray((weight * ((fa + fb) * (ga + gb) + fa * ga + fb * gb)).sum(axis=-1) / 6)


def _nodal_loads(weight: Array, gradient: Array, ends: IntArray) -> Array:
    """(2, ..., 2, m) ∫ t p N ds at the start and the end of each wall, for p (..., 2, n) linear in each wall."""
    a, b = _at(gradient, ends[:, 0]), _at(gradient, ends[:, 1])
    part = weight[..., None, :] / 6
    return np.stack([part * (2 * a + b), part * (a + 2 * b)])


def _energy(mean: Array, load: Array, compliance: Array) -> Array:
    """(..., 2, 2) Σ ∫ q q/t ds; in each wall q is its mean and two Legendre polynomials of squares 1/3 and 1/5."""
    walls = load.shape[-1]
    linear, square = (load[0] + load[1]) / 2, (load[0] - load[1]) / 2
    parts = [[0, 0], [0, 1], [1, 1]]
    values = []
    for i, j in parts:
        product = mean[..., i, :] * mean[..., j, :]
        product[..., :walls] += linear[..., i, :] * linear[..., j, :] / 3
        product[..., :walls] += square[..., i, :] * square[..., j, :] / 5
        values.append((product * compliance).sum(axis=-1))
    yy, yz, zz = values
    return np.stack([np.stack([yy, yz], axis=-1), np.stack([yz, zz], axis=-1)], axis=-2)
