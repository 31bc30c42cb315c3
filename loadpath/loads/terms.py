"""What makes a wheel's load: terms with a direction, a size and the way they go into the car."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

Direction = Literal["forward", "left", "up"]
Way = Literal["contact patch", "wheel centre", "brake", "drive"]
"""How a force of the ground goes in. "contact patch" and "wheel centre" say it outright. "brake" is at the
contact patch where the carrying part holds the brake's torque, else at the wheel centre, with the torque on
the part that does; "drive" is at the contact patch for a hub motor, else at the wheel centre with the
half-shaft torque on the unit's housing."""

CONTACT_PATCH: Way = "contact patch"
WHEEL_CENTRE: Way = "wheel centre"


@dataclass(frozen=True)
class Term:
    """One addend [N] of the force from the ground on a wheel.

    height : [mm] above the ground, of a force that an obstacle puts on the tyre or the rim; counts only with the
        way "contact patch".
    """

    what: str
    direction: Direction
    value: float
    way: Way = CONTACT_PATCH
    height: float = 0.0


@dataclass(frozen=True, order=True)
class Corner:
    """One of the four places for a wheel."""

    axle: str
    left: bool

    @property
    def side(self) -> str:
        """ "left" or "right"."""
        return "left" if self.left else "right"

    @property
    def opposite(self) -> Corner:
        """The other wheel of the axle."""
        return Corner(self.axle, not self.left)

    def __str__(self) -> str:
        return f"{self.axle} {self.side} wheel"


CORNERS = tuple(Corner(axle, left) for axle in ("front", "rear") for left in (True, False))

Loads = Mapping[Corner, tuple[Term, ...]]
"""Terms of all four corners, of the vehicle as a whole: also of those that the model does not hold."""


def component(terms: Iterable[Term], direction: Direction) -> float:
    """Sum of the terms along a direction [N]."""
    return sum((t.value for t in terms if t.direction == direction), 0.0)


def added(first: Loads, *others: Loads) -> Loads:
    """Terms of several sets, corner by corner."""
    return {c: first[c] + tuple(t for o in others for t in o.get(c, ())) for c in CORNERS}
