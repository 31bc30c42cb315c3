"""Acceleration along, across and up at once: brake in turn, bump in a corner, start on a slope."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Literal

from loadpath.loads.cornering import TO_LEFT, Turn
from loadpath.loads.errors import Fault
from loadpath.loads.kind import LoadKind, Site
from loadpath.loads.needs import above_zero, brake_ways, drive_ways, finite, share
from loadpath.loads.road import Motion
from loadpath.loads.steady import Brakes, braked, driven
from loadpath.loads.transfer import STANDARD_GRAVITY
from loadpath.model import LoadCase
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class Combined(LoadKind):
    """The rules of braking, launch and cornering in one acceleration field.

    Wheel loads superpose (Gillespie ch. 1, Milliken ch. 18, from memory). The brakes' forces share as the
    wheel loads do, so that in a turn the outer wheels brake more; the moment about the vertical that this
    leaves is told in a note.
    """

    kind: ClassVar[str] = "combined"
    longitudinal: float = parameter("acceleration forward; negative when slowing down", "g", default=0.0)
    lateral: float = parameter("acceleration toward the inside of the turn", "g", default=0.0)
    turn: Turn = parameter("the way the vehicle turns", default="right", tell=False)
    vertical: float = parameter("vertical factor on all wheels, gravity included", "g", default=1.0)
    grade: float = parameter("rise of the road forward, 100 % is 45 degrees", "%", default=0.0, tell=False)
    by: Literal["brakes", "drive"] | None = parameter(
        "what makes the force along the vehicle; default: the drive where it points forward, else the brakes",
        default=None,
    )
    blend: float = parameter(
        "share of a driven wheel's braking that its drive does, by regeneration, 0 to 1",
        default=0.0,
        tell=False,
    )
    front_share: float | None = parameter(
        "share of the braking force at the front axle, 0 to 1; default: as the wheel loads are", default=None
    )

    def multiplies(self) -> str:
        """Mass times acceleration, shared as the wheel loads are."""
        return "wheel load with transfer"

    def faults(self, site: Site) -> Iterator[Fault]:
        """Sizes, shares, and a part for every torque."""
        for key in ("longitudinal", "grade"):
            yield from finite(site, key, getattr(self, key))
        if not 0 <= self.lateral < math.inf:
            yield site.fault(
                "lateral", f"{self.lateral:g} is out of bounds", "0 or more; turn says which way"
            )
        yield from above_zero(site, "vertical", self.vertical)
        yield from share(site, "front_share", self.front_share)
        if self._way == "drive":
            yield from drive_ways(site, "longitudinal")
            if self.blend or self.front_share is not None:
                key = "blend" if self.blend else "front_share"
                yield site.fault(key, "the drive makes the force here, not the brakes", f"no {key}")
        elif self._motion.forward:
            yield from brake_ways(site, self.blend)

    def build(self, site: Site) -> LoadCase:
        """Wheel loads with all forces."""
        if self._way == "drive":
            return driven(self, site, self._motion)
        return braked(self, site, self._motion, Brakes(self.blend, self.front_share))

    @property
    def _motion(self) -> Motion:
        slope = math.atan(self.grade / 100)
        return Motion(
            forward=(self.longitudinal + self.vertical * math.sin(slope)) * STANDARD_GRAVITY,
            left=TO_LEFT[self.turn] * self.lateral * STANDARD_GRAVITY,
            vertical=self.vertical * math.cos(slope),
        )

    @property
    def _way(self) -> str:
        return self.by or ("drive" if self._motion.forward > 0 else "brakes")
