"""Walls of a trace that cross each other, touch or lie on each other."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from sections.errors import Fault
from sections.geometry.columns import fault_at
from sections.geometry.walls import IntArray
from sections.result import Array


def crossings(points: Array, pairs: IntArray, nodes: IntArray, lines: Sequence[int]) -> list[Fault]:
    """Walls that cross or touch where they have no common point, or lie on each other.

    Parameters
    ----------
    points : (n, 2) in order [mm]. pairs : (m, 2) places in the order that a wall joins. nodes : (m, 2) the node that
        stands at each of them. lines : (n,) line of each point in its file.
    """
    start, run = points[pairs[:, 0]], points[pairs[:, 1]] - points[pairs[:, 0]]
    gap = start[None, :, :] - start[:, None, :]
    cross = run[:, None, 0] * run[None, :, 1] - run[:, None, 1] * run[None, :, 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        mine = (gap[..., 0] * run[None, :, 1] - gap[..., 1] * run[None, :, 0]) / cross
        other = (gap[..., 0] * run[:, None, 1] - gap[..., 1] * run[:, None, 0]) / cross
    met = (mine >= 0) & (mine <= 1) & (other >= 0) & (other <= 1)
    faults = [
        fault_at(
            lines[pairs[b, 0]], "", "", f"the wall from here on lies on that from line {lines[pairs[a, 0]]}"
        )
        for a, b in np.argwhere(np.triu(_lying_on(gap, run, cross), 1))
    ]
    shared = (nodes[:, None, :, None] == nodes[None, :, None, :]).any(axis=(2, 3))
    for a, b in np.argwhere(np.triu(met & ~shared)):
        y, z = start[a] + mine[a, b] * run[a]
        words = f"the wall from here on crosses that from line {lines[pairs[a, 0]]} at (y {y:.4g}, z {z:.4g})"
        faults.append(fault_at(lines[pairs[b, 0]], "", "", words))
    return faults


def _lying_on(gap: Array, run: Array, cross: Array) -> NDArray[np.bool_]:
    """(m, m) whether two walls on one line overlap; gap (m, m, 2) from the start of one to that of the other."""
    length = np.linalg.norm(run, axis=1)
    along = run / length[:, None]
    aside = gap[..., 0] * along[:, None, 1] - gap[..., 1] * along[:, None, 0]
    near = 1e-6 * length.max()
    parallel = np.abs(cross) <= 1e-9 * length[:, None] * length[None, :]
    start = (gap * along[:, None, :]).sum(axis=2)
    stop = start + (run[None, :, :] * along[:, None, :]).sum(axis=2)
    low, high = np.minimum(start, stop), np.maximum(start, stop)
    common = np.minimum(high, length[:, None]) - np.maximum(low, 0.0)
    return np.asarray(parallel & (np.abs(aside) <= near) & (common > near))
