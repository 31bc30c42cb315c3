"""Exact constraints: freedoms u = T q + given part, by the null space of each small group of ideal joints.

Rows are normalised and rotations scaled by a length of the group, so that singular values tell how
independent the joints are. Below REDUNDANT of the largest a row repeats others: the joint forces in it are
not determinate one by one. Between REDUNDANT and INCOMPATIBLE it is refused.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csc_array, csr_array

from loadpath.frame.errors import NearlyIncompatible
from loadpath.frame.joints import Rows

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

REDUNDANT = 1e-9
INCOMPATIBLE = 0.05


@dataclass(frozen=True, eq=False)
class Group:
    """Constraint rows that share freedoms, with their singular value decomposition.

    Attributes
    ----------
    owners : index of the owner in the list of rows, for each scalar row (m,).
    freedoms : (n,) columns. null : (n, n − r) basis of the admissible movements.
    lift : (n, m) smallest movement from given row values.
    forces : (m, n) row forces from the out-of-balance at the freedoms.
    redundant : (m,) rows whose force is not determinate.
    """

    owners: Ints
    freedoms: Ints
    null: Array
    lift: Array
    forces: Array
    redundant: NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Constraints:
    """All groups and the sparse transformation T (6 nb, nq) from the free generalised freedoms."""

    transform: csc_array
    groups: tuple[Group, ...]
    rows: tuple[Rows, ...]
    held: NDArray[np.bool_]


def build_constraints(rows: Sequence[Rows], held: NDArray[np.bool_]) -> Constraints:
    """Null spaces of the rows over the freedoms that are not held.

    Raises
    ------
    NearlyIncompatible : where a group's joints almost contradict each other.
    """
    gathered = [_gather(rows, members, held) for members in _connected(rows, held)]
    groups = tuple(_decompose(rows, gathered))
    return Constraints(_transform(groups, held), groups, tuple(rows), held)


def _connected(rows: Sequence[Rows], held: NDArray[np.bool_]) -> list[list[int]]:
    """Lists of row indices that share a block with a freedom left; union by smallest index."""
    parent = list(range(len(rows)))

    def root(i: int) -> int:
        while parent[i] != i:
            i = parent[i]
        return i

    fixed: NDArray[np.bool_] = np.all(held.reshape(-1, 6), axis=1)
    first: dict[int, int] = {}
    for i, row in enumerate(rows):
        for block in row.blocks:
            if fixed[block]:
                continue
            a, b = root(i), root(first.setdefault(block, i))
            parent[max(a, b)] = min(a, b)
    lists: dict[int, list[int]] = {}
    for i in range(len(rows)):
        lists.setdefault(root(i), []).append(i)
    return list(lists.values())


class _Gathered(NamedTuple):
    """Rows of one group over the freedoms that they touch: owners (m,), freedoms (n,), matrix (m, n)."""

    owners: Ints
    freedoms: Ints
    matrix: Array


def _gather(rows: Sequence[Rows], members: list[int], held: NDArray[np.bool_]) -> _Gathered:
    blocks = sorted({b for i in members for b in rows[i].blocks})
    column = {b: 6 * k for k, b in enumerate(blocks)}
    counts = [len(rows[i].matrix) for i in members]
    matrix = np.zeros((sum(counts), 6 * len(blocks)))
    at = 0
    for i, m in zip(members, counts, strict=True):
        for side, block in enumerate(rows[i].blocks):
            c = column[block]
            matrix[at : at + m, c : c + 6] += rows[i].matrix[:, 6 * side : 6 * side + 6]
        at += m
    freedoms = (6 * np.array(blocks)[:, None] + np.arange(6)).ravel()
    use = ~held[freedoms] & matrix.any(axis=0)
    return _Gathered(np.repeat(members, counts), freedoms[use], matrix[:, use])


def _decompose(rows: Sequence[Rows], gathered: list[_Gathered]) -> list[Group]:
    """Singular value decompositions, groups of one shape at once."""
    by_shape: dict[tuple[int, ...], list[int]] = {}
    for k, g in enumerate(gathered):
        by_shape.setdefault(g.matrix.shape, []).append(k)
    groups: dict[int, Group] = {}
    for alike in by_shape.values():
        matrix = np.array([gathered[k].matrix for k in alike])
        scale = _scales(matrix, np.array([gathered[k].freedoms for k in alike]) % 6 >= 3)
        scaled = matrix * scale[:, None, :]
        norms = np.sqrt((scaled**2).sum(axis=2))
        norms = np.where(norms > 0, norms, 1.0)
        u, sigma, vt = np.linalg.svd(scaled / norms[:, :, None])
        for k, *parts in zip(alike, scale, norms, u, sigma, vt, strict=True):
            groups[k] = _group(rows, gathered[k], *parts)
    return [groups[k] for k in range(len(gathered))]


def _scales(matrix: Array, rotation: NDArray[np.bool_]) -> Array:
    """(g, n) factors that make rotations lengths: 1 over the largest lever of each group's rows [1/mm]."""
    levers = np.sqrt((np.where(rotation[:, None, :], matrix, 0.0) ** 2).sum(axis=2))
    moves = np.where(rotation[:, None, :], 0.0, matrix).any(axis=2)
    largest = np.where(moves, levers, 0.0).max(axis=1)
    largest = np.where(largest > 0, largest, 1.0)
    return np.where(rotation, 1.0 / largest[:, None], 1.0)


def _group(
    rows: Sequence[Rows], gathered: _Gathered, scale: Array, norms: Array, u: Array, sigma: Array, vt: Array
) -> Group:
    rank = _rank(sigma, u, gathered.owners, rows)
    inverse = (vt[:rank].T / sigma[:rank]) @ u[:, :rank].T / norms
    return Group(
        owners=gathered.owners,
        freedoms=gathered.freedoms,
        null=scale[:, None] * vt[rank:].T,
        lift=scale[:, None] * inverse,
        forces=inverse.T * scale,
        redundant=np.any(np.abs(u[:, rank:]) > 1e-6, axis=1),
    )


def _rank(sigma: Array, u: Array, owners: Ints, rows: Sequence[Rows]) -> int:
    limit = sigma[0] if len(sigma) else 0.0
    rank = int((sigma > REDUNDANT * limit).sum())
    if rank and sigma[rank - 1] < INCOMPATIBLE * limit:
        share = np.abs(u[:, rank - 1])
        names = dict.fromkeys(rows[int(o)].owner for o in owners[share > 0.1 * share.max()])
        raise NearlyIncompatible(
            f"the joints {', '.join(names)} almost contradict each other: they hold nearly the same movement "
            f"twice (independence {sigma[rank - 1] / limit:.2g}, at least {INCOMPATIBLE} or exactly 0 is needed); "
            "move a point, or let one of them be a bushing"
        )
    return rank


def _transform(groups: tuple[Group, ...], held: NDArray[np.bool_]) -> csc_array:
    """T: identity on untouched free freedoms, the groups' null spaces on the rest."""
    touched = held.copy()
    for g in groups:
        touched[g.freedoms] = True
    single = np.flatnonzero(~touched)
    rows, columns, values = [single], [np.arange(len(single))], [np.ones(len(single))]
    at = len(single)
    for g in groups:
        n, k = g.null.shape
        rows.append(np.repeat(g.freedoms, k))
        columns.append(np.tile(np.arange(at, at + k), n))
        values.append(g.null.ravel())
        at += k
    i, j, v = np.concatenate(rows), np.concatenate(columns), np.concatenate(values)
    return csr_array((v, (i, j)), shape=(len(held), at)).tocsc()


def given_movement(constraints: Constraints, values: Array, ground: Array) -> Array:
    """Part of u that follows from given values alone.

    Parameters
    ----------
    values : (number of Rows, nc) given change of locked lengths; only rows of one line may be non-zero.
    ground : (6 nb, nc) given movements of held freedoms.

    Returns
    -------
    (6 nb, nc)
    """
    u = np.where(constraints.held[:, None], ground, 0.0)
    for g in constraints.groups:
        demand = _row_values(constraints.rows, g, values, ground, constraints.held)
        u[g.freedoms] += g.lift @ demand
    return u


def _row_values(
    rows: Sequence[Rows], group: Group, values: Array, ground: Array, held: NDArray[np.bool_]
) -> Array:
    """(m, nc) what each row's free freedoms must add up to."""
    demand = np.zeros((len(group.owners), values.shape[1]))
    at = 0
    for i in dict.fromkeys(int(o) for o in group.owners):
        row = rows[i]
        m = len(row.matrix)
        demand[at : at + m] = values[i]
        for side, block in enumerate(row.blocks):
            span = slice(6 * block, 6 * block + 6)
            if held[span].any():
                moved = np.where(held[span, None], ground[span], 0.0)
                demand[at : at + m] -= row.matrix[:, 6 * side : 6 * side + 6] @ moved
        at += m
    return demand


def row_forces(constraints: Constraints, out_of_balance: Array) -> list[Array]:
    """Force of each scalar row, from the forces (6 nb, nc) that the constraints must put on the blocks.

    Returns one (m, nc) array for each entry of `rows`; with redundant rows the smallest set of forces.
    """
    found: list[Array] = [np.zeros((0, 0))] * len(constraints.rows)
    for g in constraints.groups:
        forces = g.forces @ out_of_balance[g.freedoms]
        at = 0
        for i in dict.fromkeys(int(o) for o in g.owners):
            m = len(constraints.rows[i].matrix)
            found[i] = forces[at : at + m]
            at += m
    return found
