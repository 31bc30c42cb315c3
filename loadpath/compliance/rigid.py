"""Making something rigid, exactly: constraints take the place of rates, never a large number.

A bushing becomes what it is to the kinematics, a ball at its centre by default, and keeps the rates of the
movements that are then still free. A frame or link becomes one rigid part. Anti-roll bars with their drop links
stay as they are: they are springs, and a rigid one would stop the wheels from travelling alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from loadpath.compliance.grounded import grounded
from loadpath.model import BODY, BodyMount, BushingRates, Joint, Model, Part
from loadpath.trace import stands

CENTRE = " centre"
"""Ending of the name of the ideal joint at the centre of a rigid bushing."""


@dataclass(frozen=True)
class Group:
    """Things that are made rigid together.

    name : for people. members : names of joints, parts, body points or wheels. stiffen : gives the model in
    which they are rigid.
    """

    name: str
    members: tuple[str, ...]
    stiffen: Callable[[Model], Model]


BUSHINGS, MOUNTS, CRADLE, ARMS, HUB, BODY_POINTS = GROUPS = (
    "bushings",
    "cradle mounts",
    "cradle",
    "arms and links",
    "hub bearings",
    "body",
)


def groups_of(model: Model) -> tuple[Group, ...]:
    """What of a model gives way, by the six groups; those without members are left out."""
    by_group: dict[str, list[Group]] = {name: [] for name in GROUPS}
    for name, single in _singles(model):
        by_group[name].append(single)
    return tuple(_together(name, own) for name, own in by_group.items() if own)


def singles_of(model: Model) -> tuple[Group, ...]:
    """The same one by one: every bushing, frame, link, hub bearing and body point."""
    return tuple(single for _, single in _singles(model))


def all_rigid(model: Model) -> Model:
    """The model with everything rigid that can be; rigid parts that cannot move then belong to the body."""
    return grounded(_together("", groups_of(model)).stiffen(model))


def bars(model: Model) -> tuple[str, ...]:
    """Anti-roll bars and the links on them.

    A bar is a part that is split, or a frame across the car that holds no wheel, does not stand on the body by
    itself and is no part of a steering (nothing slides in or on it).
    """
    carriers = {w.part for w in model.wheels.values()}
    found = [p.name for p in model.parts.values() if p.split is not None or _across(model, p, carriers)]
    links = [p.name for p in model.parts.values() if p.kind == "link" and _joined(model, p.name) & set(found)]
    return (*found, *links)


def _across(model: Model, part: Part, carriers: set[str]) -> bool:
    own = [j for j in model.joints.values() if part.name in j.between]
    aside = [float(model.points[j.point] @ model.axes.left) for j in own]
    return (
        part.kind == "frame"
        and bool(aside)
        and min(aside) < 0 < max(aside)
        and not stands(model, part.name)
        and not _joined(model, part.name) & carriers
        and not any(j.kind == "slider" for j in own)
    )


def _joined(model: Model, part: str) -> set[str]:
    return {p for j in model.joints.values() if part in j.between for p in j.between} - {part}


def _together(name: str, groups: list[Group] | tuple[Group, ...]) -> Group:
    def stiffen(model: Model) -> Model:
        for group in groups:
            model = group.stiffen(model)
        return model

    return Group(name, tuple(m for g in groups for m in g.members), stiffen)


def _singles(model: Model) -> Iterator[tuple[str, Group]]:
    """Everything that can be made rigid, with its group."""
    for joint in model.joints.values():
        if joint.rates is not None and joint.moves_as != "free":
            group = MOUNTS if _on_cradle(model, joint) else BUSHINGS
            yield group, Group(joint.name, (joint.name,), _rigid_bushing(joint.name))
    left_out = bars(model)
    for part in model.parts.values():
        if part.members and part.name not in left_out:
            group = CRADLE if stands(model, part.name) else ARMS
            yield group, Group(part.name, (part.name,), _rigid_part(part.name))
    for wheel in model.wheels.values():
        if wheel.hub_tilt is not None:
            yield HUB, Group(f"hub bearing of {wheel.name}", (wheel.name,), _rigid_hub(wheel.name))
    for mount in model.body_mounts.values():
        if mount.rates is not None:
            yield BODY_POINTS, Group(f"body at {mount.point}", (mount.point,), _rigid_body(mount.point))


def _on_cradle(model: Model, joint: Joint) -> bool:
    """True for a joint between the body and a frame that stands on it by itself."""
    others = [p for p in joint.between if p != BODY]
    return len(others) == 1 and model.parts[others[0]].kind == "frame" and stands(model, others[0])


def _rigid_part(name: str) -> Callable[[Model], Model]:
    return lambda model: replace(model, parts={**model.parts, name: Part(name, "rigid")})


def _rigid_hub(name: str) -> Callable[[Model], Model]:
    return lambda model: replace(
        model, wheels={**model.wheels, name: replace(model.wheels[name], hub_tilt=None)}
    )


def _rigid_body(point: str) -> Callable[[Model], Model]:
    return lambda model: replace(
        model,
        body_mounts={
            **model.body_mounts,
            point: BodyMount(point, None, model.body_mounts[point].is_default),
        },
    )


def _rigid_bushing(name: str) -> Callable[[Model], Model]:
    def stiffen(model: Model) -> Model:
        joint = model.joints[name]
        assert joint.rates is not None
        if joint.moves_as == "sliding ball":
            return _sliding(model, joint, joint.rates)
        if joint.moves_as == "fixed":
            held = replace(joint, kind="bolted", rates=None, moves_as="ball")
            return replace(model, joints={**model.joints, name: held})
        hinge = joint.moves_as == "hinge"
        ideal = replace(
            joint, name=name + CENTRE, kind="hinge" if hinge else "ball", rates=None, moves_as="ball"
        )
        conical = (0.0, 0.0) if hinge else joint.rates.conical
        rest = replace(joint, rates=BushingRates(0.0, (0.0, 0.0), joint.rates.torsional, conical))
        return replace(model, joints={**model.joints, name: rest, ideal.name: ideal})

    return stiffen


def _sliding(model: Model, joint: Joint, rates: BushingRates) -> Model:
    """A ball on a shoe that slides along the bushing's axis; the axial and the rotational rates stay."""
    shoe, (first, second) = joint.name + CENTRE, joint.between
    slide = replace(joint, name=f"{shoe} slide", kind="slider", between=(first, shoe), rates=None)
    ball = replace(joint, name=shoe, kind="ball", between=(shoe, second), rates=None)
    rest = replace(joint, rates=BushingRates(rates.axial, (0.0, 0.0), rates.torsional, rates.conical))
    new = {joint.name: rest, slide.name: slide, ball.name: ball}
    return replace(model, parts={**model.parts, shoe: Part(shoe, "rigid")}, joints={**model.joints, **new})
