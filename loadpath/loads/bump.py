"""Vertical bump of some wheels or all."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from loadpath.loads.errors import Fault
from loadpath.loads.hits import hit_corners, hit_notes, mean_factor
from loadpath.loads.kind import LoadKind, Site, on_wheels_case
from loadpath.loads.needs import above_zero, known_wheels
from loadpath.loads.road import Motion, weight_terms
from loadpath.loads.terms import CORNERS
from loadpath.model import LoadCase
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class Bump(LoadKind):
    """A multiple of the static load at the contact patches of the wheels that are hit.

    The default of 3 lies in the range 2 to 3 for roads of Brown, Robertson and Serpento, Motor Vehicle
    Structures (2002), ch. 2; vans and pickups are often taken at 3.5, off the road at 4.
    """

    kind: ClassVar[str] = "bump"
    g: float = parameter(
        "load of a wheel that is hit over its static load, gravity included", "g", default=3.0
    )
    wheels: tuple[str, ...] = parameter(
        "the wheels that are hit; default: all of the case", default=(), refers="wheel", tell=False
    )

    def faults(self, site: Site) -> Iterator[Fault]:
        """A size above zero, wheels that there are."""
        yield from above_zero(site, "g", self.g)
        yield from known_wheels(site, "wheels", self.wheels)

    def build(self, site: Site) -> LoadCase:
        """Vertical loads; the field's factor is the mean of the axle's wheels (see `mean_factor`)."""
        hit = hit_corners(site, self.wheels)
        loads = {c: weight_terms(site.vehicle, c, self.g if c in hit else 1.0) for c in CORNERS}
        motion = Motion(vertical=mean_factor(site, self.g, hit))
        size = ("g", self.g) if len(hit) == len(site.model.wheels) else None
        field = motion.field(site.model.axes)
        return on_wheels_case(self, site, field, loads, size=size, notes=hit_notes(site, hit))
