"""A vehicle lashed down on a transporter."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import ClassVar, Literal

from loadpath.loads.errors import Fault
from loadpath.loads.kind import LoadKind, Site, on_wheels_case
from loadpath.loads.needs import above_zero, between
from loadpath.loads.places import Place, force_at, place_faults
from loadpath.loads.road import Motion, weight_terms
from loadpath.loads.terms import CORNERS
from loadpath.loads.transfer import STANDARD_GRAVITY
from loadpath.model import LoadCase
from sections.fields import parameter

PRESSED = "the lashings' downward pull goes to the body; that it presses the wheels down is not in this case"
NO_TRANSFER = (
    "the lashings hold the vehicle alone, without friction on the deck; the weight transfer by the height of its "
    "centre of gravity above them is not in this case"
)


@dataclass(frozen=True, kw_only=True)
class TieDown(LoadKind):
    """Lashings hold the whole vehicle while its transporter speeds up, brakes or turns.

    They share its weight times `g` equally. 1 along and 0.5 across is common practice, no source; so is a
    lashing that runs down at 30 degrees.
    """

    kind: ClassVar[str] = "tie-down"
    places: tuple[Place, ...] = parameter("the points that are lashed", default=(), tell=False)
    g: float = parameter(
        "force of all lashings, in the plane of the deck, over the vehicle's weight", "g", default=1.0
    )
    pull: Literal["forward", "backward", "left", "right"] = parameter(
        "the way the lashings pull the vehicle", default="backward"
    )
    down: float = parameter("angle of a lashing below the horizontal", "deg", default=math.radians(30.0))

    def multiplies(self) -> str:
        """A share of it."""
        return "vehicle weight"

    def faults(self, site: Site) -> Iterator[Fault]:
        """Places, a size and an angle."""
        if not self.places:
            yield site.lacks("places", "no point is lashed", "at least one part and point")
        for k, place in enumerate(self.places):
            yield from place_faults(site, f"places[{k}]", place.part, place.point)
        yield from above_zero(site, "g", self.g)
        yield from between(site, "down", self.down, -math.pi / 2, math.pi / 2)

    def build(self, site: Site) -> LoadCase:
        """Static wheel loads, the lashings, and the acceleration that they give the vehicle."""
        vehicle, axes, size = site.vehicle, site.model.axes, self.g * STANDARD_GRAVITY
        motion = _PULLS[self.pull](size)
        level = motion.forward * axes.forward + motion.left * axes.left
        down = math.tan(self.down) * size * axes.up
        force = vehicle.mass / len(self.places) * (level - down)
        lashings = (
            force_at(site.model, p.part, p.point, force, f"lashing at {p.point}") for p in self.places
        )
        loads = {c: weight_terms(vehicle, c, 1.0) for c in CORNERS}
        notes = (NO_TRANSFER, *((PRESSED,) if self.down else ()))
        case = on_wheels_case(self, site, motion.field(axes), loads, notes=notes)
        return replace(case, loads=(*case.loads, *lashings))


_PULLS: Mapping[str, Callable[[float], Motion]] = {
    "forward": lambda size: Motion(forward=size),
    "backward": lambda size: Motion(forward=-size),
    "left": lambda size: Motion(left=size),
    "right": lambda size: Motion(left=-size),
}
"""Acceleration [mm/s²] that lashings give the vehicle."""
