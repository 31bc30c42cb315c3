"""A vehicle lifted by a jack at a point."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import ClassVar, Literal

from loadpath.loads.action import corner_of
from loadpath.loads.errors import Fault
from loadpath.loads.kind import LoadKind, Site, on_wheels_case
from loadpath.loads.needs import above_zero, known_wheels, not_negative
from loadpath.loads.places import force_at, place_faults
from loadpath.loads.road import Motion, static_load, weight_terms
from loadpath.loads.terms import CORNERS, Corner, Term
from loadpath.model import LoadCase
from sections.fields import parameter

LEANING = "what holds the vehicle against the jack's sideways force is not in this case: the body takes it"


@dataclass(frozen=True, kw_only=True)
class Jacking(LoadKind):
    """A jack carries what the lifted wheels carried, times a factor; they hang.

    1 to 1.5 times the axle's load on one point with a tenth of it sideways is common practice, no source; the
    1.5 is for a vehicle that is dropped on the jack.
    """

    kind: ClassVar[str] = "jacking"
    part: str | None = parameter("part of the jacking point", refers="part", default=None, tell=False)
    point: str | None = parameter("the jacking point", refers="point", default=None, tell=False)
    factor: float = parameter("the jack's force over the static load of the lifted wheels", default=1.5)
    sideways: float = parameter("the jack's sideways force over its upward one", default=0.1)
    toward: Literal["left", "right"] = parameter(
        "the side that its sideways force points to", default="left", tell=False
    )
    wheels: tuple[str, ...] = parameter(
        "the wheels that it lifts; default: both of the case's axle", default=(), refers="wheel", tell=False
    )

    def multiplies(self) -> str:
        """What the jack takes over."""
        return "static load of the lifted wheels"

    def faults(self, site: Site) -> Iterator[Fault]:
        """A place, sizes, and wheels of one axle."""
        yield from place_faults(site, "", self.part, self.point)
        yield from above_zero(site, "factor", self.factor)
        yield from not_negative(site, "sideways", self.sideways)
        yield from known_wheels(site, "wheels", self.wheels)
        if len({c.axle for c in self._lifted(site)}) > 1:
            yield site.fault("wheels", "wheels of both axles are lifted", "wheels of one axle")

    def build(self, site: Site) -> LoadCase:
        """The jack's force, and the field that it makes with the wheels that still stand."""
        lifted, axes = self._lifted(site), site.model.axes
        axle = {c: static_load(site.vehicle, c) for c in CORNERS if c.axle in {one.axle for one in lifted}}
        carried = sum(axle[c] for c in lifted)
        loads = {
            c: (
                *weight_terms(site.vehicle, c, 1.0),
                *([Term("lifted", "up", -axle[c])] if c in lifted else []),
            )
            for c in CORNERS
        }
        motion = Motion(vertical=1 + (self.factor - 1) * carried / sum(axle.values()))
        aside = self.sideways if self.toward == "left" else -self.sideways
        force = self.factor * carried * (axes.up + aside * axes.left)
        jack = force_at(site.model, str(self.part), str(self.point), force, f"jack at {self.point}")
        notes = (LEANING,) if self.sideways else ()
        case = on_wheels_case(self, site, motion.field(axes), loads, notes=notes)
        return replace(case, loads=(*case.loads, jack))

    def _lifted(self, site: Site) -> frozenset[Corner]:
        wheels = site.model.wheels
        if self.wheels:
            return frozenset(corner_of(wheels[name]) for name in self.wheels if name in wheels)
        axles = {w.axle for w in wheels.values()}
        return frozenset(c for c in CORNERS if c.axle in axles)
