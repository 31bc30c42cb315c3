"""Wheels hit by the road or an obstacle: multiples of the static load on some wheels, on top of the rest."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from loadpath.loads.action import corner_of
from loadpath.loads.errors import Fault
from loadpath.loads.kind import LoadKind, Site, on_wheels_case
from loadpath.loads.needs import known_wheels, not_negative
from loadpath.loads.notes import ELSEWHERE, ONE_SIDED, ONE_TRAVELS, OTHER_AXLE
from loadpath.loads.road import Motion, nonzero, static_load
from loadpath.loads.steady import Brakes, Steady, by_brakes
from loadpath.loads.terms import CORNERS, WHEEL_CENTRE, Corner, Direction, Loads, Term, component
from loadpath.model import LoadCase
from sections.fields import parameter

Terms = tuple[Term, ...]


@dataclass(frozen=True, kw_only=True)
class Hit(LoadKind):
    """What hits some wheels while the vehicle rolls along.

    The vertical factor of the field is the mean over both wheels of the axles that are hit. The masses of an
    axle's module ride on the middle of that axle: with the mean, its wheels' loads less mass times field are
    what the body gets; with the full factor of the one wheel that is hit, the masses would take up a force
    that no wheel brings in. Along and across, the impact's force over the vehicle's mass is in the field.
    """

    wheels: tuple[str, ...] = parameter(
        "the wheels that are hit; default: all of the case", default=(), refers="wheel", tell=False
    )
    side: Literal["both", "left", "right"] = parameter(
        "the side on which these wheels are hit", default="both", tell=False
    )
    other: float = parameter(
        "load over its static load of a wheel that is not hit, on an axle that is",
        "g",
        default=1.0,
        tell=False,
    )

    def multiplies(self) -> str:
        """A multiple of what stands on the wheel at rest."""
        return "static wheel load"

    def faults(self, site: Site) -> Iterator[Fault]:
        """Wheels that there are."""
        yield from known_wheels(site, "wheels", self.wheels)
        if self.side != "both" and site.model.wheels.keys() & self.wheels and not self.hit(site):
            yield site.fault("side", f"none of the wheels is on the {self.side} side", "the wheels' side")
        yield from not_negative(site, "other", self.other)

    def hit(self, site: Site) -> frozenset[Corner]:
        """Corners that are hit; without names those of every axle that the model holds."""
        wheels = site.model.wheels
        named = {corner_of(wheels[name]) for name in self.wheels if name in wheels}
        axles = {w.axle for w in wheels.values()}
        among = named if self.wheels else {c for c in CORNERS if c.axle in axles}
        return frozenset(c for c in among if self.side in ("both", c.side))

    def steady(self, site: Site) -> tuple[Motion, Steady]:
        """What the vehicle does meanwhile, and its wheel loads."""
        return Motion(), by_brakes(site, Motion(), Brakes())

    @abstractmethod
    def struck(self, site: Site, corner: Corner, terms: Terms) -> Terms:
        """The terms of a wheel that is hit, given those of the steady motion."""

    def size(self) -> tuple[str, float] | None:
        """A number that everything grows with, where all wheels are hit and nothing else happens."""
        return None

    def build(self, site: Site) -> LoadCase:
        """Wheel loads, and the field that they make."""
        hit, (motion, steady) = self.hit(site), self.steady(site)
        loads = {c: self._terms(site, c, steady.loads[c], hit) for c in CORNERS}
        field = _after(site, motion, steady.loads, loads, hit).field(site.model.axes)
        alone = motion == Motion() and all(corner_of(w) in hit for w in site.model.wheels.values())
        return on_wheels_case(
            self,
            site,
            field,
            loads,
            size=self.size() if alone else None,
            roll=steady.roll,
            notes=(*steady.notes, *_notes(site, hit)),
        )

    def _terms(self, site: Site, corner: Corner, terms: Terms, hit: frozenset[Corner]) -> Terms:
        if corner in hit:
            return nonzero(*self.struck(site, corner, terms))
        if corner.opposite not in hit:
            return terms
        more = (self.other - 1) * static_load(site.vehicle, corner)
        return (*terms, *nonzero(Term("vertical factor", "up", more)))


def at_centre(terms: Terms) -> Terms:
    """The same with all that points up at the wheel centre: an edge carries the wheel, not the road below it."""
    return tuple(replace(t, way=WHEEL_CENTRE) if t.direction == "up" else t for t in terms)


def _after(site: Site, motion: Motion, before: Loads, loads: Loads, hit: frozenset[Corner]) -> Motion:
    """The motion with what the impact changes."""
    axles = {c.axle for c in hit}

    def more(direction: Direction) -> float:
        return sum(component(loads[c], direction) - component(before[c], direction) for c in CORNERS)

    static = sum(static_load(site.vehicle, c) for c in CORNERS if c.axle in axles)
    return Motion(
        forward=motion.forward + more("forward") / site.vehicle.mass,
        left=motion.left + more("left") / site.vehicle.mass,
        vertical=motion.vertical + more("up") / static,
    )


def _notes(site: Site, hit: frozenset[Corner]) -> tuple[str, ...]:
    """What a field of one mean factor leaves out."""
    own = {corner_of(w) for w in site.model.wheels.values()}
    others = {c.axle for c in own} - {c.axle for c in hit}
    one_sided = any(c.opposite not in hit for c in hit)
    facts = {ONE_SIDED: one_sided, ONE_TRAVELS: one_sided, OTHER_AXLE: bool(others), ELSEWHERE: not own & hit}
    return tuple(note for note, true in facts.items() if true)
