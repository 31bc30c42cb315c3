"""A vehicle in steady motion on the road: one motion with a way to push it along."""

from __future__ import annotations

from dataclasses import dataclass

from loadpath.loads.action import corner_of
from loadpath.loads.kind import LoadKind, Site, on_wheels_case
from loadpath.loads.notes import NO_TWIST
from loadpath.loads.road import Motion, Road, braking_loads, driving_loads, grip_notes, road_loads
from loadpath.loads.terms import CORNERS, Corner, Loads, added, component
from loadpath.model import LoadCase

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
