"""Walls of a trace that cross each other, touch or lie on each other."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from sections.errors import Fault
from sections.geometry.columns import fault_at
from sections.geometry.walls import IntArray
from sections.result import Array

_NEAR = 1e-6
"""Part of the longest wall under which two walls are on one line."""
_ROWS = 256
"""Walls compared with all others at once."""


def crossings(points: Array, pairs: IntArray, nodes: IntArray, lines: Sequence[int]) -> list[Fault]:
    """Walls that cross or touch where they have no common point, or lie on each other.

    Parameters
    ----------
    points : (n, 2) in order [mm]. pairs : (m, 2) places in the order that a wall joins. nodes : (m, 2) the node that
        stands at each of them. lines : (n,) line of each point in its file.
    """
    start, stop = points[pairs[:, 0]], points[pairs[:, 1]]
    near = _NEAR * float(np.linalg.norm(stop - start, axis=1).max())
    first, second = _near(start, stop, near).T
    run, other = (stop - start)[first], (stop - start)[second]
    gap = start[second] - start[first]
    cross = run[:, 0] * other[:, 1] - run[:, 1] * other[:, 0]
    with np.errstate(divide="ignore", over="ignore", invalid="ignore"):
        mine = (gap[:, 0] * other[:, 1] - gap[:, 1] * other[:, 0]) / cross
        theirs = (gap[:, 0] * run[:, 1] - gap[:, 1] * run[:, 0]) / cross
    met = (mine >= 0) & (mine <= 1) & (theirs >= 0) & (theirs <= 1)
    shared = (nodes[first][:, :, None] == nodes[second][:, None, :]).any(axis=(1, 2))
    faults = []
    for k in np.flatnonzero(_lying_on(gap, run, other, cross, near)):
        words = f"the wall from here on lies on that from line {lines[pairs[first[k], 0]]}"
        faults.append(fault_at(lines[pairs[second[k], 0]], "", "", words))
    for k in np.flatnonzero(met & ~shared):
        y, z = start[first[k]] + mine[k] * run[k]
        from_line = lines[pairs[first[k], 0]]
        words = f"the wall from here on crosses that from line {from_line} at (y {y:.4g}, z {z:.4g})"
        faults.append(fault_at(lines[pairs[second[k], 0]], "", "", words))
    return faults


def _near(start: Array, stop: Array, near: float) -> IntArray:
    """(k, 2) pairs of walls, the earlier first, whose boxes come within `near` of each other.

    Some rows of the table of all pairs at a time, so that the memory stays that of the walls.
    """
    low, high = np.minimum(start, stop) - near, np.maximum(start, stop)
    found = [np.zeros((0, 2), dtype=np.intp)]
    for first in range(0, len(start), _ROWS):
        rows = slice(first, first + _ROWS)
        meet = np.triu(np.ones((len(low[rows]), len(low) - first), dtype=bool), 1)
        for axis in range(2):
            meet &= low[rows, axis, None] <= high[None, first:, axis]
            meet &= low[None, first:, axis] <= high[rows, axis, None]
        found.append(np.argwhere(meet) + first)
    return np.vstack(found)


def _lying_on(gap: Array, run: Array, other: Array, cross: Array, near: float) -> NDArray[np.bool_]:
    """(k,) whether two walls on one line overlap; gap (k, 2) from the start of one to that of the other, run and
    other (k, 2) along each."""
    length, others = np.linalg.norm(run, axis=1), np.linalg.norm(other, axis=1)
    along = run / length[:, None]
    aside = gap[:, 0] * along[:, 1] - gap[:, 1] * along[:, 0]
    parallel = np.abs(cross) <= 1e-9 * length * others
    start = (gap * along).sum(axis=1)
    stop = start + (other * along).sum(axis=1)
    low, high = np.minimum(start, stop), np.maximum(start, stop)
    common = np.minimum(high, length) - np.maximum(low, 0.0)
    return np.asarray(parallel & (np.abs(aside) <= near) & (common > near))
