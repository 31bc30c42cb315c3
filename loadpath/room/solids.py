"""What takes room: the tyre on its rim, and a half-shaft; distances from points to them.

Both are bodies of revolution about the x axis of a frame of their own, so that x and the distance from the axis say
all. Distances are exact outside, and change by no more than a point moves.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Tyre

Array = NDArray[np.float64]


class Solid(Protocol):
    """A body of revolution about its x axis."""

    @property
    def reach(self) -> float:
        """[mm] from the origin within which all of it lies."""

    def distance(self, points: Array) -> Array:
        """(n,) [mm] from points (n, 3) in its frame; negative inside."""

    def hull(self, points: Array) -> tuple[Array, Array]:
        """(n,) distance from its convex hull, and the unit vectors (n, 3) away from it; -inf on and within the hull.

        The distance from a convex body is convex: it lies above its tangent everywhere.
        """


@dataclass(frozen=True)
class TyreSolid:
    """A ring from the clear radius within the rim to the tread, with rounded shoulders, round the wheel centre."""

    tyre: Tyre

    @property
    def reach(self) -> float:
        return float(np.hypot(self.tyre.radius, self.tyre.width / 2))

    def distance(self, points: Array) -> Array:
        """Least of the distances to the rounded ring, and to the square one below its shoulders."""
        t = self.tyre
        aside, out = np.abs(points[:, 0]), np.sqrt((points[:, 1:] ** 2).sum(axis=1))
        tread = t.radius - t.shoulder
        middle, half = (t.rim + tread) / 2, (tread - t.rim) / 2
        square = _box(aside - t.width / 2, np.abs(out - middle) - half)
        within = (t.rim + t.shoulder + tread) / 2, (tread - t.rim - t.shoulder) / 2
        if within[1] < 0:
            within = tread, 0.0
        core = _box(aside - t.width / 2 + t.shoulder, np.abs(out - within[0]) - within[1])
        nearest: Array = np.minimum(square, core - t.shoulder)
        return nearest

    def hull(self, points: Array) -> tuple[Array, Array]:
        """Of the disc without the hole of the rim."""
        t = self.tyre
        out = np.sqrt((points[:, 1:] ** 2).sum(axis=1))
        beside = np.maximum(np.abs(points[:, 0]) - t.width / 2 + t.shoulder, 0.0)
        above = np.maximum(out - t.radius + t.shoulder, 0.0)
        size = np.hypot(beside, above)
        safe = np.where(size > 0, size, 1.0)
        radial = points[:, 1:] / np.where(out > 0, out, 1.0)[:, None]
        away = np.column_stack([np.sign(points[:, 0]) * beside / safe, radial * (above / safe)[:, None]])
        return np.where(size > t.shoulder, size - t.shoulder, -np.inf), away


def _box(beside: Array, above: Array) -> Array:
    """Distance to a box from how far points lie beyond each of its sides."""
    outside = np.hypot(np.maximum(beside, 0.0), np.maximum(above, 0.0))
    inside: Array = np.minimum(np.maximum(beside, above), 0.0)
    return outside + inside


@dataclass(frozen=True)
class ShaftSolid:
    """A round bar from the origin along x, with half-round ends."""

    length: float
    radius: float

    @property
    def reach(self) -> float:
        return self.length + self.radius

    def distance(self, points: Array) -> Array:
        """From the nearest point of its axis, less its radius."""
        beyond = points[:, 0] - np.clip(points[:, 0], 0.0, self.length)
        found: Array = np.sqrt(beyond**2 + (points[:, 1:] ** 2).sum(axis=1)) - self.radius
        return found

    def hull(self, points: Array) -> tuple[Array, Array]:
        """It is convex itself."""
        away = points.copy()
        away[:, 0] -= np.clip(points[:, 0], 0.0, self.length)
        size = np.sqrt((away**2).sum(axis=1))
        unit = away / np.where(size > 0, size, 1.0)[:, None]
        return np.where(size > self.radius, size - self.radius, -np.inf), unit
