"""Braking while the vehicle goes forward."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from loadpath.loads.errors import Fault
from loadpath.loads.kind import LoadKind, Site
from loadpath.loads.needs import above_zero, brake_ways, share
from loadpath.loads.road import Motion
from loadpath.loads.steady import Brakes, braked
from loadpath.loads.transfer import STANDARD_GRAVITY
from loadpath.model import LoadCase
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class Braking(LoadKind):
    """Deceleration with the load transfer that belongs to it.

    Friction brakes act at the contact patch; an inboard brake at the wheel centre, its torque on the brake's
    part; the drive's share at the wheel centre, the half-shaft torques on the unit's housing. The default of
    1.1 is one of the values in Brown, Robertson and Serpento, Motor Vehicle Structures (2002), Table 2.4.
    """

    kind: ClassVar[str] = "braking"
    heading: ClassVar[float] = 1.0
    """1 where the vehicle goes forward, -1 where it goes backward."""
    g: float = parameter("deceleration", "g", default=1.1)
    blend: float = parameter(
        "share of a driven wheel's braking that its drive does, by regeneration, 0 to 1", default=0.0
    )
    front_share: float | None = parameter(
        "share of the braking force at the front axle, 0 to 1; default: as the wheel loads are", default=None
    )

    def multiplies(self) -> str:
        """Mass times acceleration, shared as the wheel loads are."""
        return "wheel load with transfer"

    def faults(self, site: Site) -> Iterator[Fault]:
        """A size above zero, shares, and a part for every torque."""
        yield from above_zero(site, "g", self.g)
        yield from share(site, "front_share", self.front_share)
        yield from brake_ways(site, self.blend)

    def build(self, site: Site) -> LoadCase:
        """Wheel loads with braking forces."""
        motion = Motion(forward=-self.heading * self.g * STANDARD_GRAVITY)
        return braked(self, site, motion, Brakes(self.blend, self.front_share))
