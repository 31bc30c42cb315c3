"""The axis about which a wheel is steered, and what follows from where it stands.

The axis is that of the carrying part's screw while the steering moves and the wheel's locked spring keeps its length.
The steering is a rack; without one, the link that sets the toe, as if its length changed; without that, the line
through the two balls that join the carrying part to arms. Terms as in ISO 8855:2011 (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import BODY, Wheel
from loadpath.pose.attitude import outward, wheel_angles, wheel_places
from loadpath.pose.equations import State
from loadpath.pose.poses import Poses, body_screws

Array = NDArray[np.float64]
Line = tuple[Array, Array]
"""A point (p, 3) and a direction (p, 3)."""

_STILL = 1e-9


@dataclass(frozen=True, eq=False)
class Steering:
    """Steering axis of one wheel.

    Attributes
    ----------
    at : (p, 3) a point of it [mm]. axis : (p, 3) unit vector along it, upward.
    caster : (p,) [rad] positive with its top leaning rearward. inclination : (p,) [rad] positive with its top leaning
        inward. scrub : (p,) [mm] from where it meets the ground to the contact patch, across the wheel, positive with
        the patch outside. trail : (p,) [mm] the same along the wheel, positive with the patch behind.
    """

    at: Array
    axis: Array
    caster: Array
    inclination: Array
    scrub: Array
    trail: Array


def steering(poses: Poses) -> dict[str, Steering]:
    """Steering axis of every wheel that has one."""
    wheels = poses.mechanism.model.wheels.values()
    lines = {wheel.name: _axis(poses, wheel) for wheel in wheels}
    return {wheel.name: _told(poses, wheel, line) for wheel in wheels if (line := lines[wheel.name])}


def _axis(poses: Poses, wheel: Wheel) -> Line | None:
    mechanism = poses.mechanism
    carrier = mechanism.carrier(wheel.part, wheel.centre)
    count = len(mechanism.bodies.groups)
    for k in range(len(mechanism.wheels), len(mechanism.drivers)):
        if np.abs(poses.screw[:, k, carrier, 3:]).max() > _STILL:
            return _axis_of(_with_spring_held(poses, wheel, poses.screw[:, k, :count])[:, carrier])
    field = None if wheel.steer_link is None else _stretched(poses, wheel.steer_link)
    if field is not None and np.abs(field[:, carrier, 3:]).max() > _STILL:
        return _axis_of(_with_spring_held(poses, wheel, field)[:, carrier])
    return _through_balls(poses, wheel)


def _stretched(poses: Poses, link: str) -> Array | None:
    """(p, nb, 6) screws of the bodies while a link grows; None where it is no rod between two of them."""
    mechanism, equations = poses.mechanism, poses.mechanism.equations
    first = 3 * len(equations.meet) + len(equations.square)
    names = equations.owner[first : first + len(equations.rod)]
    if link not in names:
        return None
    row = np.flatnonzero(equations.solved == first + names.index(link))
    count, origin = len(mechanism.bodies.groups), mechanism.origin
    turn = poses.turn[:, :count]
    state = State(turn, poses.shift[:, :count] + (turn @ origin[:, None])[..., 0] - origin)
    _, wrenches = equations.misses(state, poses.targets)
    change = equations.jacobian(wrenches)[:, equations.solved]
    return body_screws(mechanism, change, row)[:, 0] if len(row) else None


def _with_spring_held(poses: Poses, wheel: Wheel, field: Array) -> Array:
    """Screws (p, nb, 6) of a steering motion with as much travel of the wheel as keeps its locked spring's length."""
    mechanism = poses.mechanism
    elements = mechanism.model.force_elements.values()
    held = next((e for e in elements if e.wheel == wheel.name and e.locked), None)
    if held is None or wheel.name not in mechanism.wheels:
        return field
    carriers = [mechanism.carrier(part, point) for part, point in zip(held.between, held.ends, strict=True)]
    if max(carriers) >= field.shape[1]:
        return field
    travel = poses.screw[:, mechanism.wheels.index(wheel.name), : field.shape[1]]
    ends = [poses.point(part, point) for part, point in zip(held.between, held.ends, strict=True)]
    line = (ends[1] - ends[0]) / np.sqrt(((ends[1] - ends[0]) ** 2).sum(axis=-1))[:, None]
    growing, by_travel = (
        sum(s * ((f[:, c, :3] + np.cross(f[:, c, 3:], at)) * line).sum(axis=-1) for s, c, at in both)
        for f in (field, travel)
        for both in [list(zip((-1, 1), carriers, ends, strict=True))]
    )
    share = np.divide(growing, by_travel, out=np.zeros(len(poses)), where=np.abs(by_travel) > _STILL)
    held_still: Array = field - share[:, None, None] * travel
    return held_still


def _axis_of(screw: Array) -> Line:
    """Axis of screws (p, 6) about the origin of coordinates."""
    push, turn = screw[:, :3], screw[:, 3:]
    size = np.sqrt((turn**2).sum(axis=-1))[:, None]
    return np.cross(turn, push) / size**2, turn / size


def _through_balls(poses: Poses, wheel: Wheel) -> Line | None:
    """The line through the only two balls between the carrying part and parts that are no rods."""
    mechanism = poses.mechanism
    rods = {r.piece.part for r in mechanism.bodies.rods}
    found = [
        joint.point
        for joint in mechanism.model.joints.values()
        if wheel.part in joint.between
        and not rods & set(joint.between)
        and BODY not in joint.between
        and (joint.kind == "ball" or (joint.kind == "bushing" and joint.moves_as == "ball"))
    ]
    if len(found) != 2:
        return None
    a, b = (poses.point(wheel.part, p) for p in found)
    return a, (b - a) / np.sqrt(((b - a) ** 2).sum(axis=-1))[:, None]


def _told(poses: Poses, wheel: Wheel, line: Line) -> Steering:
    """Angles and distances of a steering axis."""
    axes = poses.mechanism.model.axes
    at, axis = line[0], line[1] * np.where(line[1] @ axes.up < 0, -1.0, 1.0)[:, None]
    rise = axis @ axes.up
    patch = wheel_places(poses)[wheel.name].patch
    ground = at + axis * (((patch - at) @ axes.up) / rise)[:, None]
    spin = wheel_angles(poses)[wheel.name].spin
    across = spin - (spin @ axes.up)[:, None] * axes.up
    across = across / np.sqrt((across**2).sum(axis=-1))[:, None]
    along = np.cross(across, axes.up) * (1.0 if wheel.left else -1.0)
    return Steering(
        at=at,
        axis=axis,
        caster=np.arctan2(-axis @ axes.forward, rise),
        inclination=np.arctan2(-axis @ outward(axes, wheel), rise),
        scrub=((patch - ground) * across).sum(axis=-1),
        trail=((ground - patch) * along).sum(axis=-1),
    )
