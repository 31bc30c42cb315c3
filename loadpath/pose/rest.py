"""The travel at which the springs carry a load: Newton on the wheels' travels, by virtual work.

For each wheel the power of everything on the velocity field of its travel vanishes there. Bending of a bar's arms and
what else gives is left to the frame, which tells how far the force of the spring that it holds at this length
differs from the spring's own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from loadpath.model import LoadCase, Model
from loadpath.pose.errors import NoRest
from loadpath.pose.mechanism import Mechanism
from loadpath.pose.poses import with_carriers
from loadpath.pose.reach import refuse
from loadpath.pose.solving import solve_states
from loadpath.pose.virtual import Given, given_forces, virtual_power
from loadpath.pose.windup import Clamped, clamped

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

CLOSE = 1e-11
"""Share of the largest force of a load case that may be left over."""
_ITERATIONS = 60
_HALVINGS = 14
_FARTHEST = 30.0
"""[mm] that a wheel may travel in one iteration."""
_NUDGE = 1e-3
"""[mm] by which the change of the power with travel is found."""


def rest(mechanism: Mechanism, cases: Sequence[LoadCase], stood: Sequence[Model], start: Array) -> Array:
    """(p, nd) driver values at which the springs carry p load cases; racks stay as in `start` (p, nd).

    stood : the model that each load case was built on.

    Raises
    ------
    NoRest : no travel balances a load, or a spring's law is not known.
    OutOfReach : the linkage stops before the springs carry the load.
    """
    _check_laws(mechanism, cases)
    given, loose = given_forces(mechanism, cases, stood), clamped(mechanism)
    size = np.maximum(np.abs(given.force).max(axis=(1, 2)), 1.0)
    values = start.copy()
    left, good = _left(mechanism, given, loose, values)
    if not good.all():
        refuse(mechanism, values[int(np.flatnonzero(~good)[0])])
    for _ in range(_ITERATIONS):
        open_ = np.abs(left).max(axis=1) > CLOSE * size
        if not open_.any():
            break
        step = _step(mechanism, _some(given, open_), loose, values[open_], left[open_])
        better, its_left = _better(mechanism, _some(given, open_), loose, values[open_], left[open_], step)
        if np.array_equal(better, values[open_]):
            break
        values[open_], left[open_] = better, its_left
    _check(mechanism, cases, values, left / size[:, None])
    return values


def _check_laws(mechanism: Mechanism, cases: Sequence[LoadCase]) -> None:
    elements = mechanism.model.force_elements.values()
    unknown = [e.name for e in elements if e.law is None and e.locked]
    held = {e.wheel for e in elements}
    bare = [w for w in mechanism.wheels if w not in held]
    if unknown or bare:
        what = (
            f"what {', '.join(unknown)} pushes with is not known"
            if unknown
            else f"nothing holds {bare[0]} up"
        )
        raise NoRest(
            f"load case {cases[0].name}: no travel can be found at which the springs carry it: {what}; "
            "say the spring's rate with its load at design height or its free length, or its force table"
        )


def _some(given: Given, chosen: Flags) -> Given:
    return replace(given, force=given.force[chosen], moment=given.moment[chosen])


def _left(mechanism: Mechanism, given: Given, loose: Clamped, values: Array) -> tuple[Array, Flags]:
    """(p, nw) what is left over for each wheel, and whether the pose was reached."""
    solved = solve_states(mechanism, values)
    power = virtual_power(with_carriers(mechanism, values, solved), given, loose)
    return power[:, : len(mechanism.wheels)], solved.good


def _step(mechanism: Mechanism, given: Given, loose: Clamped, values: Array, left: Array) -> Array:
    """(p, nw) Newton's step."""
    wheels = len(mechanism.wheels)
    change = np.empty((len(values), wheels, wheels))
    for k in range(wheels):
        nudged = values.copy()
        nudged[:, k] += _NUDGE
        change[:, :, k] = (_left(mechanism, given, loose, nudged)[0] - left) / _NUDGE
    step = np.stack([-np.linalg.lstsq(c, x, rcond=1e-9)[0] for c, x in zip(change, left, strict=True)])
    farthest = np.abs(step).max(axis=1, keepdims=True)
    limited: Array = step * np.minimum(1.0, _FARTHEST / np.maximum(farthest, 1e-12))
    return limited


def _better(
    mechanism: Mechanism, given: Given, loose: Clamped, values: Array, left: Array, step: Array
) -> tuple[Array, Array]:
    """Values and leftovers after the largest part of the step (halved) that leaves less over in each case."""
    best, its_left, share = values.copy(), left.copy(), np.ones(len(values))
    wheels, done = step.shape[1], np.zeros(len(values), dtype=bool)
    for _ in range(_HALVINGS):
        tried = values.copy()
        tried[:, :wheels] += share[:, None] * step
        found, good = _left(mechanism, given, loose, tried)
        takes = good & ~done & (np.abs(found).max(axis=1) < np.abs(left).max(axis=1))
        best[takes], its_left[takes] = tried[takes], found[takes]
        done |= takes
        if done.all():
            break
        share = np.where(done, share, share / 2)
    return best, its_left


def _check(mechanism: Mechanism, cases: Sequence[LoadCase], values: Array, left: Array) -> None:
    """Every load case balances, within the wheels' travel."""
    for case, at, missed in zip(cases, values, left, strict=True):
        worst = int(np.abs(missed).argmax())
        name = mechanism.wheels[worst]
        if np.abs(missed).max() > 1e3 * CLOSE:
            more = "more" if missed[worst] > 0 else "less"
            raise NoRest(
                f"load case {case.name}: the springs and stops of {name} carry its load at no travel that the "
                f"linkage reaches; at {at[worst]:+.1f} mm of jounce the load is still {more} than they push with"
            )
        for wheel_name, travel in zip(mechanism.wheels, at, strict=False):
            wheel = mechanism.model.wheels[wheel_name]
            most, word = (wheel.jounce, "jounce") if travel > 0 else (wheel.rebound, "rebound")
            if most is not None and abs(travel) > most:
                raise NoRest(
                    f"load case {case.name}: its load takes {wheel_name} to {travel:+.1f} mm, beyond its full {word} "
                    f"of {most:g} mm; a stop is missing or too soft"
                )
