"""Saint-Venant torsion and flexure on quadratic triangles.

With G left out and coordinates from the centroid, unit twist gives the shear τ = ∇ω + (−z, y), and a stress gradient
dσ/dx = a·(y, z) gives τ = ∇Ψ − d(a), where d = ν/(2(1+ν)) (ay (y²−z²)/2 + az y z, az (z²−y²)/2 + ay y z) comes from
the lateral contraction. Both are found from ∇·τ = −dσ/dx with a free surface:

    ∫ ∇ω·∇v = ∫ (z, −y)·∇v,        ∫ ∇Ψ·∇v = ∫ (a·(y, z) v + d·∇v).

W. D. Pilkey, Analysis and Design of Elastic Beams (2002), chapters 5 and 6 (from memory; derived again here).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from sections.geometry.outline import AreaIntegrals
from sections.geometry.walls import IntArray
from sections.result import Array
from sections.solid.mesh import Triangles


@dataclass(frozen=True, eq=False)
class SaintVenant:
    """Solution of the three problems on one mesh.

    Attributes
    ----------
    values : (d, 3) Ψ for unit Vy, Ψ for unit Vz, ω at the nodes (coordinates from the centroid).
    edge_nodes : (n, 5) nodes along each boundary edge, evenly spaced.
    forces : (3, 2) resultants Vy, Vz of the three solutions; ((1, 0), (0, 1), (0, 0)) but for rounding.
    torque : (2,) torque about the centroid of the two flexure solutions [mm].
    J : [mm⁴]. shear_offset : (2,) shear centre from the centroid (Trefftz) [mm].
    shear_tensor : (2, 2) [1/mm²]. Cw : [mm⁶]. omega_mean : mean of ω about the shear centre [mm²].
    """

    values: Array
    edge_nodes: IntArray
    forces: Array
    torque: Array
    J: float
    shear_offset: Array
    shear_tensor: Array
    Cw: float
    omega_mean: float


def contraction(y: Array, z: Array, nu: float) -> Array:
    """(2, 2, ...) components of d for a = (1, 0), then for a = (0, 1)."""
    square = (y * y - z * z) / 2
    return np.array([[square, y * z], [y * z, -square]]) * (nu / (2 * (1 + nu)))


def solve_fem(mesh: Triangles, area: AreaIntegrals, nu: float) -> SaintVenant:
    """Solve torsion and flexure; every triangle of the mesh is cut in four quadratic ones."""
    import skfem

    place = np.ascontiguousarray((mesh.points - area.centroid).T)
    coarse = skfem.MeshTri(place, np.ascontiguousarray(mesh.triangles.T))
    fine = coarse.refined()
    basis = skfem.Basis(fine, skfem.ElementTriP2(), intorder=4)
    y, z = np.asarray(basis.global_coordinates())
    lateral = contraction(y, z, nu)
    loads = [(y, *lateral[0]), (z, *lateral[1]), (0 * y, z, -y)]
    values = _potentials(basis, np.column_stack([_load(basis, *load) for load in loads]))
    inverse = np.linalg.inv(area.inertia)
    values[:, :2] = values[:, :2] @ inverse

    gradient = np.array([np.asarray(basis.interpolate(column).grad) for column in values.T])
    shear = gradient - np.concatenate([np.tensordot(inverse, lateral, axes=1), [[z, -y]]])
    weight = np.asarray(basis.dx)
    energy = np.einsum("aikq,bikq->ab", shear * weight, shear)
    torque = ((y * shear[:2, 1] - z * shear[:2, 0]) * weight).sum(axis=(1, 2))
    omega = np.asarray(basis.interpolate(values[:, 2]))
    lean = -inverse @ [(omega * y * weight).sum(), (omega * z * weight).sum()]
    omega = omega + lean[0] * y + lean[1] * z
    mean = float((omega * weight).sum()) / area.area
    # lean is the torque of unit Vy, Vz through the shear centre: it decouples torsion from flexure (Trefftz).
    added = (lean - torque) / energy[2, 2]
    through = np.column_stack([np.eye(2), added])
    return SaintVenant(
        values=values,
        edge_nodes=_edge_nodes(basis, coarse, fine, mesh),
        forces=(shear * weight).sum(axis=(2, 3)) / [[1.0], [1.0], [np.sqrt(energy[2, 2])]],
        torque=torque,
        J=float(energy[2, 2]),
        shear_offset=np.array([lean[1], -lean[0]]),
        shear_tensor=through @ energy @ through.T,
        Cw=float(((omega - mean) ** 2 * weight).sum()),
        omega_mean=mean,
    )


def _load(basis: Any, source: Array, along_y: Array, along_z: Array) -> Array:
    """∫ (source v + along·∇v) for every node."""
    import skfem

    form = skfem.LinearForm(lambda v, _: source * v + along_y * v.grad[0] + along_z * v.grad[1])
    return np.asarray(form.assemble(basis))


def _potentials(basis: Any, right: Array) -> Array:
    """Solutions of the Laplacian with a free boundary, the first node held."""
    from scipy.sparse.linalg import splu
    from skfem.models.poisson import laplace

    matrix = laplace.assemble(basis).tocsc()[1:, 1:]
    factor = splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})
    return np.vstack([np.zeros(right.shape[1]), factor.solve(right[1:])])


def _edge_nodes(basis: Any, coarse: Any, fine: Any, mesh: Triangles) -> IntArray:
    """(n, 5) nodes along each boundary edge: its ends, its middle, and those between."""
    count = len(mesh.points)
    first, last = np.arange(len(mesh.boundary.points)), mesh.boundary.follows
    # Refinement puts the middle of side f of the coarse mesh at vertex count + f.
    middle = count + _find_sides(coarse.facets, first, last)
    vertex, side = np.asarray(basis.nodal_dofs)[0], np.asarray(basis.facet_dofs)[0]
    halves = [side[_find_sides(fine.facets, a, b)] for a, b in ((first, middle), (middle, last))]
    return np.column_stack([vertex[first], halves[0], vertex[middle], halves[1], vertex[last]])


def _find_sides(sides: IntArray, a: IntArray, b: IntArray) -> IntArray:
    """Index among sides (2, n) of those between vertices a and b."""
    scale = np.array([sides.max() + 1, 1])
    keys = scale @ np.sort(sides, axis=0)
    order = np.argsort(keys)
    wanted = scale @ np.sort(np.vstack([a, b]), axis=0)
    return np.asarray(order[np.searchsorted(keys, wanted, sorter=order)])
