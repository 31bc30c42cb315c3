"""Warnings about what a case names but does not use, or uses without joining it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from itertools import pairwise

from loadpath.case.carriers import points_of
from loadpath.case.errors import listed
from loadpath.case.reflect import twin_of
from loadpath.case.tables import CaseTable
from loadpath.model import BODY, Model

_OFF_GROUND = 5.0
"""[mm] that a contact patch may be off the ground without a word."""


def usage_warnings(case: CaseTable, model: Model, used: Collection[tuple[str, str]]) -> list[str]:
    """Unused points, sections and materials; parts at one point without a joint; parts joined to nothing.

    used : (what it is, name) of every name that some key refers to.
    """
    at_joints = {("point", j.point) for j in model.joints.values()}
    return [
        *_unused("point", case.points, {*used, *at_joints}),
        *_unused("section", case.sections, used),
        *_unused("material", case.materials, used),
        *_unjoined(model),
        *_alone(model),
        *_wrong_side(model),
        *_unheld_wheels(model),
        *_off_the_ground(case, model),
        *_twice(model),
        *_weak_ultimate(model),
    ]


def _wrong_side(model: Model) -> Iterator[str]:
    """Points named for one side that lie on the other: usually axes that are not said, or a sign."""
    for ending, side, sign in (("_l", "right", -1.0), ("_r", "left", 1.0)):
        across = [
            n for n, at in model.points.items() if n.endswith(ending) and sign * (at @ model.axes.left) > 1.0
        ]
        if across:
            yield f"points: {listed(across)} end in {ending} but lie on the {side} side; look at axes.left and signs"


def _unheld_wheels(model: Model) -> Iterator[str]:
    held = {e.wheel for e in model.force_elements.values()}
    loose = [w for w in model.wheels if w not in held]
    if loose:
        yield f"wheels: no spring or strut holds up {listed(loose)}; only bushings and bars resist its travel"


def _off_the_ground(case: CaseTable, model: Model) -> Iterator[str]:
    if case.vehicle is None:
        return
    for wheel in model.wheels.values():
        gap = float(model.points[wheel.centre] @ model.axes.up) - wheel.radius - case.vehicle.ground
        if abs(gap) > _OFF_GROUND:
            where = "above" if gap > 0 else "below"
            yield (
                f"wheels.{wheel.name}: its contact patch, one radius below its centre, lies {abs(gap):.0f} mm "
                f"{where} vehicle.ground"
            )


def _twice(model: Model) -> Iterator[str]:
    """Joints, members and points that stand twice, as after copying."""
    joints: dict[tuple[str, frozenset[str]], list[str]] = {}
    for joint in model.joints.values():
        joints.setdefault((joint.point, frozenset(joint.between)), []).append(joint.name)
    for (point, _), names in joints.items():
        if len(names) > 1:
            yield f"joints: {listed(names)} tie the same two parts at {point}"
    stretches: dict[tuple[str, frozenset[str]], list[str]] = {}
    for part in model.parts.values():
        for member in part.members:
            for pair in pairwise(member.path):
                stretches.setdefault((part.name, frozenset(pair)), []).append(member.name)
    for (part_name, pair_), names in stretches.items():
        if len(names) > 1:
            yield f"parts.{part_name}: members {listed(names)} both run between {listed(sorted(pair_))}"
    places: dict[tuple[float, ...], list[str]] = {}
    for name, at in model.points.items():
        places.setdefault(tuple(float(x) for x in at.round(3) + 0.0), []).append(name)
    for names in places.values():
        if len(names) > 1:
            yield f"points: {listed(names)} are at one place"


def _weak_ultimate(model: Model) -> Iterator[str]:
    for material in {m.material.name: m.material for p in model.parts.values() for m in p.members}.values():
        if material.proof and material.ultimate and material.ultimate < material.proof:
            yield f"materials.{material.name}: its ultimate strength is below its proof stress"


def _unused(kind: str, names: Iterable[str], used: Collection[tuple[str, str]]) -> Iterator[str]:
    """A twin counts as used with the name that it is made of."""
    idle = [n for n in names if (kind, n) not in used and (kind, twin_of(n)) not in used]
    if idle:
        yield f"{kind}s: nothing uses {listed(idle)}"


def _unjoined(model: Model) -> Iterator[str]:
    """Parts that have a point in common which no joint there ties together."""
    parts: dict[str, dict[str, None]] = {}
    for part in model.parts.values():
        for point in points_of(part) or ():
            parts.setdefault(point, {})[part.name] = None
    groups: dict[str, list[set[str]]] = {}
    for joint in model.joints.values():
        parts.setdefault(joint.point, {}).update(dict.fromkeys(p for p in joint.between if p != BODY))
        touching = [g for g in groups.get(joint.point, []) if g & set(joint.between)]
        apart = [g for g in groups.get(joint.point, []) if not g & set(joint.between)]
        groups[joint.point] = [*apart, set(joint.between).union(*touching)]
    for point, names in parts.items():
        together = groups.get(point, [])
        if len(names) > 1 and not any(g >= names.keys() for g in together):
            yield f"points.{point}: {listed(names)} use this point, but no joint there ties them all together"


def _alone(model: Model) -> Iterator[str]:
    joined = {p for j in model.joints.values() for p in j.between}
    joined |= {p for e in model.force_elements.values() for p in e.between}
    alone = [p for p in model.parts if p not in joined]
    if alone:
        yield f"parts: nothing joins {listed(alone)} to anything"
