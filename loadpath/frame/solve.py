"""From a system and its load cases to movements and recovered forces."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array

from loadpath.frame.constraints import given_movement, row_forces
from loadpath.frame.errors import FrameError
from loadpath.frame.joints import HELD
from loadpath.frame.mesh import Mesh
from loadpath.frame.rightside import block_loads, ground_movement, line_numbers
from loadpath.frame.system import System, build_system
from loadpath.model import LoadCase, Model

Array = NDArray[np.float64]


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


def solve(model: Model, cases: Sequence[LoadCase]) -> Solution:
    """Assemble, factorise and solve a model for its load cases.

    Raises
    ------
    FrameError : mechanisms, nearly incompatible joints, ill conditioning, loads on unknown places.
    """
    return solve_system(build_system(model), cases)


def solve_system(system: System, cases: Sequence[LoadCase]) -> Solution:
    """Solve a factorised system for load cases."""
    loads, line = block_loads(system, cases), line_numbers(system, cases)
    ground = ground_movement(system, cases)
    given = _moved_ground(system, ground)
    rolls = np.array([case.roll for case in cases])
    lengths = _unit_lengths(system) if rolls.any() else np.zeros((len(loads), 0))
    given = np.concatenate([given, lengths], axis=1)
    right = np.zeros_like(given)
    right[:, : len(cases)] = loads + _line_on_blocks(system, line) + _ground_push(system, ground)
    if given.any():
        right -= system.stiffness @ given
    u = given + _free_movement(system, right)
    u, unit = u[:, : len(cases)], u[:, len(cases) :]
    if rolls.any():
        u = u + np.outer(_roll(system, unit), rolls)
    return _recover(system, tuple(cases), u, loads, line, ground)


def _moved_ground(system: System, ground: Array) -> Array:
    """(6 nb, nc) what given movements of the ground move by themselves."""
    if not ground.any():
        return ground
    still = np.zeros((len(system.constraints.rows), ground.shape[1]))
    return given_movement(system.constraints, still, ground)


def _unit_lengths(system: System) -> Array:
    """(6 nb, nl) what a unit of length of each locked force element moves by itself."""
    ideal, locked, _ = system.rows
    unit = np.zeros((len(system.constraints.rows), locked))
    unit[ideal : ideal + locked] = np.eye(locked)
    return given_movement(system.constraints, unit, np.zeros((system.stiffness.shape[0], locked)))


def _free_movement(system: System, right: Array) -> Array:
    """(6 nb, nc) movement within the constraints under forces on the blocks."""
    t, scale = system.constraints.transform, system.scale[:, None]
    movement: Array = t @ (scale * system.factor.solve(scale * (t.T @ right)))
    return movement


def _ground_push(system: System, ground: Array) -> Array:
    """Forces that moved ground puts on the body's points through the body's rates."""
    push = np.zeros_like(ground)
    for block, rates in system.ground.items():
        span = slice(6 * block, 6 * block + 3)
        push[span] = rates @ ground[span]
    return push


def _line_on_blocks(system: System, line: Array) -> Array:
    """(6 nb, nc) what clamped elements under their line loads put on the blocks."""
    ends = np.swapaxes(system.turn, 1, 2) @ (system.beams.clamped_forces() @ line)
    return -_onto_blocks(system.mesh, system.mesh.elements.ends, ends)


def _onto_blocks(mesh: Mesh, blocks: NDArray[np.intp], forces: Array) -> Array:
    """Sum (n, 12, nc) forces at two blocks each onto (6 nb, nc)."""
    n, nc = len(blocks), forces.shape[-1]
    ones, columns = np.ones(2 * n), np.arange(2 * n)
    sums = csr_array((ones, (blocks.ravel(), columns)), shape=(len(mesh.owners), 2 * n))
    total: Array = np.asarray(sums @ forces.reshape(2 * n, 6 * nc))
    return total.reshape(-1, nc)


def _roll(system: System, unit: Array) -> Array:
    """(6 nb,) movement per radian of body roll, from those per unit of length of the locked force elements.

    A rolled body lets each wheel travel by −roll × its distance to the left of the centre plane, relative to
    the body. The locked force elements take the lengths at which the unloaded wheels stand there; what twists
    the anti-roll bar and winds up bushings follows.
    """
    model, mesh = system.model, system.mesh
    locked = [e for e in model.force_elements.values() if e.locked]
    travel, wanted = np.zeros((len(locked), len(locked))), np.zeros(len(locked))
    for k, element in enumerate(locked):
        wheel = model.wheels[element.wheel]
        block, lever = mesh.places[wheel.part, wheel.centre]
        moved = unit[6 * block : 6 * block + 3]
        turned = np.cross(unit[6 * block + 3 : 6 * block + 6], lever, axisa=0, axisc=0)
        travel[k] = model.axes.up @ (moved + turned)
        wanted[k] = -(model.points[wheel.centre] @ model.axes.left)
    for k, element in enumerate(locked):
        if not 0.05 < abs(travel[k, k]) < 20 or np.linalg.cond(travel) > 1e4:
            raise FrameError(
                f"{element.name} does not set the travel of {element.wheel} (it moves by {travel[k, k]:.2g} mm for "
                "each mm of its length), so that body roll cannot be brought in; lock the spring that carries "
                "the wheel, or leave roll_stiffness out"
            )
    movement: Array = unit @ np.linalg.solve(travel, wanted)
    return movement


def _recover(
    system: System, cases: tuple[LoadCase, ...], u: Array, loads: Array, line: Array, ground: Array
) -> Solution:
    mesh, beams, springs = system.mesh, system.beams, system.springs
    nb, nc = len(mesh.owners), len(cases)
    block = u.reshape(nb, 6, nc)
    ends = system.turn @ _pairs(block, mesh.elements.ends)
    q = beams.rigidity @ (beams.relative @ ends) + beams.from_load @ line
    on_elements = np.swapaxes(beams.relative, 1, 2) @ q
    on_elements[:, :6] -= beams.resultant @ line
    stretch = springs.rates[:, :, None] * (springs.relative @ _pairs(block, springs.blocks))
    need = _onto_blocks(mesh, mesh.elements.ends, np.swapaxes(system.turn, 1, 2) @ on_elements)
    need += _onto_blocks(mesh, springs.blocks, np.swapaxes(springs.relative, 1, 2) @ stretch)
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
    push_names, pushes = _pushes(system, rows[ideal : ideal + locked], nc)
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
    )


def _pairs(block: Array, ends: NDArray[np.intp]) -> Array:
    """(n, 12, nc) freedoms of two blocks each."""
    return block[ends].reshape(len(ends), 12, block.shape[-1])


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
    own = {name: -stretch[k] for k, name in enumerate(system.springs.names)}
    for row, force in zip(system.constraints.rows[: system.rows[0]], rows, strict=False):
        wrench = np.zeros((6, nc))
        wrench[list(HELD[system.model.joints[row.owner].kind])] = force
        own[row.owner] = wrench
    names = tuple(system.model.joints)
    wrenches = np.array([own[n] for n in names]).reshape(-1, 2, 3, nc)
    axes = np.array([system.model.joints[n].axes for n in names]).reshape(-1, 1, 3, 3)
    return names, (np.swapaxes(axes, 2, 3) @ wrenches).reshape(-1, 6, nc)


def _pushes(system: System, locked_rows: list[Array], nc: int) -> tuple[tuple[str, ...], Array]:
    elements = tuple(system.model.force_elements.values())
    pushes = np.zeros((len(elements), nc))
    locked = iter(locked_rows)
    for k, element in enumerate(elements):
        pushes[k] = next(locked)[0] if element.locked else element.force
    return tuple(e.name for e in elements), pushes


def _redundant(system: System) -> tuple[tuple[str, ...], ...]:
    rows = system.constraints.rows
    groups = (
        tuple(rows[int(o)].owner for o in np.unique(g.owners[g.redundant])) for g in system.constraints.groups
    )
    return tuple(names for names in groups if names)
