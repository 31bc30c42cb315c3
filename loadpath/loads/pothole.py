"""Impact on the edge of a pothole."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from loadpath.loads.errors import Fault
from loadpath.loads.hits import Terms, at_centre
from loadpath.loads.kind import Site
from loadpath.loads.moving_hits import MovingHit
from loadpath.loads.needs import above_zero, finite
from loadpath.loads.road import static_load
from loadpath.loads.terms import WHEEL_CENTRE, Corner, Term
from loadpath.model.loadcase import LoadClass
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class Pothole(MovingHit):
    """Multiples of the static wheel load, along a line through the wheel centre.

    The defaults, 3 along and 4 up, are textbook factors commonly credited to Garrett (1953), from memory and
    not verified; 2 and 3 are often taken where no permanent set is allowed (common practice, no source).
    The edge's force passes through the wheel centre, as a step's does: it cannot turn a rolling wheel. What
    brakes meanwhile acts at its own place.
    """

    kind: ClassVar[str] = "pothole"
    cls: LoadClass = parameter('class of the allowable: "rare", "abuse" or "repeated"', default="abuse")
    longitudinal: float = parameter(
        "rearward force over the static wheel load; negative where the vehicle goes backward",
        "g",
        default=3.0,
    )
    vertical: float = parameter("upward force over the static wheel load, gravity included", "g", default=4.0)

    def faults(self, site: Site) -> Iterator[Fault]:
        """Sizes, and what every hit needs."""
        yield from finite(site, "longitudinal", self.longitudinal)
        yield from above_zero(site, "vertical", self.vertical)
        yield from super().faults(site)

    def struck(self, site: Site, corner: Corner, terms: Terms) -> Terms:
        """The impact at the wheel centre."""
        static = static_load(site.vehicle, corner)
        return (
            *at_centre(terms),
            Term("impact", "up", (self.vertical - 1) * static, WHEEL_CENTRE),
            Term("impact", "forward", -self.longitudinal * static, WHEEL_CENTRE),
        )

    def size(self) -> tuple[str, float]:
        """In static wheel loads."""
        return ("× static wheel load", self.vertical)
