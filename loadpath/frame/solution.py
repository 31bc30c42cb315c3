"""Movements and recovered forces of all load cases of one system."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.blocks import onto_blocks, pairs_of
from loadpath.frame.constraints import row_forces
from loadpath.frame.joints import held_by
from loadpath.frame.system import System
from loadpath.model import LoadCase

Array = NDArray[np.float64]


class Outside(NamedTuple):
    """What acts from outside: loads (6 nb, nc) on blocks, line (ne, 6, nc) on elements, ground (6 nb, nc) moved."""

    loads: Array
    line: Array
    ground: Array


@dataclass(frozen=True, eq=False)
class Solution:
    """Movements and forces of all load cases of one system; nc load cases along the last axis.

    Attributes
    ----------
    movement : (nb, 6, nc) displacement [mm] and rotation [rad] of the blocks, case axes.
    end_forces : (ne, 6, nc) forces on each element at its end j, element axes.
    line : (ne, 6, nc) line load on each element, element axes.
    joint_names, joint_forces : (nj, 6, nc) force and moment about the joint's point, on the second part of
        the joint's `between`, case axes.
    redundant : groups of joints and locked force elements whose forces are not determinate one by one; what
        they carry together is.
    push_names, pushes : (nf, nc) push of each force element [N], compression positive.
    spin_moments : (ns, nc) moment that holds each idle spin [N·mm]; must vanish.
    loads : (nb, 6, nc) what acts on the blocks from outside, line loads not included.
    ground_forces : (nb, 6, nc) of the ground on the body's points, 0 elsewhere.
    residual : (nb, 6, nc) what is left of the balance of every block, from the recovered forces.
    beyond : (n, nc) how far each curved bushing freedom lies beyond the ends of its table [mm or rad].
    """

    system: System
    cases: tuple[LoadCase, ...]
    movement: Array
    end_forces: Array
    line: Array
    joint_names: tuple[str, ...]
    joint_forces: Array
    redundant: tuple[tuple[str, ...], ...]
    push_names: tuple[str, ...]
    pushes: Array
    spin_moments: Array
    loads: Array
    ground_forces: Array
    residual: Array
    beyond: Array


def recover(
    system: System, cases: tuple[LoadCase, ...], u: Array, outside: Outside, excess: Array, beyond: Array
) -> Solution:
    """Forces of everything from the movements u (6 nb, nc), and what is left of every block's balance.

    excess : (n, nc) force of each curved bushing freedom beyond rate × movement. beyond : (n, nc) how far its
    movement lies beyond its table.
    """
    loads, line, ground = outside.loads, outside.line, outside.ground
    strain = np.array([case.strain for case in cases])
    mesh, beams, springs = system.mesh, system.beams, system.springs
    nb, nc = len(mesh.owners), len(cases)
    block = u.reshape(nb, 6, nc)
    ends = system.turn @ pairs_of(block, mesh.elements.ends)
    strained = mesh.elements.twist[..., None] * strain
    q = beams.rigidity @ (beams.relative @ ends + strained) + beams.from_load @ line
    on_elements = np.swapaxes(beams.relative, 1, 2) @ q
    on_elements[:, :6] -= beams.resultant @ line
    moved = springs.relative @ pairs_of(block, springs.blocks) + springs.windup[..., None] * strain
    stretch = springs.rates[:, :, None] * moved
    for (k, i, _), more in zip(springs.curves, excess, strict=True):
        stretch[k, i] += more
    need = onto_blocks(mesh, mesh.elements.ends, np.swapaxes(system.turn, 1, 2) @ on_elements)
    need += onto_blocks(mesh, springs.blocks, np.swapaxes(springs.relative, 1, 2) @ stretch)
    need -= loads
    from_ground = np.zeros_like(u)
    for b, rates in system.ground.items():
        span = slice(6 * b, 6 * b + 3)
        from_ground[span] = rates @ (ground[span] - u[span])
    need -= from_ground
    rows = row_forces(system.constraints, need)
    residual = need - _rows_on_blocks(system, rows, nc)
    held = system.constraints.held
    from_ground[held], residual[held] = residual[held], 0.0
    names, forces = _joint_forces(system, stretch, rows, nc)
    ideal, locked, _ = system.rows
    share = np.array([case.pushes for case in cases])
    push_names, pushes = _pushes(system, rows[ideal : ideal + locked], stretch, share)
    return Solution(
        system=system,
        cases=cases,
        movement=block,
        end_forces=q,
        line=line,
        joint_names=names,
        joint_forces=forces,
        redundant=_redundant(system),
        push_names=push_names,
        pushes=pushes,
        spin_moments=np.array(rows[ideal + locked :]).reshape(-1, nc),
        loads=loads.reshape(nb, 6, nc),
        ground_forces=from_ground.reshape(nb, 6, nc),
        residual=residual.reshape(nb, 6, nc),
        beyond=beyond,
    )


def _rows_on_blocks(system: System, rows: list[Array], nc: int) -> Array:
    total = np.zeros((len(system.mesh.owners), 6, nc))
    for row, force in zip(system.constraints.rows, rows, strict=True):
        both = row.matrix.T @ force
        total[row.blocks[0]] += both[:6]
        total[row.blocks[1]] += both[6:]
    return total.reshape(-1, nc)


def _joint_forces(
    system: System, stretch: Array, rows: list[Array], nc: int
) -> tuple[tuple[str, ...], Array]:
    """Forces on the second part of every joint, in the order of the model."""
    bushings = sum(joint.rates is not None for joint in system.model.joints.values())
    own = {name: -stretch[k] for k, name in enumerate(system.springs.names[:bushings])}
    for row, force in zip(system.constraints.rows[: system.rows[0]], rows, strict=False):
        wrench = np.zeros((6, nc))
        wrench[list(held_by(system.model.joints[row.owner]))] = force
        own[row.owner] = wrench
    names = tuple(system.model.joints)
    wrenches = np.array([own[n] for n in names]).reshape(-1, 2, 3, nc)
    axes = np.array([system.model.joints[n].axes for n in names]).reshape(-1, 1, 3, 3)
    return names, (np.swapaxes(axes, 2, 3) @ wrenches).reshape(-1, 6, nc)


def _pushes(
    system: System, locked_rows: list[Array], stretch: Array, share: Array
) -> tuple[tuple[str, ...], Array]:
    """Push of every force element; share (nc,) of its given push that each load case has."""
    elements = tuple(system.model.force_elements.values())
    pushes = np.zeros((len(elements), len(share)))
    locked = iter(locked_rows)
    free = [e.name for e in elements if not e.locked and e.free_rate]
    answering = dict(zip(free, stretch[len(stretch) - len(free) :, 0], strict=True))
    for k, element in enumerate(elements):
        if element.locked:
            pushes[k] = next(locked)[0]
        else:
            pushes[k] = element.force * share - answering.get(element.name, 0.0)
    return tuple(e.name for e in elements), pushes


def _redundant(system: System) -> tuple[tuple[str, ...], ...]:
    rows = system.constraints.rows
    groups = (
        tuple(rows[int(o)].owner for o in np.unique(g.owners[g.redundant])) for g in system.constraints.groups
    )
    return tuple(names for names in groups if names)
