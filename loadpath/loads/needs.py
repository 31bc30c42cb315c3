"""What load cases need of the vehicle, the model and their own numbers, as faults where it is missing."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from loadpath.loads.action import corner_of, loading_point, torque_taker
from loadpath.loads.errors import Fault, nearest
from loadpath.loads.kind import Site
from loadpath.loads.terms import Corner, Way
from loadpath.model import BODY, LoadSpec, Model, Vehicle, Wheel


def finite_above(value: float, least: float) -> bool:
    """True for a finite number above a bound."""
    return math.isfinite(value) and value > least


def model_faults(model: Model) -> Iterator[Fault]:
    """What every load case on wheels needs of the model's wheels."""
    if not model.wheels:
        yield Fault("", "wheels", "the case has no wheel for its load cases", "at least one wheel")
    seen: dict[Corner, str] = {}
    for wheel in model.wheels.values():
        corner = corner_of(wheel)
        if corner in seen:
            yield Fault(
                "",
                f"wheels.{wheel.name}",
                f"is the {corner}, as {seen[corner]} is",
                "one wheel at each corner",
            )
        seen.setdefault(corner, wheel.name)


def above_zero(site: Site, key: str, value: float) -> Iterator[Fault]:
    """A number that must be above 0."""
    if not finite_above(value, 0):
        yield site.fault(key, f"{value:g} is out of bounds", "a number above 0")


def finite(site: Site, key: str, *values: float) -> Iterator[Fault]:
    """Numbers that may be anything but infinite or none at all."""
    if not all(math.isfinite(v) for v in values):
        yield site.fault(key, f"{', '.join(f'{v:g}' for v in values)} is no size", "finite numbers")


def not_negative(site: Site, key: str, value: float) -> Iterator[Fault]:
    """A number that must be 0 or more."""
    if not 0 <= value < math.inf:
        yield site.fault(key, f"{value:g} is out of bounds", "0 or a number above")


def between(site: Site, key: str, angle: float, least: float, most: float) -> Iterator[Fault]:
    """An angle [rad] between bounds, which are not reached."""
    if not least < angle < most:
        expected = f"between {math.degrees(least):g} and {math.degrees(most):g} degrees"
        yield site.fault(key, f"{math.degrees(angle):g} degrees is out of bounds", expected)


def share(site: Site, key: str, value: float | None) -> Iterator[Fault]:
    """A share from 0 to 1, or none."""
    if value is not None and not 0 <= value <= 1:
        yield site.fault(key, f"{value:g} is out of bounds", "a share from 0 to 1")


def known_wheels(site: Site, key: str, wheels: Iterable[str]) -> Iterator[Fault]:
    """Names of wheels of the model."""
    for name in wheels:
        if name not in site.model.wheels:
            yield unknown(site, key, "wheel", name, site.model.wheels)


def part_faults(site: Site, spec: LoadSpec) -> Iterator[Fault]:
    """Parts that are accelerated in their own way exist, with finite numbers."""
    for part, acceleration in (spec.part_acceleration or {}).items():
        if part not in site.model.parts:
            yield unknown(site, "part_acceleration", "part", part, site.model.parts)
        yield from finite(site, f"part_acceleration.{part}", *acceleration)


def state_faults(site: Site, spec: LoadSpec, vehicle: Vehicle | None, on_wheels: bool) -> Iterator[Fault]:
    """A loading state that the vehicle has, for a load case that multiplies its wheel loads."""
    if spec.state is None or vehicle is None:
        return
    if not on_wheels:
        yield site.fault("state", "has no meaning here: no wheel load is multiplied", "no state")
    elif spec.state not in (vehicle.state, *vehicle.states):
        yield unknown(site, "state", "state of the vehicle", spec.state, (vehicle.state, *vehicle.states))


def unknown(site: Site, key: str, kind: str, name: str, names: Iterable[str]) -> Fault:
    """A name that names nothing."""
    every = list(names)
    expected = f"one of {', '.join(every)}" if every else f"a {kind}, but there is none"
    return site.fault(key, f"there is no {kind} {name!r}", expected, nearest(name, every))


def brake_ways(site: Site, blend: float) -> Iterator[Fault]:
    """Every brake's torque, and that of the drive where it brakes too, has a part to go to."""
    yield from share(site, "blend", blend)
    wheels = site.model.wheels.values()
    if blend > 0 and all(w.drive == "none" for w in wheels):
        yield undriven(site, "blend")
    if blend < 1 or any(w.drive == "none" for w in wheels):
        yield from _torque_ways(site, "brake", "brake_part")
    if blend > 0:
        yield from _torque_ways(site, "drive", "unit")


def drive_ways(site: Site, key: str) -> Iterator[Fault]:
    """At least one wheel is driven, and `unit_ways`."""
    if all(w.drive == "none" for w in site.model.wheels.values()):
        yield undriven(site, key)
    yield from unit_ways(site)


def undriven(site: Site, key: str) -> Fault:
    """No wheel is driven."""
    return site.lacks(key, "no wheel of the case is driven", 'a wheel with drive "half-shaft" or "hub"')


def unit_ways(site: Site) -> Iterator[Fault]:
    """Every half-shaft's torque has a unit to go to."""
    yield from _torque_ways(site, "drive", "unit")


def _torque_ways(site: Site, way: Way, key: str) -> Iterator[Fault]:
    model = site.model
    for wheel in model.wheels.values():
        if not _elsewhere(wheel, way):
            continue
        part = torque_taker(wheel, way)
        where = f"wheels.{wheel.name}.{key}"
        if part is None:
            yield site.fault(
                "", f"{where} is missing", f"the part that takes the {way}'s torque of {wheel.name}"
            )
        elif part not in model.parts and part != BODY:
            yield unknown(site, "", f"part for {where}", part, model.parts)
        elif part in model.parts and model.parts[part].kind != "rigid":
            yield site.fault(
                "", f"{where}: {part} is no rigid part", "a rigid part, the housing that takes the torque"
            )
        elif loading_point(model, part) is None:
            yield site.fault("", f"{where}: {part} has no joint", "a part that something holds")


def _elsewhere(wheel: Wheel, way: Way) -> bool:
    """True where the torque does not stay on the carrying part."""
    return (wheel.brake == "inboard") if way == "brake" else (wheel.drive == "half-shaft")
