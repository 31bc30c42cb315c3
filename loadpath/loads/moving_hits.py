"""Wheels hit while the vehicle brakes or turns."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from loadpath.loads.cornering import TO_LEFT, Turn
from loadpath.loads.errors import Fault
from loadpath.loads.hits import Hit
from loadpath.loads.kind import Site
from loadpath.loads.needs import brake_ways, not_negative
from loadpath.loads.road import Motion
from loadpath.loads.steady import Brakes, Steady, by_brakes
from loadpath.loads.transfer import STANDARD_GRAVITY
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class MovingHit(Hit):
    """A hit on top of the weight transfer, brake forces and side forces of a steady motion."""

    braking: float = parameter("deceleration meanwhile, by the brakes", "g", default=0.0, tell=False)
    cornering: float = parameter(
        "acceleration toward the inside of a turn meanwhile", "g", default=0.0, tell=False
    )
    turn: Turn = parameter("the way that turn goes", default="right", tell=False)

    def multiplies(self) -> str:
        """What the motion adds is not multiplied."""
        return (
            "static wheel load, on top of transfer" if self.braking or self.cornering else "static wheel load"
        )

    def faults(self, site: Site) -> Iterator[Fault]:
        """Sizes, and a part for every torque."""
        yield from super().faults(site)
        yield from not_negative(site, "braking", self.braking)
        yield from not_negative(site, "cornering", self.cornering)
        if self.braking:
            yield from brake_ways(site, 0.0)

    def steady(self, site: Site) -> tuple[Motion, Steady]:
        """Braking and turning meanwhile."""
        motion = Motion(
            forward=0.0 - self.braking * STANDARD_GRAVITY,
            left=TO_LEFT[self.turn] * self.cornering * STANDARD_GRAVITY + 0.0,
        )
        return motion, by_brakes(site, motion, Brakes())
