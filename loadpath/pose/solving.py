"""Poses for given travels: Gauss-Newton on the joint equations of many poses at once.

A travel is approached in steps of at most STEP. Beyond a dead centre the equations have a second answer, in
which a part has folded over; the sign of the Jacobian's determinant tells the two apart.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.pose.equations import Equations, State, at_design
from loadpath.pose.mechanism import Mechanism

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

STEP = 40.0
"""[mm] of travel in one step."""
CLOSE = 1e-9
"""[mm] that an equation may miss."""
REPEATED = 1e-5
"""[mm] that an equation may miss that repeats others at design height."""
_ROUGH = 0.1
_ITERATIONS = 12
_FARTHEST = 150.0
"""[mm] that a freedom may move in one iteration."""


@dataclass(frozen=True, eq=False)
class Solved:
    """Answers for p sets of driver values.

    Attributes
    ----------
    state : of the bodies. change : (p, n, n) Jacobian of the solved equations there.
    good : (p,) the pose was reached, on the branch of the design pose.
    missed : (p, m) [mm] what every equation misses, repeated ones included.
    """

    state: State
    change: Array
    good: Flags
    missed: Array


def solve_states(
    mechanism: Mechanism, targets: Array, start: State | None = None, start_at: Array | None = None
) -> Solved:
    """States for driver values.

    Parameters
    ----------
    targets : (p, nd) driver values [mm].
    start : p states to set out from, at driver values start_at (p, nd); design height where not given.
    """
    equations = mechanism.equations
    state = start or at_design(len(targets), len(mechanism.bodies.groups))
    begin = np.zeros_like(targets) if start_at is None else start_at
    steps = max(int(np.ceil(np.abs(targets - begin).max(initial=0.0) / STEP)), 1)
    for k in range(1, steps):
        state = _newton(equations, state, begin + k / steps * (targets - begin), _ROUGH)
    state = _newton(equations, state, targets, CLOSE)
    missed, wrenches = equations.misses(state, targets)
    change = equations.jacobian(wrenches)[:, equations.solved]
    solved = np.abs(missed[:, equations.solved]).max(axis=1, initial=0.0) < 1e3 * CLOSE
    every = np.abs(missed).max(axis=1, initial=0.0) < REPEATED
    return Solved(state, change, solved & every & (_side(change) == mechanism.side), missed)


def _side(change: Array) -> Array:
    side: Array = np.linalg.slogdet(change)[0]
    return side


def _newton(equations: Equations, state: State, targets: Array, close: float) -> State:
    """States that meet the equations; poses that cannot stay as far off as they are."""
    for _ in range(_ITERATIONS):
        missed, wrenches = equations.misses(state, targets)
        missed = missed[:, equations.solved]
        if np.abs(missed).max(initial=0.0) < close:
            break
        amounts = -solve_each(equations.jacobian(wrenches)[:, equations.solved], missed[..., None])[..., 0]
        farthest = np.abs(amounts).max(axis=1, initial=0.0)[:, None]
        state = equations.step(state, amounts * np.minimum(1.0, _FARTHEST / np.maximum(farthest, 1e-12)))
    return state


def solve_each(matrix: Array, right: Array) -> Array:
    """(p, n, k) solutions; the smallest ones where one of the matrices is singular."""
    try:
        return np.asarray(np.linalg.solve(matrix, right), dtype=np.float64)
    except np.linalg.LinAlgError:
        smallest: Array = np.linalg.pinv(matrix, rcond=1e-12) @ right
        return smallest
