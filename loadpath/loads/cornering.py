"""A steady turn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Literal

from loadpath.loads.errors import Fault
from loadpath.loads.kind import LoadKind, Site
from loadpath.loads.needs import above_zero
from loadpath.loads.road import Motion
from loadpath.loads.steady import rolling
from loadpath.loads.transfer import STANDARD_GRAVITY
from loadpath.model import LoadCase
from sections.fields import parameter

Turn = Literal["left", "right"]
TO_LEFT = {"left": 1.0, "right": -1.0}
"""Sign of the acceleration to the left."""


@dataclass(frozen=True, kw_only=True)
class Cornering(LoadKind):
    """Side forces and lateral load transfer.

    The default is the most that Brown, Robertson and Serpento, Motor Vehicle Structures (2002), ch. 2, gives
    for cars; vans are often taken at 0.8.
    """

    kind: ClassVar[str] = "cornering"
    g: float = parameter("acceleration toward the inside of the turn", "g", default=1.0)
    turn: Turn = parameter(
        "the way the vehicle turns; the other side's wheels are the outer ones", default="right"
    )

    def multiplies(self) -> str:
        """Mass times acceleration, shared as the wheel loads are."""
        return "wheel load with transfer"

    def faults(self, site: Site) -> Iterator[Fault]:
        """A size above zero."""
        yield from above_zero(site, "g", self.g)

    def build(self, site: Site) -> LoadCase:
        """Wheel loads, and the roll angle where a roll stiffness is given."""
        motion = Motion(left=TO_LEFT[self.turn] * self.g * STANDARD_GRAVITY)
        return rolling(self, site, motion)
