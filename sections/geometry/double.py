"""Two outlines under one ring number in a file of points."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from sections.errors import Fault
from sections.geometry.columns import fault_at
from sections.geometry.walls import IntArray
from sections.result import Array

_TRIED = 8
"""The longest steps between points, where a second outline is looked for."""


def standing_twice(
    points: Array, rings: Sequence[IntArray], number: Array, lines: Sequence[int]
) -> list[Fault]:
    """Rings that cross themselves because two outlines carry one number: each part alone is an outline, and the parts
    do not cross.

    Parameters
    ----------
    points : (n, 2) [mm]. rings : the places of the points of each ring, in order. number : (n,) the ring's number of
        each point. lines : (n,) line of each point in its file.
    """
    faults = []
    for own in rings:
        at = _second_start(points[own])
        if at is not None:
            words = (
                f"ring {number[own[0]]:g} stands twice: the points from this line on are another outline than those "
                f"from line {lines[own[0]]} on; give it a number of its own, 1, 2 ... for holes"
            )
            faults.append(fault_at(lines[own[at]], "", "", words))
    return faults


def _second_start(ring: Array) -> int | None:
    """The place in a ring (n, 2) from which on it is a second outline, None where it is one.

    Of several places the one whose parts have most area: a point of the other outline takes some away.
    """
    import shapely

    if len(ring) < 6 or shapely.Polygon(ring).is_valid:
        return None
    step = np.linalg.norm(np.diff(ring, axis=0), axis=1)
    found: dict[float, int] = {}
    for at in (np.argsort(-step, kind="stable")[:_TRIED] + 1).tolist():
        if 3 <= at <= len(ring) - 3:
            first, second = shapely.Polygon(ring[:at]), shapely.Polygon(ring[at:])
            apart = not first.exterior.intersects(second.exterior)
            if first.is_valid and second.is_valid and apart:
                found[first.area + second.area] = at
    return found[max(found)] if found else None
