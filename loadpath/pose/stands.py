"""The pose that each load case acts in, and the model as it stands there."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from loadpath.model import LoadCase, Model, PoseWish, Stand, design_stand, in_short
from loadpath.pose.errors import NoRest
from loadpath.pose.mechanism import Mechanism, make_mechanism
from loadpath.pose.posed import posed_model, standing
from loadpath.pose.poses import pose_many
from loadpath.pose.pushes import law_pushes
from loadpath.pose.rest import rest
from loadpath.pose.twisting import Held, twist_rates
from loadpath.pose.windup import clamped

Array = NDArray[np.float64]
Build = Callable[[Model, Collection[str]], Mapping[str, LoadCase]]

ALIKE = 1e-6
"""[mm] within which two poses are one."""
SETTLED = 1e-3
"""[mm] within which the travel under a load stays when the load follows the wheel."""
NOTHING = 1e-9
"""[mm or rad] of wind-up or twist that is none."""
_ROUNDS = 8


def stands(
    model: Model, cases: Mapping[str, LoadCase], build: Build, held: Held | None = None
) -> tuple[Stand, ...]:
    """One for each pose that the load cases act in.

    cases : as they are at design height. build : makes those of some names for a model in whatever pose it stands:
        their forces act where wheels and points are in it. held : by which it is found how stiff an anti-roll bar
        is; without it by the torsion between its holders alone.

    Raises
    ------
    PoseError : a linkage that cannot be posed, a travel out of reach, a load that no travel carries or that moves the
        wheels anew whenever it follows them.
    """
    alone = design_stand(model, cases)
    if alone is not None:
        return (alone,)
    return _by_pose(make_mechanism(model), cases, build, held)


def _by_pose(
    mechanism: Mechanism, cases: Mapping[str, LoadCase], build: Build, held: Held | None
) -> tuple[Stand, ...]:
    ordered = list(cases.values())
    targets = np.array([_given(mechanism, case) for case in ordered])
    loaded = [c for c, case in enumerate(ordered) if _wish(case).by == "from load"]
    if loaded:
        rates = twist_rates(mechanism, held)
        targets[loaded] = _settled(mechanism, [ordered[c] for c in loaded], targets[loaded], build, rates)
    kinds = np.concatenate([np.round(targets / ALIKE), [[_at_design(case)] for case in ordered]], axis=1)
    _, first, which = np.unique(kinds, axis=0, return_index=True, return_inverse=True)
    ranked = sorted(range(len(first)), key=lambda k: int(first[k]))
    models = _models(mechanism, targets[first])
    return tuple(
        _stand(mechanism, models[k], np.flatnonzero(which.ravel() == k), ordered, build) for k in ranked
    )


def _settled(
    mechanism: Mechanism, cases: Sequence[LoadCase], start: Array, build: Build, rates: Array
) -> Array:
    """(p, nd) driver values at which springs carry the loads, which are placed anew for every pose found."""
    stood, targets, ordered = [mechanism.model] * len(cases), start, list(cases)
    for _ in range(_ROUNDS):
        found = rest(mechanism, ordered, stood, targets, rates)
        moved, targets = np.abs(found - targets).max(axis=1), found
        if moved.max() < SETTLED:
            break
        stood = _models(mechanism, targets)
        ordered = [build(m, (c.name,))[c.name] for m, c in zip(stood, cases, strict=True)]
    else:
        names = in_short([c.name for c, by in zip(cases, moved, strict=True) if not by < SETTLED])
        raise NoRest(
            f"load case {names}: the travel still changes by {moved.max():.2g} mm after {_ROUNDS} rounds in which "
            "the loads followed the wheels; give the travel in numbers"
        )
    return targets


def _wish(case: LoadCase) -> PoseWish:
    return case.pose or PoseWish(by="design")


def _at_design(case: LoadCase) -> bool:
    """Whether the body's roll is still to be brought in by the lengths of the struts."""
    return _wish(case).by == "design" and bool(case.roll)


def _given(mechanism: Mechanism, case: LoadCase) -> Array:
    """(nd,) driver values that a load case asks for; where to begin, of one that asks for its load."""
    wish, model = _wish(case), mechanism.model
    if wish.by == "design":
        return mechanism.targets({})
    travel = {name: wish.travel_of(name) for name in mechanism.wheels}
    if wish.by == "from roll":
        for name in travel:
            wheel = model.wheels[name]
            travel[name] -= float(np.tan(case.roll) * (model.at(wheel.part, wheel.centre) @ model.axes.left))
    return mechanism.targets(travel, wish.rack)


def _models(mechanism: Mechanism, targets: Array) -> list[Model]:
    """The model at each of several driver values (p, nd)."""
    poses = pose_many(mechanism, targets)
    found = standing(poses, clamped(mechanism), law_pushes(poses))
    return [posed_model(found, k) for k in range(len(targets))]


def _stand(
    mechanism: Mechanism, posed: Model, numbers: NDArray[np.intp], cases: Sequence[LoadCase], build: Build
) -> Stand:
    """The load cases of one pose; the model as it is where nothing has moved and nothing is wound up."""
    own = [cases[c] for c in numbers]
    pose = posed.pose
    assert pose is not None
    strained = any(np.abs(w).max() > NOTHING for w in (*pose.windup.values(), *pose.twist.values()))
    if not strained and not any(pose.travel.values()) and not any(pose.rack.values()):
        return Stand(mechanism.model, tuple(own), tuple(map(int, numbers)))
    built = build(posed, [case.name for case in own])
    roll = [case.roll if _at_design(case) else 0.0 for case in own]
    there = tuple(replace(built[c.name], roll=r) for c, r in zip(own, roll, strict=True))
    return Stand(posed, there, tuple(map(int, numbers)))
