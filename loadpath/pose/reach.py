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

IN_LINE = "it stands in line with what it moves"
"""How a part binds."""
_CLOSER = 1e-4


def refuse(mechanism: Mechanism, target: Array) -> NoReturn:
    """Say why driver values (nd,) cannot be reached from design height.

    Raises
    ------
    OutOfReach, OverConstrained
    """
    reached, state = _farthest(mechanism, target)
    binds = _binding(mechanism, target, reached, state)
    raise OutOfReach(
        f"{_travel(mechanism, target)} cannot be reached: the suspension stops at "
        f"{_travel(mechanism, reached * target)}, where {binds} binds ({IN_LINE})"
    )


def what_binds(mechanism: Mechanism, target: Array) -> str:
    """The part that binds on the way from design height to driver values (nd,); "" where they are reached.

    Raises
    ------
    OverConstrained : joints that contradict each other on the way.
    """
    reached, state = _farthest(mechanism, target)
    return "" if reached == 1.0 else _binding(mechanism, target, reached, state)


def _farthest(mechanism: Mechanism, target: Array) -> tuple[float, State]:
    """The share of the way to driver values (nd,) that the linkage comes, and how it stands there."""
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
    return reached, state


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


def _binding(mechanism: Mechanism, target: Array, reached: float, state: State) -> str:
    """The part that lets the linkage go no farther than a share of the way to driver values (nd,)."""
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
    return max(able, key=lambda p: able[p]) if able else "the linkage"


def _parts_of(mechanism: Mechanism, owner: str) -> tuple[str, ...]:
    joint = mechanism.model.joints.get(owner)
    return (owner,) if joint is None else joint.between


def _travel(mechanism: Mechanism, values: Array) -> str:
    """Driver values in words, those at zero left out."""
    wheels = dict(zip(mechanism.drivers, values, strict=True))
    moved = [f"{name} {value:+.1f}" for name, value in wheels.items() if abs(value) > 0.05]
    return f"{', '.join(moved) or 'design height'} mm" if moved else "design height"
