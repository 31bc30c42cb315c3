"""Why a pose cannot be reached: where the linkage stops, and what binds there."""

from __future__ import annotations

from typing import NoReturn

import numpy as np
from numpy.typing import NDArray

from loadpath.model import BODY
from loadpath.pose.equations import State, at_design
from loadpath.pose.errors import OutOfReach, OverConstrained
from loadpath.pose.mechanism import Mechanism
from loadpath.pose.solving import CLOSE, REPEATED, STEP, Solved, solve_states

Array = NDArray[np.float64]

_CLOSER = 1e-4


def refuse(mechanism: Mechanism, target: Array) -> NoReturn:
    """Say why driver values (nd,) cannot be reached from design height.

    Raises
    ------
    OutOfReach, OverConstrained
    """
    reached, state = 0.0, at_design(1, len(mechanism.bodies.groups))
    step = min(1.0, STEP / max(float(np.abs(target).max()), 1e-9)) / 2
    while step > _CLOSER:
        solved = _try(mechanism, target, reached, min(reached + step, 1.0), state)
        if solved.good[0]:
            reached, state = min(reached + step, 1.0), solved.state
            if reached == 1.0:
                break
            continue
        if _contradicts(mechanism, solved):
            raise OverConstrained(_missed_words(mechanism, solved.missed[0], reached * target))
        step /= 2
    raise OutOfReach(_stop_words(mechanism, target, reached, state))


def _try(mechanism: Mechanism, target: Array, begin: float, end: float, state: State) -> Solved:
    return solve_states(mechanism, end * target[None], state, begin * target[None])


def _contradicts(mechanism: Mechanism, solved: Solved) -> bool:
    """True where the solved equations are met but those that repeat them at design height are not."""
    missed = np.abs(solved.missed[0])
    return bool(missed[mechanism.equations.solved].max(initial=0.0) < 1e3 * CLOSE and missed.max() > REPEATED)


def _missed_words(mechanism: Mechanism, missed: Array, near: Array) -> str:
    owner, worst = mechanism.equations.owner, int(np.abs(missed).argmax())
    return (
        f"the joints contradict each other once the wheels travel: near {_travel(mechanism, near)} "
        f"{owner[worst]} misses by {abs(missed[worst]):.3g} mm. Bushings count as balls at their centres; "
        "let one of them slide or go free in the kinematics with moves_as"
    )


def _stop_words(mechanism: Mechanism, target: Array, reached: float, state: State) -> str:
    equations = mechanism.equations
    solved = solve_states(mechanism, reached * target[None], state, reached * target[None])
    u, _, _ = np.linalg.svd(solved.change[0])
    share = np.abs(u[:, -1])
    names = [equations.owner[k] for k in equations.solved]
    sizes: dict[str, float] = {}
    for name, size in zip(names, share, strict=True):
        if name not in mechanism.drivers:
            for part in _parts_of(mechanism, name):
                sizes[part] = max(sizes.get(part, 0.0), float(size))
    carriers = {w.part for w in mechanism.model.wheels.values()} | {BODY}
    able = {p: s for p, s in sizes.items() if p not in carriers} or sizes
    binds = max(able, key=lambda p: able[p]) if able else "the linkage"
    return (
        f"{_travel(mechanism, target)} cannot be reached: the suspension stops at "
        f"{_travel(mechanism, reached * target)}, where {binds} binds (it stands in line with what it moves)"
    )


def _parts_of(mechanism: Mechanism, owner: str) -> tuple[str, ...]:
    joint = mechanism.model.joints.get(owner)
    return (owner,) if joint is None else joint.between


def _travel(mechanism: Mechanism, values: Array) -> str:
    """Driver values in words, those at zero left out."""
    wheels = dict(zip(mechanism.drivers, values, strict=True))
    moved = [f"{name} {value:+.1f}" for name, value in wheels.items() if abs(value) > 0.05]
    return f"{', '.join(moved) or 'design height'} mm" if moved else "design height"
