"""Driving off, forward or in reverse, and the drive let go."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import ClassVar

from loadpath.loads.action import radius_at
from loadpath.loads.errors import Fault
from loadpath.loads.grip import gripped
from loadpath.loads.kind import LoadKind, Site
from loadpath.loads.needs import above_zero, drive_ways, finite, unit_ways
from loadpath.loads.road import GRIP, Motion
from loadpath.loads.steady import driven, driven_corners
from loadpath.loads.terms import CORNERS, Corner, Term
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
    factor: float = parameter(
        "factor on the drive torques of the vehicle (vehicle.front.torque, vehicle.rear.torque), where neither "
        "g nor a torque is given; negative in reverse",
        default=1.0,
        tell=False,
    )
    friction: float | None = parameter(
        "friction beyond which the driven wheels slip: no more torque gets to the ground; without any torque "
        "the wheels drive at this limit",
        default=None,
        tell=False,
    )

    @property
    def own(self) -> dict[str, float]:
        """Torque [N·mm] of each axle for which the load case gives one."""
        return {a: t for a, t in zip(AXLES, (self.front_torque, self.rear_torque), strict=True) if t != 0}

    def torques(self, site: Site) -> dict[str, float]:
        """Torque [N·mm] of each axle that has one, its own or the vehicle's with the factor."""
        if self.own or self.g:
            return self.own
        given = {a: site.vehicle.axle(a).torque for a in AXLES}
        return {a: self.factor * t for a, t in given.items() if t}

    def multiplies(self) -> str:
        """Torque or mass, and what limits them."""
        if self.g:
            return "vehicle mass"
        return "drive torque" if self.friction is None else "drive torque, no more than the tyres pass"

    def faults(self, site: Site) -> Iterator[Fault]:
        """One thing that drives, at wheels that are driven."""
        for key in ("g", "front_torque", "rear_torque"):
            yield from finite(site, key, getattr(self, key))
        if not (math.isfinite(self.factor) and self.factor):
            yield site.fault("factor", f"{self.factor:g} is out of bounds", "a number other than 0")
        if self.friction is not None:
            yield from above_zero(site, "friction", self.friction)
        torques = self.torques(site) if site.data else self.own
        if self.own and self.g:
            yield site.fault("g", "both g and a torque are given", "either g or front_torque and rear_torque")
        elif (self.own or self.g) and self.factor != 1:
            yield site.fault("factor", "has no meaning beside g or a torque", "no factor, or 1")
        elif self.g and self.friction is not None:
            yield site.fault("friction", "has no meaning beside g", "no friction, or torques")
        elif not torques and not self.g and self.friction is None:
            expected = "g, front_torque or rear_torque other than 0, torques of the vehicle, or friction"
            yield site.fault("g", "nothing drives the vehicle", expected)
        yield from unit_ways(site) if torques else drive_ways(site, "g" if self.g else "friction")
        idle = {w.axle for w in site.model.wheels.values() if w.drive == "none"}
        for axle in idle & torques.keys():
            key = f"{axle}_torque" if self.own else "factor"
            yield site.fault(key, f"a {axle} wheel of the case is not driven", "driven wheels")

    def build(self, site: Site) -> LoadCase:
        """Wheel loads with driving forces."""
        if self.g:
            motion = Motion(forward=self.g * STANDARD_GRAVITY)
            return driven(self, site, motion, notes=self._grip(site, motion.forward))
        wanted = self._wanted(site)
        forces = wanted if self.friction is None else gripped(site.vehicle, wanted, self.friction)
        forward = sum(forces.values()) / site.vehicle.mass
        notes = (
            f"the vehicle accelerates with {forward / STANDARD_GRAVITY:.2f} g",
            *self._slipping(site, wanted, forces),
            *self._outside(site, wanted),
            *(self._grip(site, forward) if self.friction is None else ()),
        )
        along = {c: (_half(site, c, forces[c.axle]),) for c in CORNERS if c.axle in forces}
        return driven(self, site, Motion(forward=forward), along, notes=notes)

    def _wanted(self, site: Site) -> dict[str, float]:
        """Force [N] that each axle's torque asks for; infinite where only the friction limits it."""
        torques = self.torques(site)
        if torques:
            return {a: t / _radius(site, a) for a, t in torques.items()}
        axles = sorted({c.axle for c in driven_corners(site)})
        return dict.fromkeys(axles, math.copysign(math.inf, self.factor))

    def _slipping(
        self, site: Site, wanted: Mapping[str, float], forces: Mapping[str, float]
    ) -> tuple[str, ...]:
        """Says which axle's torque does not get to the ground."""
        notes = []
        for axle, force in forces.items():
            passed, asked = (abs(f) * _radius(site, axle) / 1e6 for f in (force, wanted[axle]))
            if passed < asked:
                of = "" if math.isinf(asked) else f" of {asked:.2f}"
                notes.append(
                    f"the {axle} wheels slip at a friction of {self.friction:g}: {passed:.2f}{of} kN·m get to "
                    "the ground"
                )
        return tuple(notes)

    def _outside(self, site: Site, wanted: Mapping[str, float]) -> tuple[str, ...]:
        """Says whose radius an axle without wheels in the case gets."""
        axles = {w.axle for w in site.model.wheels.values()}
        return tuple(
            f"the case has no {axle} wheel: its torque counts with the radius of the wheels that there are"
            for axle in wanted
            if axle not in axles
        )

    def _grip(self, site: Site, forward: float) -> tuple[str, ...]:
        """Says where one driven axle's grip ends, if it does before this acceleration."""
        axles = set(self.torques(site)) or {c.axle for c in driven_corners(site)}
        if len(axles) != 1 or forward <= 0:
            return ()
        limit = traction_limit(site.vehicle, axles.pop(), GRIP)
        if forward <= limit:
            return ()
        return (f"with a friction of {GRIP:g} the driven axle ends at {limit / STANDARD_GRAVITY:.2f} g",)


def _radius(site: Site, axle: str) -> float:
    """Torque of an axle over its force [mm]: the radius of its wheels, each of which gets half of the torque."""
    return 2 / sum(1 / radius_at(site.model, Corner(axle, left)) for left in (True, False))


def _half(site: Site, corner: Corner, force: float) -> Term:
    """Driving force of one wheel, of its axle's."""
    own = force * _radius(site, corner.axle) / (2 * radius_at(site.model, corner))
    return Term("drive", "forward", own, "drive")
