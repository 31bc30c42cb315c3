"""Cuts through the load path, and the share of each joint in what goes through a cut.

A cut is a closed line round some parts. What crosses it is counted as the force of the parts inside on those
outside. Share of a joint = its component / the net component through the cut; the net is also what loads and
masses inside leave to be carried: that closes every cut.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import BODY, Model
from loadpath.trace.errors import TraceError, unknown
from loadpath.trace.freebody import LOAD, MASS, Action, closing_error, worth
from loadpath.trace.measure import Measure

Array = NDArray[np.float64]

NO_NET = 0.02
"""A net component below this share of the largest force at the cut (or moment) counts as none."""

STANDS = 3
"""A part with this many joints to the body stands on it by itself: it is what arms are mounted to."""


@dataclass(frozen=True)
class Cut:
    """A closed line round the parts `inside`; `name` is for files, `title` for people."""

    name: str
    title: str
    inside: frozenset[str]


def standard_cuts(model: Model) -> tuple[Cut, ...]:
    """Wheels to arms, arms to cradle and body, everything onto the body; cuts round the same parts once.

    Arms are the parts joined to a wheel's carrying part, links included, but for the body and for parts that
    stand on the body by three joints or more. Wheels that share an arm have one cut round all their arms.
    """
    carried: dict[str, list[str]] = {}
    for wheel in model.wheels.values():
        carried.setdefault(wheel.part, []).append(wheel.name)
    arms = {part: _arms(model, part, carried) for part in carried}
    cuts = []
    for part, wheels in carried.items():
        who = " and ".join(wheels)
        cuts.append(Cut(f"{'_'.join(wheels)}_to_arms", f"Wheel to arms, {who}", frozenset([part])))
    for parts in _sharing(arms):
        wheels = [w for part in parts for w in carried[part]]
        inside = frozenset([*parts, *(a for part in parts for a in arms[part])])
        title = f"Arms to cradle and body, {' and '.join(wheels)}"
        cuts.append(Cut(f"arms_of_{'_'.join(wheels)}", title, inside))
    cuts.append(Cut("onto_body", "Everything onto the body", frozenset(model.parts)))
    return tuple({cut.inside: cut for cut in cuts}.values())


def cut_round(model: Model, parts: Sequence[str]) -> Cut:
    """The cut round parts of one's choice.

    Raises
    ------
    TraceError : a part that is not there, or none.
    """
    for part in parts:
        if part not in model.parts:
            raise unknown("part", part, model.parts)
    if not parts:
        raise TraceError("a cut goes round one part or more")
    return Cut(f"round_{'_'.join(parts)}", f"Round {', '.join(parts)}", frozenset(parts))


def _arms(model: Model, part: str, carried: Mapping[str, object]) -> tuple[str, ...]:
    found: dict[str, None] = {}
    for joint in model.joints.values():
        if part in joint.between:
            (other,) = (p for p in joint.between if p != part)
            found[other] = None
    return tuple(p for p in found if p != BODY and p not in carried and not stands(model, p))


def stands(model: Model, part: str) -> bool:
    """True for a part that stands on the body by itself, as a cradle does."""
    return sum(set(j.between) == {part, BODY} for j in model.joints.values()) >= STANDS


def _sharing(arms: Mapping[str, tuple[str, ...]]) -> list[list[str]]:
    """Carrying parts in groups that have an arm in common."""
    groups: list[tuple[list[str], set[str]]] = []
    for part, own in arms.items():
        joined, reach = [part], set(own)
        for group in [g for g in groups if g[1] & reach]:
            groups.remove(group)
            joined, reach = group[0] + joined, reach | group[1]
        groups.append((joined, reach))
    return [parts for parts, _ in groups]


@dataclass(frozen=True, eq=False)
class Flow:
    """What goes through a cut in one load case.

    crossings : forces on the parts outside. entering : loads and masses on the parts inside.
    closing : relative error of the balance of both, in force and in moment.
    """

    cut: Cut
    crossings: tuple[Action, ...]
    entering: tuple[Action, ...]
    closing: float


def flow_through(cut: Cut, bodies: Mapping[str, Sequence[Action]]) -> Flow:
    """What crosses a cut, from the free bodies of one load case."""
    crossings = tuple(
        action
        for part, actions in bodies.items()
        if part not in cut.inside
        for action in actions
        if action.source in cut.inside
    )
    on = [action for part in bodies if part in cut.inside for action in bodies[part]]
    entering = tuple(action for action in on if action.kind in (LOAD, MASS))
    across = [action for action in on if action.source and action.source not in cut.inside]
    return Flow(cut, crossings, entering, closing_error([*entering, *across], worth(bodies)))


@dataclass(frozen=True, eq=False)
class Shares:
    """One measure of a flow.

    values : (n,) of each crossing [N or N·mm]. net : their sum. shares : (n,) value / net, or None where
    there is no net. loads, masses : what comes in inside the cut, together the net.
    """

    flow: Flow
    measure: Measure
    values: Array
    net: float
    shares: Array | None
    loads: float
    masses: float


def shares_along(flow: Flow, measure: Measure) -> Shares:
    """Value and share of each crossing."""
    values = np.array([measure.of(a.wrench, a.position) for a in flow.crossings])
    largest = max((measure.size(a.wrench, a.position) for a in flow.crossings), default=0.0)
    net = float(values.sum())
    shares = values / net if abs(net) > NO_NET * largest else None
    loads, masses = (
        sum(float(measure.of(a.wrench, a.position)) for a in flow.entering if a.kind == kind)
        for kind in (LOAD, MASS)
    )
    return Shares(flow, measure, values, net, shares, loads, masses)
