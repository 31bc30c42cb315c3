"""Where stress is reported on thin walls: both faces at nodes and between them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sections.columns import gathered, spread
from sections.geometry.walls import IntArray, Walls
from sections.result import Array
from sections.walls.faces import Corner, corner, directions, mitre, wall_ends

_LONG, _SHORT = 0.3, 0.1
"""Walls longer than these parts of the section's size have three stations, or one, between their ends."""
_ARC = np.radians(20.0)
"""Largest turn between two chords of an arc; every second of their corners has a station."""


@dataclass(frozen=True, eq=False)
class Stations:
    """Points on the mid-line with the vector to the left face.

    Attributes
    ----------
    wall : (k,) the wall whose flow and thickness hold. other : (k,) the wall across the corner, itself for none.
    at : (k,) place along it, 0 to 1.
    tangent : (k, 2) direction of positive flow; at a corner of two walls the mean of both.
    reach : (k, 2) from the mid-line to the face on the left, to the mitre point at a corner [mm].
    """

    wall: IntArray
    other: IntArray
    at: Array
    tangent: Array
    reach: Array


def stations(walls: Walls) -> Stations:
    """Both ends of every wall (one station where two walls of one thickness meet, with no seam) and, in longer
    walls, stations between."""
    along, length = directions(walls)
    every = spread(walls.nodes)
    size = 2 * np.linalg.norm(every - every.mean(axis=1, keepdims=True), axis=2).max(axis=1)
    part = (length / gathered(size)).tolist()
    rows = _at_nodes(walls, along, part)
    rows += [(wall, at, wall, 1) for wall, share in enumerate(part) for at in _between(share)]
    wall, at, other, sense = (np.array(column) for column in zip(*rows, strict=True))
    tangent, reach = mitre(along[wall], sense[:, None] * along[other], walls.thickness[wall])
    return Stations(wall, other, at.astype(float), tangent, reach)


def _at_nodes(walls: Walls, along: Array, part: list[float]) -> list[tuple[int, float, int, int]]:
    """Wall, place along it, the wall across the corner (itself for none), and that one's sense."""
    tied = set(walls.seams.reshape(-1).tolist())
    rows: list[tuple[int, float, int, int]] = []
    skipped = False
    for node, ends in enumerate(wall_ends(walls)):
        found = None if node in tied else corner(ends, along, walls.thickness)
        if found is None:
            rows += [(wall, end, wall, 1) for wall, end in ends]
            continue
        skipped = not skipped and _on_arc(found, along, part)
        if not skipped:
            rows.append(found)
    return rows


def _on_arc(found: Corner, along: Array, part: list[float]) -> bool:
    wall, _, other, sense = found
    chords = part[wall] < _SHORT and part[other] < _SHORT
    return chords and bool(sense * along[wall] @ along[other] > np.cos(_ARC))


def _between(share: float) -> tuple[float, ...]:
    """Stations within a wall whose length is given as a part of the section's size."""
    if share > _LONG:
        return (0.25, 0.5, 0.75)
    return (0.5,) if share > _SHORT else ()
