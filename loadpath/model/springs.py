"""What springs, stops and dampers push with at a length: plain laws.

A push is positive in compression. `length` is the distance of the element's ends [mm], `design` what it is at
design height; both of one shape. Rates are −d push / d length, positive for a spring.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from loadpath.model.curve import Curve

Array = NDArray[np.float64]

ATMOSPHERE = 0.101325
"""[MPa] standard atmosphere, ISO 2533."""


class SpringLaw(Protocol):
    """A push that follows from the length alone."""

    def push(self, length: Array, design: Array | float) -> Array:
        """[N], in the shape of `length`."""

    def rate(self, length: Array, design: Array | float) -> Array:
        """[N/mm], in the shape of `length`."""


@dataclass(frozen=True)
class Coil:
    """A coil spring: rate [N/mm] with its load [N] at design height, or its free length [mm]."""

    stiffness: float
    load: float | None
    free_length: float | None

    def push(self, length: Array, design: Array | float) -> Array:
        """Rate times what it is shorter than free."""
        if self.free_length is not None:
            return self.stiffness * (self.free_length - length)
        return (self.load or 0.0) + self.stiffness * (design - length)

    def rate(self, length: Array, design: Array | float) -> Array:
        """The same everywhere."""
        return np.full_like(length, self.stiffness)


@dataclass(frozen=True, eq=False)
class Measured:
    """A spring by its table: push over how much shorter it is than at design height."""

    curve: Curve

    def push(self, length: Array, design: Array | float) -> Array:
        """From the table."""
        return self.curve.value(design - length)

    def rate(self, length: Array, design: Array | float) -> Array:
        """Slope of the table."""
        return self.curve.slope(design - length)


@dataclass(frozen=True)
class AirSpring:
    """A closed air volume behind a piston: p V^n stays the same.

    pressure : gauge, at design height [MPa]. area : effective [mm²], taken as constant. volume : at design
    height, with what is connected [mm³]. exponent : 1 slowly, about 1.3 to 1.4 in quick travel.
    """

    pressure: float
    area: float
    volume: float
    exponent: float

    def push(self, length: Array, design: Array | float) -> Array:
        """Gauge pressure times area; the air acts on nothing beyond full compression."""
        absolute = (self.pressure + ATMOSPHERE) * self._ratio(length, design) ** self.exponent
        push: Array = (absolute - ATMOSPHERE) * self.area
        return push

    def rate(self, length: Array, design: Array | float) -> Array:
        """n p A² / V."""
        ratio = self._ratio(length, design)
        absolute = (self.pressure + ATMOSPHERE) * ratio**self.exponent
        rate: Array = self.exponent * absolute * self.area**2 * ratio / self.volume
        return rate

    def _ratio(self, length: Array, design: Array | float) -> Array:
        """Volume at design height over the volume now; held at a hundredth of the volume."""
        left: Array = 1 - self.area * (design - length) / self.volume
        return 1 / np.maximum(left, 0.01)


@dataclass(frozen=True, eq=False)
class Stop:
    """A bump or rebound stop: it pushes only once its gap is used up.

    gap : [mm] of shortening (bump) or lengthening (rebound) from design height until it touches.
    curve : force over its compression, beginning at 0. rebound : it holds against lengthening, with a pull.
    """

    gap: float
    curve: Curve
    rebound: bool

    def push(self, length: Array, design: Array | float) -> Array:
        """0 up to the gap; negative (a pull) from a rebound stop."""
        pressed = self.pressed(length, design)
        force = np.where(pressed > 0, self.curve.value(pressed), 0.0)
        return -force if self.rebound else force

    def rate(self, length: Array, design: Array | float) -> Array:
        """Slope of the table beyond the gap."""
        pressed = self.pressed(length, design)
        return np.where(pressed > 0, self.curve.slope(pressed), 0.0)

    def pressed(self, length: Array, design: Array | float) -> Array:
        """How far it is pressed in [mm]; negative is what is left of the gap."""
        shorter = design - length
        return (-shorter if self.rebound else shorter) - self.gap


@dataclass(frozen=True)
class Given:
    """A push [N] that does not depend on the length: a damper's, say."""

    force: float

    def push(self, length: Array, design: Array | float) -> Array:
        """The same everywhere."""
        return np.full_like(length, self.force)

    def rate(self, length: Array, design: Array | float) -> Array:
        """None."""
        return np.zeros_like(length)
