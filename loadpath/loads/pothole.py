"""Impact on the edge of a pothole."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from loadpath.loads.errors import Fault
from loadpath.loads.hits import hit_corners, hit_notes, mean_factor
from loadpath.loads.kind import LoadKind, Site, on_wheels_case
from loadpath.loads.needs import above_zero, finite, known_wheels
from loadpath.loads.road import Motion, static_load, weight_terms
from loadpath.loads.terms import CORNERS, WHEEL_CENTRE, Corner, Term
from loadpath.model import LoadCase
from loadpath.model.loadcase import LoadClass
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class Pothole(LoadKind):
    """Multiples of the static wheel load, along a line through the wheel centre.

    The defaults, 3 along and 4 up, are textbook factors commonly credited to Garrett (1953), from memory and
    not verified; 2 and 3 are often taken where no permanent set is allowed (common practice, no source).
    The edge's force passes through the wheel centre, as a step's does: it cannot turn a rolling wheel.
    """

    kind: ClassVar[str] = "pothole"
    cls: LoadClass = parameter('class of the allowable: "rare", "abuse" or "repeated"', default="abuse")
    longitudinal: float = parameter(
        "rearward force over the static wheel load; negative where the vehicle goes backward",
        "g",
        default=3.0,
    )
    vertical: float = parameter("upward force over the static wheel load, gravity included", "g", default=4.0)
    wheels: tuple[str, ...] = parameter(
        "the wheels that are hit; default: all of the case", default=(), refers="wheel", tell=False
    )

    def faults(self, site: Site) -> Iterator[Fault]:
        """Sizes, and wheels that there are."""
        yield from finite(site, "longitudinal", self.longitudinal)
        yield from above_zero(site, "vertical", self.vertical)
        yield from known_wheels(site, "wheels", self.wheels)

    def build(self, site: Site) -> LoadCase:
        """Impact forces; the field has the mean vertical factor and the vehicle's deceleration along."""
        hit = hit_corners(site, self.wheels)
        loads = {c: self._terms(site, c) if c in hit else weight_terms(site.vehicle, c, 1.0) for c in CORNERS}
        along = -self.longitudinal * sum(static_load(site.vehicle, c) for c in hit)
        motion = Motion(forward=along / site.vehicle.mass, vertical=mean_factor(site, self.vertical, hit))
        everything = len(hit) == len(site.model.wheels)
        size = ("× static wheel load", self.vertical) if everything else None
        field = motion.field(site.model.axes)
        return on_wheels_case(self, site, field, loads, size=size, notes=hit_notes(site, hit))

    def _terms(self, site: Site, corner: Corner) -> tuple[Term, ...]:
        static = static_load(site.vehicle, corner)
        return (
            Term("static", "up", static, WHEEL_CENTRE),
            Term("impact", "up", (self.vertical - 1) * static, WHEEL_CENTRE),
            Term("impact", "forward", -self.longitudinal * static, WHEEL_CENTRE),
        )
