"""Wheels hit by the road: multiples of the static load on some wheels, the others at rest."""

from __future__ import annotations

from collections.abc import Iterable

from loadpath.loads.action import corner_of
from loadpath.loads.kind import Site
from loadpath.loads.road import static_load
from loadpath.loads.terms import CORNERS, Corner

ONE_SIDED = (
    "an axle is hit on one side only: what turns the body in roll and yaw is not in this case, nor is the "
    "anti-roll bar's twist by the travel of one wheel"
)
OTHER_AXLE = (
    "the field is that of the axle that is hit; it acts on the masses of the other axle's module as well"
)


def hit_corners(site: Site, wheels: Iterable[str]) -> frozenset[Corner]:
    """Corners of the named wheels; without names both sides of every axle that the model holds."""
    model = site.model
    named = [model.wheels[name] for name in wheels]
    if named:
        return frozenset(corner_of(w) for w in named)
    axles = {w.axle for w in model.wheels.values()}
    return frozenset(c for c in CORNERS if c.axle in axles)


def mean_factor(site: Site, factor: float, hit: frozenset[Corner]) -> float:
    """Vertical factor of the field: mean over both wheels of the axles that are hit, by their static loads.

    The masses of an axle's module ride on the middle of that axle. With the mean, its wheels' loads less mass
    times field are what the body gets; with the full factor of the one wheel that is hit, the masses would
    take up a force that no wheel brings in.
    """
    axles = {c.axle for c in hit}
    static = {c: static_load(site.vehicle, c) for c in CORNERS if c.axle in axles}
    total = sum(load * (factor if c in hit else 1.0) for c, load in static.items())
    return total / sum(static.values())


def hit_notes(site: Site, hit: frozenset[Corner]) -> tuple[str, ...]:
    """What a field of one mean factor leaves out."""
    axles = {c.axle for c in hit}
    one_sided = len(hit) < 2 * len(axles)
    others = {w.axle for w in site.model.wheels.values()} - axles
    return (*((ONE_SIDED,) if one_sided else ()), *((OTHER_AXLE,) if others else ()))
