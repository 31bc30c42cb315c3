"""Vertical bump of some wheels or all."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from loadpath.loads.errors import Fault
from loadpath.loads.hits import Terms
from loadpath.loads.kind import Site
from loadpath.loads.moving_hits import MovingHit
from loadpath.loads.needs import above_zero
from loadpath.loads.road import static_load
from loadpath.loads.terms import Corner, Term
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class Bump(MovingHit):
    """A multiple of the static load at the contact patches of the wheels that are hit.

    The default of 3 lies in the range 2 to 3 for roads of Brown, Robertson and Serpento, Motor Vehicle
    Structures (2002), ch. 2; vans and pickups are often taken at 3.5, off the road at 4.
    """

    kind: ClassVar[str] = "bump"
    g: float = parameter(
        "load of a wheel that is hit over its static load, gravity included", "g", default=3.0
    )

    def faults(self, site: Site) -> Iterator[Fault]:
        """A size above zero, and what every hit needs."""
        yield from above_zero(site, "g", self.g)
        yield from super().faults(site)

    def struck(self, site: Site, corner: Corner, terms: Terms) -> Terms:
        """The factor on top, at the contact patch."""
        return (*terms, Term("vertical factor", "up", (self.g - 1) * static_load(site.vehicle, corner)))

    def size(self) -> tuple[str, float]:
        """In g."""
        return ("g", self.g)
