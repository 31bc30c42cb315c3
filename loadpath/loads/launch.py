"""Driving off, forward or in reverse."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from loadpath.loads.action import corner_of
from loadpath.loads.errors import Fault
from loadpath.loads.kind import LoadKind, Site
from loadpath.loads.needs import drive_ways, finite, unit_ways
from loadpath.loads.road import GRIP, Motion
from loadpath.loads.steady import driven, driven_corners
from loadpath.loads.terms import CORNERS, Loads, Term, component
from loadpath.loads.transfer import AXLES, STANDARD_GRAVITY, traction_limit
from loadpath.model import LoadCase
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class Launch(LoadKind):
    """Torque at the wheels, or the acceleration that it gives; negative in reverse.

    Half-shaft drive acts at the wheel centre, with the sum of the half-shaft torques on the unit's housing (a
    unit that lies across the vehicle); a hub motor at the contact patch. Both wheels of an axle get the same
    torque. A torque of an axle outside the model counts for the acceleration.
    """

    kind: ClassVar[str] = "launch"
    g: float = parameter(
        "acceleration, where no torque is given: by all driven wheels of the case",
        "g",
        default=0.0,
        tell=False,
    )
    front_torque: float = parameter("torque at both front wheels together", "N*mm", default=0.0, tell=False)
    rear_torque: float = parameter("torque at both rear wheels together", "N*mm", default=0.0, tell=False)

    @property
    def torques(self) -> dict[str, float]:
        """Torque [N·mm] of each axle that has one."""
        return {a: t for a, t in zip(AXLES, (self.front_torque, self.rear_torque), strict=True) if t != 0}

    def faults(self, site: Site) -> Iterator[Fault]:
        """Either a torque or g, at wheels that are driven."""
        yield from finite(site, "g", self.g)
        yield from finite(site, "front_torque", self.front_torque)
        yield from finite(site, "rear_torque", self.rear_torque)
        if bool(self.torques) == (self.g != 0):
            what = "both g and a torque are given" if self.torques else "nothing drives the vehicle"
            yield site.fault("g", what, "either g or front_torque and rear_torque, other than 0")
        yield from unit_ways(site) if self.torques else drive_ways(site, "g")
        idle = {w.axle for w in site.model.wheels.values() if w.drive == "none"}
        for axle in idle & self.torques.keys():
            yield site.fault(f"{axle}_torque", f"a {axle} wheel of the case is not driven", "driven wheels")

    def build(self, site: Site) -> LoadCase:
        """Wheel loads with driving forces."""
        if not self.torques:
            motion = Motion(forward=self.g * STANDARD_GRAVITY)
            return driven(self, site, motion, notes=self._grip(site, motion.forward))
        along = self._along(site)
        forward = sum(component(terms, "forward") for terms in along.values()) / site.vehicle.mass
        notes = (
            f"the vehicle accelerates with {forward / STANDARD_GRAVITY:.2f} g",
            *self._outside(site),
            *self._grip(site, forward),
        )
        return driven(self, site, Motion(forward=forward), along, notes=notes)

    def _outside(self, site: Site) -> tuple[str, ...]:
        """Says whose radius an axle without wheels in the case gets."""
        axles = {w.axle for w in site.model.wheels.values()}
        return tuple(
            f"the case has no {axle} wheel: its torque counts with the radius of the wheels that there are"
            for axle in self.torques
            if axle not in axles
        )

    def _grip(self, site: Site, forward: float) -> tuple[str, ...]:
        """Says where one driven axle's grip ends, if it does before this acceleration."""
        axles = set(self.torques) or {c.axle for c in driven_corners(site)}
        if len(axles) != 1 or forward <= 0:
            return ()
        limit = traction_limit(site.vehicle, axles.pop(), GRIP)
        if forward <= limit:
            return ()
        return (f"with a friction of {GRIP:g} the driven axle ends at {limit / STANDARD_GRAVITY:.2f} g",)

    def _along(self, site: Site) -> Loads:
        """Driving force of each corner: half of the axle's torque over the radius."""
        return {
            c: (Term("drive", "forward", self.torques[c.axle] / 2 / _radius(site, c.axle, c.left), "drive"),)
            for c in CORNERS
            if c.axle in self.torques
        }


def _radius(site: Site, axle: str, left: bool) -> float:
    """Radius [mm] of a corner's wheel, else of another one of its axle, else of any wheel of the case."""
    wheels = sorted(
        site.model.wheels.values(), key=lambda w: (corner_of(w).axle != axle, corner_of(w).left != left)
    )
    return wheels[0].radius
