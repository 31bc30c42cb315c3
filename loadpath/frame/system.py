"""The equations of one pose: stiffness, constraints and one factorisation for all its load cases."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_array, csc_array, csr_array
from scipy.sparse.linalg import SuperLU, splu

from loadpath.frame.beam import BeamMatrices, beam_matrices
from loadpath.frame.constraints import Constraints, build_constraints
from loadpath.frame.diagnose import describe_motions, zero_energy_motions
from loadpath.frame.errors import IllConditioned, Mechanism
from loadpath.frame.idle import IdleSpin, hold_rows, idle_spins
from loadpath.frame.joints import Springs, body_rates, bushings, ideal_rows, locked_rows
from loadpath.frame.mesh import Mesh, build_mesh
from loadpath.model import Model

Array = NDArray[np.float64]

WORST_CONDITION = 1e12
_VANISHING = 1e-13


@dataclass(frozen=True, eq=False)
class System:
    """A model ready to be solved.

    Attributes
    ----------
    turn : (ne, 12, 12) case axes to element axes, for both ends.
    stiffness : (6 nb, 6 nb) of elements, bushings and body, before constraints.
    reduced : (nq, nq) stiffness of the free generalised freedoms, scaled to a unit diagonal by `scale` (nq,).
    factor : its factorisation. condition : estimate of its condition number.
    rows : counts of (ideal, locked, idle) entries in constraints.rows, in this order.
    """

    model: Model
    mesh: Mesh
    beams: BeamMatrices
    turn: Array
    springs: Springs
    ground: dict[int, Array]
    constraints: Constraints
    rows: tuple[int, int, int]
    spins: tuple[IdleSpin, ...]
    stiffness: csr_array
    reduced: csc_array
    scale: Array
    factor: SuperLU
    condition: float


def build_system(model: Model) -> System:
    """Assemble and factorise.

    Raises
    ------
    Mechanism : naming each motion that nothing holds.
    NearlyIncompatible : joints that almost contradict each other.
    IllConditioned : scaled condition number above 1e12.
    """
    mesh = build_mesh(model)
    beams = beam_matrices(mesh.elements)
    turn = _turns(mesh.elements.frame)
    springs = bushings(model, mesh)
    ground, held = body_rates(model, mesh)
    spins = idle_spins(model)
    ideal, locked, idle = ideal_rows(model, mesh), locked_rows(model, mesh), hold_rows(mesh, spins)
    constraints = build_constraints([*ideal, *locked, *idle], held)
    stiffness = _assemble(mesh, beams, turn, springs, ground)
    t = constraints.transform
    reduced = (t.T @ (stiffness @ t)).tocsc()
    diagonal = reduced.diagonal()
    loose = diagonal <= _VANISHING * (t.power(2).T @ stiffness.diagonal())
    scale = 1.0 / np.sqrt(np.where(loose, 1.0, diagonal))
    scaled = _scale(reduced, scale)
    factor = None if loose.any() else _factorise(scaled)
    condition = np.inf if factor is None else condition_estimate(scaled, factor)
    if factor is None or condition > WORST_CONDITION:
        motions = zero_energy_motions(scaled)
        if motions.shape[1]:
            raise Mechanism(describe_motions(model, mesh, t @ (scale[:, None] * motions)))
        raise IllConditioned(
            f"the stiffness matrix has a scaled condition number of {condition:.1e}, more than "
            f"{WORST_CONDITION:.0e}: look for members or rates many orders stiffer or softer than the rest"
        )
    counts = len(ideal), len(locked), len(idle)
    return System(
        model=model,
        mesh=mesh,
        beams=beams,
        turn=turn,
        springs=springs,
        ground=ground,
        constraints=constraints,
        rows=counts,
        spins=spins,
        stiffness=stiffness,
        reduced=scaled,
        scale=scale,
        factor=factor,
        condition=condition,
    )


def _turns(frame: Array) -> Array:
    turn = np.zeros((len(frame), 12, 12))
    for k in range(0, 12, 3):
        turn[:, k : k + 3, k : k + 3] = frame
    return turn


def _assemble(
    mesh: Mesh, beams: BeamMatrices, turn: Array, springs: Springs, ground: dict[int, Array]
) -> csr_array:
    n = 6 * len(mesh.owners)
    two_block = np.concatenate([np.swapaxes(turn, 1, 2) @ beams.stiffness() @ turn, springs.stiffness()])
    ends = np.concatenate([mesh.elements.ends, springs.blocks])
    freedoms = (6 * ends[:, :, None] + np.arange(6)).reshape(-1, 12)
    shape = two_block.shape
    rows, columns = np.broadcast_to(freedoms[:, :, None], shape), np.broadcast_to(freedoms[:, None, :], shape)
    i, j, v = [rows.ravel()], [columns.ravel()], [two_block.ravel()]
    if ground:
        blocks = np.array(list(ground))
        d = 6 * blocks[:, None] + np.arange(3)
        i.append(np.repeat(d, 3, axis=1).ravel())
        j.append(np.tile(d, 3).ravel())
        v.append(np.array(list(ground.values())).ravel())
    return coo_array((np.concatenate(v), (np.concatenate(i), np.concatenate(j))), shape=(n, n)).tocsr()


def _scale(matrix: csc_array, scale: Array) -> csc_array:
    scaled = matrix.copy()
    columns = np.repeat(np.arange(matrix.shape[1]), np.diff(matrix.indptr))
    scaled.data = matrix.data * scale[matrix.indices] * scale[columns]
    return scaled


def _factorise(matrix: csc_array) -> SuperLU | None:
    """Symmetric factorisation without pivoting; None where a pivot vanishes."""
    try:
        return splu(
            matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True}
        )
    except RuntimeError:
        return None


def condition_estimate(matrix: csc_array, factor: SuperLU, steps: int = 3) -> float:
    """Estimate of the condition number of a symmetric matrix of unit diagonal.

    The largest eigenvalue is bounded by the column sums, the smallest is approached from above by inverse
    iteration, so the estimate is not far below the true value.
    """
    n = matrix.shape[0]
    if n == 0:
        return 1.0
    vector = np.cos(np.arange(1.0, n + 1))
    growth = np.inf
    for _ in range(steps):
        vector = factor.solve(vector / np.sqrt(vector @ vector))
        growth = float(np.sqrt(vector @ vector))
        if not np.isfinite(growth):
            return np.inf
    columns = np.add.reduceat(np.abs(matrix.data), matrix.indptr[:-1])
    return float(columns.max()) * growth
