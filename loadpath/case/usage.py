"""Warnings about what a case names but does not use, or uses without joining it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator

from loadpath.case.carriers import points_of
from loadpath.case.errors import listed
from loadpath.case.reflect import twin_of
from loadpath.case.tables import CaseTable
from loadpath.model import BODY, Model


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
    ]


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
