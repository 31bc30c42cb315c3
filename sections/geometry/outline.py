"""Outlines: an outer ring with holes."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike

from sections.errors import FaultList
from sections.result import Array

_REASONS = {
    "Self-intersection": "the outline crosses itself",
    "Ring Self-intersection": "the outline touches itself",
    "Hole lies outside shell": "a hole lies outside the outer ring",
    "Holes are nested": "one hole lies inside another",
    "Interior is disconnected": "the outline falls into unconnected pieces",
}


@dataclass(frozen=True, eq=False)
class Outline:
    """A polygon with holes in section axes; arcs are chords.

    Attributes
    ----------
    outer : (n, 2) y, z of the outer ring [mm], stored anticlockwise.
    holes : rings (k, 2) [mm], stored clockwise, so that material is on the left of every edge.
    box : (2, 2) smallest and largest y, z; given where chords miss those of the true arcs, else of the ring [mm].

    Raises
    ------
    ShapeError : a ring of fewer than three points or no area, one that crosses or touches itself, a hole
        outside the outer ring or across another; the place is named.
    """

    outer: Array
    holes: tuple[Array, ...] = ()
    box: Array = field(default_factory=lambda: np.zeros((0, 2)))

    def __post_init__(self) -> None:
        faults = FaultList("outline")
        object.__setattr__(self, "outer", _ring(self.outer, "outer ring", 1.0, faults))
        holes = (_ring(hole, f"hole {k + 1}", -1.0, faults) for k, hole in enumerate(self.holes))
        object.__setattr__(self, "holes", tuple(holes))
        faults.raise_any()
        self._check(faults)
        faults.raise_any()
        if not len(self.box):
            object.__setattr__(self, "box", np.array([self.outer.min(axis=0), self.outer.max(axis=0)]))

    @property
    def rings(self) -> tuple[Array, ...]:
        """The outer ring, then the holes."""
        return (self.outer, *self.holes)

    def _check(self, faults: FaultList) -> None:
        import shapely

        polygon = shapely.Polygon(self.outer, self.holes)
        if polygon.is_valid:
            return
        reason = str(shapely.is_valid_reason(polygon))
        kind = reason.split("[")[0]
        place = re.search(r"\[(\S+) (\S+)\]", reason)
        at = f" at (y {float(place[1]):.4g}, z {float(place[2]):.4g})" if place else ""
        faults.add("", "", _REASONS.get(kind, f"the outline is not valid, {kind.lower()}") + at)


@dataclass(frozen=True)
class AreaIntegrals:
    """Exact integrals over an outline: area, centroid (2,) and the (2, 2) matrix [[Izz, Iyz], [Iyz, Iyy]]
    of second moments about the centroid."""

    area: float
    centroid: Array
    inertia: Array


def area_integrals(rings: Sequence[Array]) -> AreaIntegrals:
    """Green's theorem over rings with material on their left (polygon formulas, any handbook)."""
    start = np.vstack(rings)
    stop = np.vstack([np.roll(ring, -1, axis=0) for ring in rings])
    shift = start.mean(axis=0)
    a, b = start - shift, stop - shift
    cross = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    area = cross.sum() / 2
    centroid = cross @ (a + b) / 6 / area
    pair = np.einsum("k,ki,kj->ij", cross, a, b)
    square = np.einsum("k,ki,kj->ij", cross, a, a) + np.einsum("k,ki,kj->ij", cross, b, b)
    moments = (2 * square + pair + pair.T) / 24
    return AreaIntegrals(float(area), centroid + shift, moments - area * np.outer(centroid, centroid))


def _ring(points: ArrayLike, name: str, sense: float, faults: FaultList) -> Array:
    ring = np.array(points, dtype=float).reshape(-1, 2)
    if not np.all(np.isfinite(ring)):
        faults.add(name, "", "every coordinate must be a finite number")
        return ring
    given = len(ring)
    if given:
        ring = ring[np.any(ring != np.roll(ring, 1, axis=0), axis=1)]
    if len(ring) < 3:
        faults.add(name, f"{given} points", "at least 3 different ones are needed")
        return ring
    y, z = (ring - ring[0]).T
    area = float(y @ np.roll(z, -1) - z @ np.roll(y, -1)) / 2
    if abs(area) <= 1e-12 * float(np.ptp(ring, axis=0).max()) ** 2:
        faults.add(name, "", "has no area: its points lie on one line, or it crosses itself")
    return ring if area * sense > 0 else ring[::-1].copy()
