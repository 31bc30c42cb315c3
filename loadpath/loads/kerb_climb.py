"""Wheels that are driven up a kerb."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Literal

from loadpath.loads.action import radius_at
from loadpath.loads.errors import Fault
from loadpath.loads.hits import Hit, Terms, at_centre
from loadpath.loads.kind import Site
from loadpath.loads.needs import above_zero
from loadpath.loads.road import static_load
from loadpath.loads.terms import WHEEL_CENTRE, Corner, Term
from loadpath.model.loadcase import LoadClass
from sections.fields import parameter


def step_ratio(height: float, radius: float) -> float:
    """Rearward over upward force of the edge of a step on a wheel of that radius: tan(acos((R - h) / R)).

    The force passes through the wheel centre (statics of a rigid wheel that neither brakes nor drives).
    """
    return math.tan(math.acos((radius - height) / radius))


@dataclass(frozen=True, kw_only=True)
class KerbClimb(Hit):
    """The edge of a kerb pushes up and back, along a line through the wheel centre.

    Its slope follows from the height of the kerb and the radius of the wheel. 3 to 4 up is common practice, no
    source.
    """

    kind: ClassVar[str] = "kerb climb"
    cls: LoadClass = parameter('class of the allowable: "rare", "abuse" or "repeated"', default="abuse")
    vertical: float = parameter("upward force over the static wheel load, gravity included", "g", default=3.0)
    height: float = parameter("height of the kerb", "mm", default=100.0)
    heading: Literal["forward", "backward"] = parameter(
        "the way the vehicle goes", default="forward", tell=False
    )

    def faults(self, site: Site) -> Iterator[Fault]:
        """A size, and a kerb below the wheel centre."""
        yield from above_zero(site, "vertical", self.vertical)
        yield from super().faults(site)
        least = min((radius_at(site.model, c) for c in self.hit(site)), default=0.0)
        if least and not 0 < self.height < least:
            expected = f"above 0 and below the radius, {least:g} mm"
            yield site.fault("height", f"{self.height:g} is out of bounds", expected)

    def struck(self, site: Site, corner: Corner, terms: Terms) -> Terms:
        """The edge's force at the wheel centre."""
        static = static_load(site.vehicle, corner)
        along = self.vertical * static * step_ratio(self.height, radius_at(site.model, corner))
        sign = -1 if self.heading == "forward" else 1
        return (
            *at_centre(terms),
            Term("kerb", "up", (self.vertical - 1) * static, WHEEL_CENTRE),
            Term("kerb", "forward", sign * along, WHEEL_CENTRE),
        )

    def size(self) -> tuple[str, float]:
        """In static wheel loads."""
        return ("× static wheel load", self.vertical)
