"""Where each force acts on the model: contact patch or wheel centre, with the torque that goes with it.

The point of action alone can change a joint's force by more than twice. Signs: forces of the ground on the
wheel; forward rolling is a positive rotation about left. A drive torque T = F r on the wheel leaves -T about
left on the unit's housing; being one body, the housing carries T whatever the gear ratio, as long as its
output shafts lie across the car.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

import numpy as np
from numpy.typing import NDArray

from loadpath.loads.terms import CONTACT_PATCH, WHEEL_CENTRE, Corner, Loads, Term, Way
from loadpath.model import BODY, Axes, Model, PointLoad, Wheel, WheelLoad, contact_patch, spin_axis

Array = NDArray[np.float64]

_TORQUE = {"brake": "brake torque", "drive": "half-shaft torque"}


def corner_of(wheel: Wheel) -> Corner:
    """The corner that a wheel stands at."""
    return Corner(wheel.axle, wheel.left)


def radius_at(model: Model, corner: Corner) -> float:
    """Radius [mm] of a corner's wheel, else of the other one of its axle, else of any wheel of the case."""
    wheels = sorted(
        model.wheels.values(), key=lambda w: (w.axle != corner.axle, corner_of(w).left != corner.left)
    )
    return wheels[0].radius


def height_of_action(wheel: Wheel, term: Term) -> float:
    """Height [mm] above the contact patch at which a term acts; the wheel's radius stands for its centre."""
    at_centre = term.way == WHEEL_CENTRE or torque_taker(wheel, term.way)
    return wheel.radius if at_centre else term.height


def place_name(wheel: Wheel, height: float) -> str:
    """What people call the place at a height above the contact patch."""
    if height == wheel.radius:
        return WHEEL_CENTRE
    return f"{height:g} mm above the ground" if height else CONTACT_PATCH


def together(places: Iterable[str]) -> str:
    """Places in one phrase, each once: "contact patch and wheel centre"."""
    every = dict.fromkeys(one for place in places for one in place.split(" and "))
    rank: dict[str, int] = {CONTACT_PATCH: 0, WHEEL_CENTRE: 2}
    return " and ".join(sorted(every, key=lambda one: rank.get(one, 1)))


def torque_taker(wheel: Wheel, way: Way) -> str | None:
    """Part that takes the torque of brake or drive; None where it is the carrying part itself."""
    if way == "brake" and wheel.brake == "inboard":
        return wheel.brake_part
    if way == "drive" and wheel.drive == "half-shaft":
        return wheel.unit
    return None


def point_loads(model: Model, loads: Loads) -> tuple[PointLoad, ...]:
    """All loads on the model's wheels and on the parts that take their torques."""
    at_wheels = [
        _at(
            model, wheel, height, [t for t in loads[corner_of(wheel)] if height_of_action(wheel, t) == height]
        )
        for wheel in model.wheels.values()
        for height in sorted({height_of_action(wheel, t) for t in loads[corner_of(wheel)]})
    ]
    leaning = [load for w in model.wheels.values() for load in _left_by_lean(model, w, loads[corner_of(w)])]
    return (*at_wheels, *leaning, *_torques(model, loads))


def wheel_loads(model: Model, loads: Loads) -> tuple[WheelLoad, ...]:
    """The same for people, one entry for each wheel of the model."""
    return tuple(_wheel_load(model, wheel, loads[corner_of(wheel)]) for wheel in model.wheels.values())


def force_of(axes: Axes, terms: list[Term] | tuple[Term, ...]) -> Array:
    """(3,) sum of terms [N] in case axes."""
    directions = {"forward": axes.forward, "left": axes.left, "up": axes.up}
    total = np.zeros(3)
    for term in terms:
        total = total + term.value * directions[term.direction]
    return total


def _at(model: Model, wheel: Wheel, height: float, terms: list[Term]) -> PointLoad:
    patch, centre = contact_patch(model, wheel), model.at(wheel.part, wheel.centre)
    position = centre if height == wheel.radius else patch + height * model.axes.up
    names = ", ".join(dict.fromkeys(t.what for t in terms))
    what = f"{place_name(wheel, height)} of {wheel.name}: {names}"
    return PointLoad(wheel.part, wheel.centre, position, force_of(model.axes, terms), np.zeros(3), what)


def _left_by_lean(model: Model, wheel: Wheel, terms: tuple[Term, ...]) -> Iterator[PointLoad]:
    """What a leaning wheel leaves on the carrying part of a torque that goes to another part.

    The ground turns the wheel with arm × force about its centre. The other part takes F r about left; the rest,
    nothing for a wheel that stands upright, comes through the hub bearing.
    """
    force = sum(t.value for t in terms if torque_taker(wheel, t.way) is not None)
    centre, axes = model.at(wheel.part, wheel.centre), model.axes
    arm = contact_patch(model, wheel) - centre
    rest = np.cross(arm, axes.forward) + wheel.radius * axes.left
    if force and np.abs(rest).max() > 1e-9 * wheel.radius:
        what = f"hub bearing of {wheel.name}: rest of the torque, as the wheel leans"
        yield PointLoad(wheel.part, wheel.centre, centre, np.zeros(3), force * rest, what)


def _wheel_load(model: Model, wheel: Wheel, terms: tuple[Term, ...]) -> WheelLoad:
    places = together(place_name(wheel, height_of_action(wheel, t)) for t in terms)
    named = tuple((f"{t.direction}: {t.what}", t.value) for t in terms)
    return WheelLoad(wheel.name, force_of(model.axes, terms), places, named)


def _torques(model: Model, loads: Loads) -> list[PointLoad]:
    """One moment for each part that takes torques: the sum over its wheels, of brake and drive apart."""
    sums: dict[tuple[str, str], dict[str, float]] = {}
    for wheel in model.wheels.values():
        for term in loads[corner_of(wheel)]:
            taker = torque_taker(wheel, term.way)
            if taker is not None:
                by_wheel = sums.setdefault((taker, _TORQUE[term.way]), {})
                by_wheel[wheel.name] = by_wheel.get(wheel.name, 0.0) - term.value * wheel.radius
    return [_moment(model, part, what, by_wheel) for (part, what), by_wheel in sums.items()]


def _moment(model: Model, part: str, what: str, by_wheel: Mapping[str, float]) -> PointLoad:
    point = loading_point(model, part)
    if point is None:
        raise ValueError(f"{part} has no joint to take a torque at")
    moment = sum(by_wheel.values()) * model.axes.left + 0.0
    position = model.at(part, point)
    return PointLoad(part, point, position, np.zeros(3), moment, f"{what} of {', '.join(by_wheel)}")


def shaft_couple(model: Model, wheel: Wheel) -> float:
    """Couple across the wheel's axis over the torque about it, of a half-shaft at an angle b: tan(b/2).

    A joint of constant velocity turns both of its sides about the line midway between their axes (from memory).
    0 without a half-shaft whose ends are known.
    """
    shaft = wheel.half_shaft
    if wheel.drive != "half-shaft" or shaft is None:
        return 0.0
    line = model.at(wheel.part, shaft.outer) - model.at(wheel.unit or BODY, shaft.inner)
    spin = spin_axis(model.axes, wheel)
    across, along = float(np.linalg.norm(np.cross(spin, line))), float(spin @ line)
    return float(np.tan(np.arctan2(across, along) / 2))


def loading_point(model: Model, part: str) -> str | None:
    """A point of the part to name with a moment on it: its first joint's. On a rigid part any will do."""
    return next((j.point for j in model.joints.values() if part in j.between), None)
