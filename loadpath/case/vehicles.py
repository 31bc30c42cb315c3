"""Vehicle data of the model, with what follows from the wheels of the case."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from types import MappingProxyType
from typing import Literal

from loadpath.case.errors import Log
from loadpath.case.space import Space
from loadpath.case.tables import AxleTable, StateTable, VehicleTable
from loadpath.case.words import join
from loadpath.model import DESIGN, AxleData, Vehicle, Wheel

AxleName = Literal["front", "rear"]
_OTHER: dict[AxleName, AxleName] = {"front": "rear", "rear": "front"}


def make_vehicle(table: VehicleTable, wheels: Iterable[Wheel], space: Space) -> Vehicle | None:
    """The vehicle, or None where a value neither stands there nor follows from the wheels."""
    every = tuple(wheels)
    front = _axle("front", table, every, space)
    rear = _axle("rear", table, every, space)
    if front is None or rear is None:
        return None
    vehicle = Vehicle(
        mass=table.mass,
        front_share=table.front_share,
        wheelbase=table.wheelbase,
        cg_height=table.cg_height,
        ground=table.ground,
        roll_stiffness=table.roll_stiffness,
        front=front,
        rear=rear,
    )
    if DESIGN in table.states:
        expected = "the design state is [vehicle] itself: another name, such as kerb or gross"
        space.log.mistake(join("vehicle", "states", DESIGN), "stands twice", expected)
    states = {name: _in_state(vehicle, name, state) for name, state in table.states.items()}
    return replace(vehicle, states=MappingProxyType(states))


def _in_state(vehicle: Vehicle, name: str, state: StateTable) -> Vehicle:
    """The vehicle in another loading state; what the state does not say is as in design."""
    return replace(
        vehicle,
        mass=vehicle.mass if state.mass is None else state.mass,
        front_share=vehicle.front_share if state.front_share is None else state.front_share,
        cg_height=vehicle.cg_height if state.cg_height is None else state.cg_height,
        front=replace(vehicle.front, travel=state.front_travel),
        rear=replace(vehicle.rear, travel=state.rear_travel),
        state=name,
    )


def _axle(which: AxleName, table: VehicleTable, wheels: tuple[Wheel, ...], space: Space) -> AxleData | None:
    own: AxleTable = getattr(table, which)
    share = table.front_roll_share if which == "front" else 1.0 - table.front_roll_share
    path = join("vehicle", which)
    track, radius = _track(which, table, wheels, space), _radius(which, wheels)
    if own.unsprung_height is not None:
        height = own.unsprung_height
    elif radius is not None or own.unsprung_mass == 0:
        height = radius or 0.0
        space.log.defaults[join(path, "unsprung_height")] = f"{height:g} mm"
    elif not space.log.clean("wheels") or not space.log.clean("points"):
        return None  # the wheel to take the radius of is faulty itself
    else:
        expected = "its height above ground [mm]: the case has no wheel to take the radius of"
        space.log.mistake(join(path, "unsprung_height"), "is missing", expected)
        return None
    if track is None:
        return None
    return AxleData(track, own.unsprung_mass, height, own.roll_centre, share, own.torque)


def _track(which: AxleName, table: VehicleTable, wheels: tuple[Wheel, ...], space: Space) -> float | None:
    """Given track, else between the axle's wheels, else that of the other axle."""
    own: AxleTable = getattr(table, which)
    other: AxleTable = getattr(table, _OTHER[which])
    if own.track is not None:
        return own.track
    found = _between_wheels(which, wheels, space) or other.track
    found = found or _between_wheels(_OTHER[which], wheels, space)
    place = join("vehicle", which, "track")
    if found is None:
        if space.log.clean("wheels") and space.log.clean("points"):
            space.log.mistake(place, "is missing", "the track [mm]: the case has no axle with two wheels")
        return None
    space.log.defaults[place] = f"{found:g} mm"
    return found


def _between_wheels(which: AxleName, wheels: tuple[Wheel, ...], space: Space) -> float | None:
    sides = {w.left: float(space.points[w.centre] @ space.axes.left) for w in wheels if w.axle == which}
    return sides[True] - sides[False] if len(sides) == 2 else None


def _radius(which: AxleName, wheels: tuple[Wheel, ...]) -> float | None:
    """Loaded radius of the axle's wheels, else of the other axle's."""
    own = [w.radius for w in wheels if w.axle == which] or [w.radius for w in wheels]
    return own[0] if own else None


def check_axles(wheels: Iterable[Wheel], log: Log) -> None:
    """At most one wheel at each side of an axle."""
    seen: dict[tuple[str, bool], str] = {}
    for wheel in wheels:
        first = seen.setdefault((wheel.axle, wheel.left), wheel.name)
        if first != wheel.name:
            side = "left" if wheel.left else "right"
            what = f"{first} is the {side} wheel of the {wheel.axle} axle already"
            log.mistake(join("wheels", wheel.name), what, "one wheel at each side of an axle")
