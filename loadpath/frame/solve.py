"""From a system and its load cases to movements and recovered forces."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.blocks import onto_blocks
from loadpath.frame.constraints import given_movement
from loadpath.frame.errors import FrameError
from loadpath.frame.rightside import block_loads, ground_movement, line_numbers
from loadpath.frame.solution import Outside, Solution, recover
from loadpath.frame.strain import strain_push
from loadpath.frame.system import System, build_system
from loadpath.frame.tables import solve_curved, unit_pairs
from loadpath.model import LoadCase, Model

Array = NDArray[np.float64]


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
    strain = np.array([case.strain for case in cases])
    given = _moved_ground(system, ground)
    rolls = np.array([case.roll for case in cases])
    lengths = _unit_lengths(system) if rolls.any() else np.zeros((len(loads), 0))
    given = np.concatenate([given, lengths], axis=1)
    right = np.zeros_like(given)
    right[:, : len(cases)] = loads + _line_on_blocks(system, line) + _ground_push(system, ground)
    if strain.any():
        right[:, : len(cases)] += np.outer(strain_push(system), strain)
    if given.any():
        right -= system.stiffness @ given
    u = given + _free_movement(system, right)
    u, unit = u[:, : len(cases)], u[:, len(cases) :]
    if rolls.any():
        u = u + np.outer(_roll(system, unit), rolls)
    u, excess, beyond = _with_tables(system, u, strain)
    return recover(system, tuple(cases), u, Outside(loads, line, ground), excess, beyond)


def _with_tables(system: System, u: Array, strain: Array) -> tuple[Array, Array, Array]:
    """Movements with the force-deflection tables in place of the rates at rest, see `tables`."""
    springs = system.springs
    if not springs.curves:
        none = np.zeros((0, u.shape[1]))
        return u, none, none
    pairs = unit_pairs(springs, system.mesh)
    answers = _free_movement(system, pairs)
    wound = np.array([springs.windup[k, i] for k, i, _ in springs.curves])
    curved = solve_curved(springs, pairs.T @ answers, pairs.T @ u + np.outer(wound, strain))
    return u - answers @ curved.excess, curved.excess, curved.beyond


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
    return -onto_blocks(system.mesh, system.mesh.elements.ends, ends)


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
