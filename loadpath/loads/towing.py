"""A vehicle pulled or pushed at a point."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import ClassVar, Literal

from loadpath.loads.errors import Fault
from loadpath.loads.kind import LoadKind, Site
from loadpath.loads.needs import above_zero, between
from loadpath.loads.places import direction, force_at, place_faults
from loadpath.loads.road import Motion
from loadpath.loads.steady import rolling
from loadpath.loads.transfer import STANDARD_GRAVITY
from loadpath.model import LoadCase
from sections.fields import parameter

ROUND = math.pi / 2
STUCK = "what holds the vehicle against the pull is not in this case: the body takes it"


@dataclass(frozen=True, kw_only=True)
class Towing(LoadKind):
    """A static force on a towing point, the vehicle stuck on its wheels.

    The default of half of the vehicle's weight, pull and push alike, is that of Regulation (EU) 1005/2010,
    Annex II, for the largest mass (from memory); a towing factor of 1.5 on it is given by Brown, Robertson and
    Serpento, Motor Vehicle Structures (2002). 25 degrees aside is common practice, no source.
    """

    kind: ClassVar[str] = "towing"
    part: str | None = parameter("part of the towing point", refers="part", default=None, tell=False)
    point: str | None = parameter("the towing point", refers="point", default=None, tell=False)
    factor: float = parameter("force over the vehicle's weight", default=0.5)
    heading: Literal["forward", "backward"] = parameter("the way the force points", default="forward")
    aside: float = parameter("angle of the force to that, in plan", "deg", default=0.0, tell=False)
    toward: Literal["left", "right"] = parameter(
        "the side that the angle goes to", default="left", tell=False
    )
    rise: float = parameter("angle of the force above the horizontal", "deg", default=0.0, tell=False)

    def multiplies(self) -> str:
        """A share of it."""
        return "vehicle weight"

    def faults(self, site: Site) -> Iterator[Fault]:
        """A place, a size and angles."""
        yield from place_faults(site, "", self.part, self.point)
        yield from above_zero(site, "factor", self.factor)
        yield from between(site, "aside", self.aside, -ROUND, ROUND)
        yield from between(site, "rise", self.rise, -ROUND, ROUND)

    def build(self, site: Site) -> LoadCase:
        """The static wheel loads and the pull."""
        size = self.factor * site.vehicle.mass * STANDARD_GRAVITY
        force = size * direction(site.model.axes, self.heading, self.aside, self.toward, self.rise)
        load = force_at(site.model, str(self.part), str(self.point), force, f"towing at {self.point}")
        case = rolling(self, site, Motion())
        return replace(case, loads=(*case.loads, load), notes=(*case.notes, STUCK))
