"""Wheels off the ground that hang in the suspension."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import ClassVar

from loadpath.loads.action import corner_of
from loadpath.loads.errors import Fault
from loadpath.loads.hits import Hit, Terms
from loadpath.loads.kind import Site
from loadpath.loads.needs import finite
from loadpath.loads.road import static_load
from loadpath.loads.terms import Corner, Term
from loadpath.loads.transfer import STANDARD_GRAVITY
from loadpath.model import LoadCase, Wheel
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class Rebound(Hit):
    """Wheels without a load, whose unsprung mass pulls at spring, damper or stop.

    The parts that carry the wheels have a field of their own: `g` downward. At 1 they hang at rest; above it
    the suspension catches them on their way down; below 0 the spring throws them down. 1 to 2 is common
    practice, no source. Everything else has the mean factor of the axle's wheels, as in a bump.
    """

    kind: ClassVar[str] = "rebound"
    g: float = parameter(
        "pull of the hanging unsprung mass over its weight, gravity included", "g", default=2.0
    )

    def multiplies(self) -> str:
        """What hangs."""
        return "unsprung weight"

    def faults(self, site: Site) -> Iterator[Fault]:
        """A size, and a mass to hang."""
        yield from finite(site, "g", self.g)
        yield from super().faults(site)
        heavy = {mass.part for mass in site.model.masses.values()}
        hanging = self._hanging(site)
        if hanging and not any(w.part in heavy for w in hanging):
            parts = ", ".join(dict.fromkeys(w.part for w in hanging))
            yield site.lacks(
                "", f"no mass on {parts} to hang in the suspension", "a mass on the carrying part"
            )

    def struck(self, site: Site, corner: Corner, terms: Terms) -> Terms:
        """The static load gone."""
        return (*terms, Term("off the ground", "up", -static_load(site.vehicle, corner)))

    def build(self, site: Site) -> LoadCase:
        """No ground force, and the field of the hanging parts."""
        pull = 0.0 - self.g * STANDARD_GRAVITY * site.model.axes.up
        return replace(super().build(site), part_fields={w.part: pull for w in self._hanging(site)})

    def _hanging(self, site: Site) -> list[Wheel]:
        hit = self.hit(site)
        return [w for w in site.model.wheels.values() if corner_of(w) in hit]
