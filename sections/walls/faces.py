"""Where the faces of thin walls are: half a thickness from the mid-line, mitred at corners."""

from __future__ import annotations

import numpy as np

from sections.columns import hypot
from sections.geometry.walls import Walls
from sections.result import Array

SHARPEST = np.radians(120.0)
"""Turn beyond which two walls are not mitred."""

Corner = tuple[int, int, int, int]
"""A wall, its end there (0 start, 1 stop), the wall that it meets, and −1 if that one has to be turned about to run
on from it, else 1."""


def directions(walls: Walls) -> tuple[Array, Array]:
    """(m, 2) unit vectors along the walls, and (m,) their lengths [mm]."""
    run = walls.nodes[walls.ends[:, 1]] - walls.nodes[walls.ends[:, 0]]
    length = hypot(run[:, 0], run[:, 1])
    return run / length[:, None], length


def wall_ends(walls: Walls) -> list[list[tuple[int, int]]]:
    """For each node the walls that end there, with 0 for their start and 1 for their stop."""
    meeting: list[list[tuple[int, int]]] = [[] for _ in walls.nodes]
    for wall, (start, stop) in enumerate(walls.ends.tolist()):
        meeting[start].append((wall, 0))
        meeting[stop].append((wall, 1))
    return meeting


def corner(ends: list[tuple[int, int]], along: Array, thickness: Array) -> Corner | None:
    """The corner of exactly two walls of one thickness, unless they fold back on each other."""
    if len(ends) != 2:
        return None
    (wall, end), (other, other_end) = ends
    sense = -1 if end == other_end else 1
    folded = sense * along[wall] @ along[other] < np.cos(SHARPEST)
    return None if folded or thickness[wall] != thickness[other] else (wall, end, other, sense)


def mitre(wall: Array, other: Array, thickness: Array) -> tuple[Array, Array]:
    """Mean direction (..., 2) of two unit vectors, and the reach (..., 2) from mid-line to left mitre point."""
    mean = wall + other
    mean = mean / hypot(mean[..., 0], mean[..., 1])[..., None]
    cosine = (mean * wall).sum(axis=-1)
    left = np.stack([-mean[..., 1], mean[..., 0]], axis=-1)
    return mean, left * (thickness / 2 / cosine)[..., None]


def wall_outlines(walls: Walls) -> Array:
    """(m, 4, 2) corners of each wall to its thickness: start left, start right, stop right, stop left."""
    along, _ = directions(walls)
    _, square = mitre(along, along, walls.thickness)
    reach = np.stack([square, square], axis=1)
    for ends in wall_ends(walls):
        found = corner(ends, along, walls.thickness)
        if found is not None:
            wall, end, other, sense = found
            _, left = mitre(along[wall], sense * along[other], walls.thickness[wall])
            reach[wall, end] = left
            reach[other, 1 - end if sense == 1 else end] = sense * left
    mid = walls.nodes[walls.ends]
    left, right = mid + reach, mid - reach
    return np.stack([left[:, 0], right[:, 0], right[:, 1], left[:, 1]], axis=1)
