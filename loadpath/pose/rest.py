"""The travel at which the springs carry a load: Newton on the wheels' travels, by virtual work.

For each wheel the power of everything on the velocity field of its travel vanishes there. Bending of a bar's arms and
what else gives is left to the frame, which tells how far the force of the spring that it holds at this length
differs from the spring's own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from loadpath.model import LoadCase, Model, in_short
from loadpath.pose.equations import State
from loadpath.pose.errors import NoRest, PoseError
from loadpath.pose.mechanism import Mechanism
from loadpath.pose.poses import with_carriers
from loadpath.pose.reach import IN_LINE, refuse, what_binds
from loadpath.pose.solving import solve_states
from loadpath.pose.virtual import Given, given_forces, virtual_power
from loadpath.pose.windup import Clamped, clamped

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]
Chosen = NDArray[np.bool_] | NDArray[np.intp]

CLOSE = 1e-11
"""Share of the largest force of a load case that may be left over."""
_ITERATIONS = 60
_HALVINGS = 14
_FARTHEST = 30.0
"""[mm] that a wheel may travel in one iteration."""
_NUDGE = 1e-3
"""[mm] by which the change of the power with travel is found."""


def rest(
    mechanism: Mechanism, cases: Sequence[LoadCase], stood: Sequence[Model], start: Array, rates: Array
) -> Array:
    """(p, nd) driver values at which the springs carry p load cases; racks stay as in `start` (p, nd).

    stood : the model that each load case was built on. rates : of the parts that twist, see `twist_rates`.

    Raises
    ------
    NoRest : load cases that no travel balances or whose racks cannot stand as asked, all of them; a spring's law that
        is not known.
    """
    _check_laws(mechanism, cases)
    problem = Problem(mechanism, given_forces(mechanism, cases, stood), clamped(mechanism), rates)
    size = np.maximum(np.abs(problem.given.force).max(axis=(1, 2)), 1.0)
    now = _try(problem, start, None)
    _tell([_not_reached(mechanism, c, at) for c, at, g in zip(cases, start, now.good, strict=True) if not g])
    for _ in range(_ITERATIONS):
        open_ = np.abs(now.left).max(axis=1) > CLOSE * size
        if not open_.any():
            break
        some, here = problem.some(open_), now.some(open_)
        better = _better(some, here, _step(some, here))
        if np.array_equal(better.values, here.values):
            break
        now = now.with_some(open_, better)
    missed = now.left / size[:, None]
    _tell(
        [w for c, at, m in zip(cases, now.values, missed, strict=True) if (w := _fault(mechanism, c, at, m))]
    )
    return now.values


@dataclass(frozen=True, eq=False)
class Problem:
    """p load cases on a linkage; bushings are at rest where they were clamped, parts that twist have these rates."""

    mechanism: Mechanism
    given: Given
    rest: Clamped
    rates: Array

    def some(self, chosen: Chosen) -> Problem:
        """Some of the load cases."""
        given = replace(self.given, force=self.given.force[chosen], moment=self.given.moment[chosen])
        return replace(self, given=given)


@dataclass(frozen=True, eq=False)
class Try:
    """Driver values (p, nd), what is left over there for each wheel (p, nw), whether they were reached, the state."""

    values: Array
    left: Array
    good: Flags
    state: State

    def some(self, chosen: Chosen) -> Try:
        """Some of the load cases."""
        return Try(self.values[chosen], self.left[chosen], self.good[chosen], self.state.pick(chosen))

    def with_some(self, chosen: Flags, others: Try) -> Try:
        """With others in the place of some."""
        return Try(
            _put(self.values, chosen, others.values),
            _put(self.left, chosen, others.left),
            self.good | chosen,
            State(
                _put(self.state.turn, chosen, others.state.turn),
                _put(self.state.shift, chosen, others.state.shift),
            ),
        )


def _put(whole: Array, chosen: Flags, part: Array) -> Array:
    """An array with other rows in the place of the chosen ones."""
    made = whole.copy()
    made[chosen] = part
    return made


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
            f"load case {in_short([c.name for c in cases])}: no travel can be found at which the springs carry it: "
            f"{what}; say the spring's rate with its load at design height or its free length, or its force table"
        )


def _try(problem: Problem, values: Array, near: Try | None) -> Try:
    """What is left over at driver values; the linkage sets out from another try."""
    start = (None, None) if near is None else (near.state, near.values)
    solved = solve_states(problem.mechanism, values, *start)
    poses = with_carriers(problem.mechanism, values, solved)
    power = virtual_power(poses, problem.given, problem.rest, problem.rates)
    return Try(values, power[:, : len(problem.mechanism.wheels)], solved.good, solved.state)


def _step(problem: Problem, now: Try) -> Array:
    """(p, nw) Newton's step."""
    count, wheels = now.left.shape
    every, wheel = np.tile(np.arange(count), wheels), np.repeat(np.arange(wheels), count)
    nudged = now.values[every]
    nudged[np.arange(len(every)), wheel] += _NUDGE
    left = _try(problem.some(every), nudged, now.some(every)).left
    change = np.moveaxis((left - now.left[every]).reshape(wheels, count, wheels) / _NUDGE, 0, 2)
    step = np.stack([-np.linalg.lstsq(c, x, rcond=1e-9)[0] for c, x in zip(change, now.left, strict=True)])
    farthest = np.abs(step).max(axis=1, keepdims=True)
    limited: Array = step * np.minimum(1.0, _FARTHEST / np.maximum(farthest, 1e-12))
    return limited


def _better(problem: Problem, now: Try, step: Array) -> Try:
    """After the largest part of the step (halved) that leaves less over in each load case."""
    best, share, done = now, np.ones(len(step)), np.zeros(len(step), dtype=bool)
    for _ in range(_HALVINGS):
        values = now.values.copy()
        values[:, : step.shape[1]] += share[:, None] * step
        tried = _try(problem, values, now)
        takes = tried.good & ~done & (np.abs(tried.left).max(axis=1) < np.abs(now.left).max(axis=1))
        best = best.with_some(takes, tried.some(takes))
        done |= takes
        if done.all():
            break
        share = np.where(done, share, share / 2)
    return best


def _tell(faults: Sequence[str]) -> None:
    """All load cases that find no travel, in one error."""
    if len(faults) == 1:
        raise NoRest(faults[0])
    if faults:
        raise NoRest(f"{len(faults)} load cases find no travel:\n" + "\n".join(f"  {f}" for f in faults))


def _not_reached(mechanism: Mechanism, case: LoadCase, at: Array) -> str:
    """Why the search for the travel cannot even begin where a load case asks for."""
    try:
        refuse(mechanism, at)
    except PoseError as error:
        return f"load case {case.name}: {error}"


def _fault(mechanism: Mechanism, case: LoadCase, at: Array, missed: Array) -> str:
    """What is wrong at driver values (nd,) that leave shares (nw,) of the load over, or ""."""
    worst = int(np.abs(missed).argmax())
    if np.abs(missed).max() > 1e3 * CLOSE:
        more = "more" if missed[worst] > 0 else "less"
        return (
            f"load case {case.name}: no travel is found at which the springs and stops of {mechanism.wheels[worst]} "
            f"carry its load; at {at[worst]:+.1f} mm of jounce the load is still {more} than they push with"
            f"{_bound(mechanism, at, worst, more == 'more')}"
        )
    for name, travel in zip(mechanism.wheels, at, strict=False):
        wheel = mechanism.model.wheels[name]
        most, word = (wheel.jounce, "jounce") if travel > 0 else (wheel.rebound, "rebound")
        if most is not None and abs(travel) > most:
            return (
                f"load case {case.name}: its load takes {name} to {travel:+.1f} mm, beyond its full {word} "
                f"of {most:g} mm; a stop is missing or too soft"
            )
    return ""


def _bound(mechanism: Mechanism, at: Array, wheel: int, upward: bool) -> str:
    """What keeps a wheel from going on from driver values (nd,) the way its load takes it; "" where nothing does."""
    beyond = at.copy()
    beyond[wheel] += _FARTHEST if upward else -_FARTHEST
    try:
        binds = what_binds(mechanism, beyond)
    except PoseError as error:
        return f"; beyond that {error}"
    return f", and the linkage goes no farther: {binds} binds there ({IN_LINE})" if binds else ""
