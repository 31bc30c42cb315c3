"""From measured points to where they stand: order, duplicates, mirror image, scale and rotation."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from sections.errors import Fault
from sections.geometry.walls import IntArray
from sections.result import Array

Mirrored = Literal["no", "left-right", "top-bottom"]


@dataclass(frozen=True)
class Placing:
    """What is done to measured points, in this order.

    Attributes
    ----------
    sort : put them in order, nearest to nearest. merge : points nearer to each other than this are one [mm].
    mirrored : complete a half by its mirror image, about the line y = mirror_at ("left-right") or z = mirror_at.
    scale : on all coordinates. rotate : about the origin, from y to z [rad].
    """

    sort: bool = False
    merge: float = 0.0
    mirrored: Mirrored = "no"
    mirror_at: float = 0.0
    scale: float = 1.0
    rotate: float = 0.0

    @property
    def turn(self) -> Array:
        """(2, 2) matrix of rotation and scale."""
        c, s = np.cos(self.rotate), np.sin(self.rotate)
        return self.scale * np.array([[c, -s], [s, c]])

    @property
    def across(self) -> int | None:
        """The coordinate that the mirror turns about: 0 for y, 1 for z; None without one."""
        return None if self.mirrored == "no" else int(self.mirrored == "top-bottom")


def chain(points: Array) -> IntArray:
    """(n,) order of points from nearest to nearest, grown at both ends from the first."""
    left = list(range(1, len(points)))
    order = [0]
    while left:
        there = points[left]
        gaps = [np.linalg.norm(there - points[end], axis=1) for end in (order[0], order[-1])]
        at_end = gaps[1].min() <= gaps[0].min()
        nearest = left.pop(int(gaps[int(at_end)].argmin()))
        order = [*order, nearest] if at_end else [nearest, *order]
    return np.array(order, dtype=np.intp)


def same_points(points: Array, merge: float) -> IntArray:
    """(n,) for each point the first point within `merge` of it, itself where there is none before."""
    first = np.arange(len(points))
    for k in range(1, len(points)):
        earlier = np.flatnonzero(first[:k] == np.arange(k))
        gap = np.linalg.norm(points[earlier] - points[k], axis=1)
        if gap.min() <= merge:
            first[k] = earlier[int(gap.argmin())]
    return first


def on_line(points: Array, lines: list[int], placing: Placing) -> tuple[Array, list[Fault]]:
    """Points with those at the mirror line put on it, and what is wrong with their sides."""
    axis = placing.across
    if axis is None:
        return points, []
    near = max(placing.merge, 1e-6 * float(np.ptp(points)))
    way = points[:, axis] - placing.mirror_at
    name = f"{'yz'[axis]} = {placing.mirror_at:g}"
    if np.abs(way).min() > near:
        k = int(np.abs(way).argmin())
        words = f"no point lies on the mirror line {name}; this one, the nearest, is {abs(way[k]):.3g} mm off"
        return points, [Fault(f"line {lines[k]}", "", f"{words}; move it there or say merge")]
    side = np.sign(way[int(np.abs(way).argmax())])
    beyond = np.flatnonzero(way * side < -near)
    faults = [
        Fault(f"line {lines[k]}", "", f"lies beyond the mirror line {name}, by {abs(way[k]):.3g} mm")
        for k in beyond
    ]
    placed = points.copy()
    placed[np.abs(way) <= near, axis] = placing.mirror_at
    return placed, faults
