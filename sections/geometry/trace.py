"""Geometry made of measured points, and what is done to the points on the way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

from sections.geometry.columns import fault_at, raise_faults
from sections.geometry.outline import Outline
from sections.geometry.placing import Placing, chain
from sections.geometry.walls import IntArray, Walls
from sections.result import Array


@dataclass(frozen=True, eq=False)
class Trace:
    """Geometry made of measured points, and how it follows them.

    Attributes
    ----------
    notes : what was done to the points.
    parents : (n,) measured point of each node or ring corner. follows : (n, 2, 2) its move for a move of that point.
    wall_points : (m, 2) the measured points whose mean thickness each wall has; empty for outlines.
    """

    geometry: Walls | Outline
    notes: tuple[str, ...]
    parents: IntArray
    follows: Array
    wall_points: IntArray = field(default_factory=lambda: np.zeros((0, 2), dtype=np.intp))


def in_order(points: Array, placing: Placing, lines: Sequence[int]) -> tuple[IntArray, list[str]]:
    """Order of the points as they are to be joined, and what is to be said of it."""
    order = np.arange(len(points))
    if not placing.sort:
        return order, []
    order = chain(points)
    if np.array_equal(order, np.arange(len(points))) or np.array_equal(order[::-1], np.arange(len(points))):
        return np.arange(len(points)), []
    step = np.linalg.norm(np.diff(points[order], axis=0), axis=1)
    k = int(step.argmax())
    widest = f"from line {lines[order[k]]} to line {lines[order[k + 1]]}, {step[k]:.3g} mm"
    return order, [f"the points were put in order, nearest to nearest; the widest step is {widest}"]


def merged_notes(
    path: str | Path, pairs: IntArray, order: IntArray, lines: Sequence[int], placing: Placing
) -> list[str]:
    """Points left out because they repeat the one before; an error where that was not asked for."""
    if not len(pairs):
        return []
    told = [(lines[order[a]], lines[order[b]]) for a, b in pairs]
    if not placing.merge:
        raise_faults(path, [fault_at(b, "", "", f"repeats the point of line {a}") for a, b in told])
    which = ", ".join(str(b) for _, b in told[:5]) + (" ..." if len(told) > 5 else "")
    near = f"within {placing.merge:g} mm of the one before"
    if len(told) == 1:
        return [f"1 point {near} was left out (line {which})"]
    return [f"{len(told)} points {near} were left out (lines {which})"]
