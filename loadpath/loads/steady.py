"""A vehicle in steady motion on the road: one motion with a way to push it along."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from loadpath.loads.action import corner_of, shaft_couple
from loadpath.loads.kind import LoadKind, Site, on_wheels_case
from loadpath.loads.notes import NO_TWIST
from loadpath.loads.road import Motion, Road, braking_loads, driving_loads, grip_notes, road_loads
from loadpath.loads.terms import CORNERS, Corner, Loads, added, component
from loadpath.model import LoadCase

SMALL = 0.03
"""Share of a torque or of a force below which what is left out is not told."""
NO_LEAN = "no roll stiffness is given: the wheel loads are those of a body that does not lean"


@dataclass(frozen=True)
class Brakes:
    """How braking forces are shared: see `braking_loads`."""

    blend: float = 0.0
    front_share: float | None = None


@dataclass(frozen=True)
class Steady:
    """A steady motion: terms of all corners, body roll [rad] and statements to print."""

    loads: Loads
    roll: float
    notes: tuple[str, ...]


def driven_corners(site: Site) -> frozenset[Corner]:
    """Corners that are driven; one without a wheel in the model is as the other side of its axle."""
    wheels = {corner_of(w): w for w in site.model.wheels.values()}
    found = ((c, wheels.get(c) or wheels.get(Corner(c.axle, not c.left))) for c in CORNERS)
    return frozenset(c for c, wheel in found if wheel is not None and wheel.drive != "none")


def by_brakes(site: Site, motion: Motion, brakes: Brakes) -> Steady:
    """The motion along the vehicle is made by the brakes."""
    road = road_loads(site.vehicle, motion)
    force = site.vehicle.mass * motion.forward
    along = braking_loads(road.loads, force, driven_corners(site), brakes.blend, brakes.front_share)
    return _steady(site, motion, road, along)


def rolling(spec: LoadKind, site: Site, motion: Motion) -> LoadCase:
    """A load case without braking or driving."""
    return _case(spec, site, motion, _steady(site, motion, road_loads(site.vehicle, motion), {}))


def braked(spec: LoadKind, site: Site, motion: Motion, brakes: Brakes) -> LoadCase:
    """A load case whose motion along the vehicle is made by the brakes."""
    return _case(spec, site, motion, by_brakes(site, motion, brakes))


def driven(
    spec: LoadKind,
    site: Site,
    motion: Motion,
    along: Loads | None = None,
    notes: tuple[str, ...] = (),
) -> LoadCase:
    """A load case whose motion along the vehicle is made by the drive; `along` are its forces where known."""
    road = road_loads(site.vehicle, motion)
    if along is None:
        along = driving_loads(road.loads, site.vehicle.mass * motion.forward, driven_corners(site))
    return _case(spec, site, motion, _steady(site, motion, road, along, notes))


def _case(spec: LoadKind, site: Site, motion: Motion, steady: Steady) -> LoadCase:
    field = motion.field(site.model.axes)
    return on_wheels_case(spec, site, field, steady.loads, roll=steady.roll, notes=steady.notes)


def _steady(site: Site, motion: Motion, road: Road, along: Loads, notes: tuple[str, ...] = ()) -> Steady:
    loads = added(road.loads, along)
    told = (
        *notes,
        *_lifting_notes(site, road),
        *((NO_LEAN, NO_TWIST) if motion.left and road.roll is None else ()),
        *grip_notes(loads, site.wheel_names()),
        *_yaw_notes(site, loads),
        *_shaft_notes(site, loads),
        *_lean_notes(road.roll or 0.0),
    )
    return Steady(loads, road.roll or 0.0, told)


def _lifting_notes(site: Site, road: Road) -> tuple[str, ...]:
    return tuple(
        f"{name} lifts: its load is zero, and the other axle takes the roll moment that this one cannot"
        for name in site.corner_names(road.lifted)
    )


def _yaw_notes(site: Site, loads: Loads) -> tuple[str, ...]:
    """Says what moment about the vertical the forces along the vehicle leave to the vehicle's yaw inertia."""
    moment, size = 0.0, 0.0
    for corner in CORNERS:
        along = component(loads[corner], "forward")
        arm = site.vehicle.axle(corner.axle).track / 2
        moment += along * arm * (-1 if corner.left else 1)
        size += abs(along) * arm
    if abs(moment) <= 1e-9 * size:
        return ()
    return (
        f"the forces along the vehicle leave a moment of {abs(moment) / 1e6:.2f} kN·m about the vertical: "
        "it changes the yaw rate, and no mass of this case takes it up",
    )


def _shaft_notes(site: Site, loads: Loads) -> Iterator[str]:
    """Says what a half-shaft at an angle puts on the carrying part across the wheel's axis."""
    for wheel in site.model.wheels.values():
        torque = wheel.radius * sum(t.value for t in loads[corner_of(wheel)] if t.way == "drive")
        share = shaft_couple(site.model, wheel)
        if torque and share > SMALL:
            angle, couple = 2 * math.degrees(math.atan(share)), abs(torque) * share / 1e3
            yield (
                f"{wheel.name}: its half-shaft stands at {angle:.1f} degrees to the wheel's axis, so that its joint "
                f"turns the carrying part across that axis with {couple:.0f} N·m; that is not in this case"
            )


def _lean_notes(roll: float) -> Iterator[str]:
    """Says what it leaves out that loads and gravity keep to the axes of a body that leans."""
    share = abs(math.sin(roll))
    if share > SMALL:
        yield (
            f"the body leans by {math.degrees(abs(roll)):.1f} degrees; loads and gravity act along its own axes as "
            f"if it stood upright: {100 * share:.0f} % of every upward force is missing across, and of every side "
            "force upward"
        )
