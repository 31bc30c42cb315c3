"""What if: a model without a member, joint, strut or part, or with one of another stiffness."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TypeVar

from loadpath.model import BodyMount, Joint, Member, Model, Part
from loadpath.trace.errors import TraceError
from loadpath.trace.naming import find

T = TypeVar("T")


def without(model: Model, name: str) -> tuple[Model, str]:
    """The model without something, and a sentence that says what went with it.

    Raises
    ------
    TraceError : what cannot be taken out, with the reason.
    """
    it = find(model, name)
    if it.kind == "joint":
        return replace(model, joints=_less(model.joints, it.names[0])), f"without the joint {it.title}"
    if it.kind == "strut":
        rest = _less(model.force_elements, it.names[0])
        return replace(model, force_elements=rest), f"without the strut {it.title}"
    if it.kind == "member":
        part = model.parts[it.names[0]]
        parts = {**model.parts, part.name: _less_member(model, part, it.names[1])}
        return replace(model, parts=parts), f"without the member {it.title} and its mass"
    if it.kind == "part":
        return _less_part(model, it.names[0])
    raise TraceError(f"{it.title}: the body cannot be taken out; take out the joint that stands there")


def _less(table: Mapping[str, T], name: str) -> dict[str, T]:
    return {key: value for key, value in table.items() if key != name}


def _less_member(model: Model, part: Part, name: str) -> Part:
    """The part without a member, where nothing hangs on the points that go with it."""
    members = tuple(m for m in part.members if m.name != name)
    if not members:
        raise TraceError(f"{name} is the only member of {part.name}: name the part instead")
    kept = {p for m in members for p in m.path}
    gone = {p for m in part.members for p in m.path} - kept
    gone |= {b.point for b in part.brackets if b.carried_by in gone}
    hung = [what for what, where in _hung(model, part.name) if where in gone]
    if hung:
        raise TraceError(
            f"{part.name}.{name} cannot be taken out, it carries {', '.join(hung)}; give it a small stiffness instead"
        )
    brackets = tuple(b for b in part.brackets if b.carried_by not in gone)
    return replace(part, members=members, brackets=brackets)


def _hung(model: Model, part: str) -> Iterator[tuple[str, str]]:
    """What is on a part, and the point it is at."""
    for joint in model.joints.values():
        if part in joint.between:
            yield joint.name, joint.point
    for strut in model.force_elements.values():
        yield from ((strut.name, p) for on, p in zip(strut.between, strut.ends, strict=True) if on == part)
    for mass in model.masses.values():
        if mass.part == part:
            yield f"the mass {mass.name}", mass.point
    for wheel in model.wheels.values():
        if wheel.part == part:
            yield wheel.name, wheel.centre


def _less_part(model: Model, part: str) -> tuple[Model, str]:
    for wheel in model.wheels.values():
        for takes, what in ((wheel.part, "carries"), (wheel.unit, "drives"), (wheel.brake_part, "brakes")):
            if takes == part:
                raise TraceError(f"{part} cannot be taken out: it {what} {wheel.name}")
    joints = {n: j for n, j in model.joints.items() if part not in j.between}
    struts = {n: s for n, s in model.force_elements.items() if part not in s.between}
    gone = [n for n in (*model.joints, *model.force_elements) if n not in joints and n not in struts]
    changed = replace(
        model,
        parts=_less(model.parts, part),
        joints=joints,
        force_elements=struts,
        masses={n: m for n, m in model.masses.items() if m.part != part},
    )
    return changed, f"without {part}, its mass and what joins it ({', '.join(gone) or 'nothing'})"


def dangling(before: Model, after: Model) -> list[str]:
    """Parts that hung between others before something was taken out, and now hang on one joint or on nothing."""

    def held(model: Model, part: str) -> int:
        pairs = [j.between for j in model.joints.values()] + [
            s.between for s in model.force_elements.values()
        ]
        return sum(part in pair for pair in pairs)

    wheels = {wheel.part for wheel in after.wheels.values()}
    return [p for p in after.parts if p not in wheels and held(after, p) <= 1 < held(before, p)]


def with_stiffness(model: Model, name: str, factor: float) -> tuple[Model, str]:
    """The model with the stiffness of a member, link, bushing or body point times a factor above 0.

    Raises
    ------
    TraceError : a factor that is none, or something that has no stiffness of its own.
    """
    if not 0 < factor < float("inf"):
        raise TraceError(f"{name}: a stiffness can be multiplied by a number above 0, not by {factor:g}")
    it = find(model, name)
    said = f"{it.title} at {factor:g} times its stiffness"
    if it.kind == "joint":
        joints = {**model.joints, it.names[0]: _stiffer_joint(model.joints[it.names[0]], factor)}
        return replace(model, joints=joints), said
    if it.kind == "body point":
        mount = model.body_mounts[it.names[1]]
        if mount.rates is None:
            raise TraceError(f"the body is rigid at {mount.point}: it has no rates to multiply")
        softer = BodyMount(mount.point, mount.rates * factor, mount.is_default)
        return replace(model, body_mounts={**model.body_mounts, mount.point: softer}), said
    if it.kind == "strut":
        raise TraceError(
            f"{it.title} is held at its length, or acts with a given force: its rate does not enter; take it out "
            "or change its force in the case file"
        )
    part = model.parts[it.names[0]]
    if not part.members:
        raise TraceError(f"{part.name} is rigid: it has no stiffness to multiply")
    own = it.names[1] if it.kind == "member" else None
    members = tuple(_stiffer(m, factor) if own in (None, m.name) else m for m in part.members)
    return replace(model, parts={**model.parts, part.name: replace(part, members=members)}), said


def _stiffer(member: Member, factor: float) -> Member:
    material = member.material
    return replace(member, material=replace(material, E=material.E * factor, G=material.G * factor))


def _stiffer_joint(joint: Joint, factor: float) -> Joint:
    r = joint.rates
    if r is None:
        raise TraceError(
            f"{joint.name} is a {joint.kind} joint without rates: take it out, or make it a bushing in the case file"
        )
    scaled = replace(
        r,
        axial=r.axial * factor,
        radial=(r.radial[0] * factor, r.radial[1] * factor),
        torsional=r.torsional * factor,
        conical=(r.conical[0] * factor, r.conical[1] * factor),
        curves=tuple(c and replace(c, y=c.y * factor, slopes=c.slopes * factor) for c in r.curves),
    )
    return replace(joint, rates=scaled)
