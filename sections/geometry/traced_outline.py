"""Measured points of an outline, from a CSV file to its rings."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from sections.errors import Fault, ShapeError
from sections.geometry.columns import fault_at, raise_faults, read_columns
from sections.geometry.double import standing_twice
from sections.geometry.outline import Outline
from sections.geometry.placing import Placing, on_line
from sections.geometry.sheet import fused
from sections.geometry.trace import Trace, in_order, merged_notes
from sections.geometry.walls import IntArray
from sections.result import Array

_ROWS = 256
"""Places compared with all points at once."""


def read_outline(path: str | Path, placing: Placing | None = None) -> Trace:
    """Outline through the points of a CSV file with columns ring, y, z [mm]; ring 0 is the outer one, 1, 2 ... holes.

    Raises
    ------
    ShapeError : naming file and line, or the place on the outline.
    """
    placing = Placing() if placing is None else placing
    table = read_columns(path, ("ring", "y", "z"), 3)
    ring, lines = table.values["ring"], table.lines
    faults = [
        fault_at(lines[k], "ring", f"{ring[k]:g}", "must be 0 for the outer ring, or 1, 2 ... for a hole")
        for k in np.flatnonzero((ring < 0) | (ring != np.round(ring)))
    ]
    if not faults and not np.any(ring == 0):
        faults.append(Fault("ring", "", "has no 0, the outer ring"))
    points, more = on_line(table.points, lines, placing)
    raise_faults(path, [*faults, *more])
    notes, rings = list[str](), list[IntArray]()
    for number in np.unique(ring):
        own = np.flatnonzero(ring == number)
        order, told = in_order(points[own], placing, [lines[k] for k in own])
        own = own[order]
        if placing.merge:
            double = np.linalg.norm(points[own] - points[np.roll(own, 1)], axis=1) <= placing.merge
            pairs = np.column_stack([np.arange(len(own)) - 1, np.arange(len(own))])[double]
            told += merged_notes(path, pairs, own, lines, placing)
            own = own[~double]
        notes += told
        rings.append(own)
    try:
        outline = Outline(points[rings[0]], tuple(points[own] for own in rings[1:]))
        outline = _completed(outline, placing)
    except ShapeError as error:
        raise_faults(path, standing_twice(points, rings, ring, lines))
        raise ShapeError(str(path), error.faults, str(path)) from error
    except ValueError as error:
        words = "the halves do not meet along the mirror line"
        raise ShapeError(str(path), [Fault("", "", words)], str(path)) from error
    parents, flips = _origins(np.vstack(outline.rings), points, placing)
    turned = Outline(outline.outer @ placing.turn.T, tuple(h @ placing.turn.T for h in outline.holes))
    return Trace(turned, tuple(notes), parents, placing.turn * flips[:, None, :])


def _completed(outline: Outline, placing: Placing) -> Outline:
    if placing.across is None:
        return outline
    image = [_image(ring, placing)[::-1] for ring in outline.rings]
    return fused([outline, Outline(image[0], tuple(image[1:]))])


def _image(points: Array, placing: Placing) -> Array:
    image = points.copy()
    if placing.across is not None:
        image[:, placing.across] = 2 * placing.mirror_at - points[:, placing.across]
    return image


def _origins(corners: Array, points: Array, placing: Placing) -> tuple[IntArray, Array]:
    """Measured point of each ring corner, and (n, 2) which way the corner moves with it."""
    flips = np.ones((len(corners), 2))
    own, gap = _nearest(corners, points)
    axis = placing.across
    if axis is None:
        return own, flips
    twin, image = _nearest(corners, _image(points, placing))
    mirrored = image < gap
    flips[mirrored, axis] = -1.0
    flips[np.abs(corners[:, axis] - placing.mirror_at) <= 1e-6 * np.ptp(points), axis] = 0.0
    return np.where(mirrored, twin, own), flips


def _nearest(places: Array, points: Array) -> tuple[IntArray, Array]:
    """(n,) nearest point of each place, the first of several, and its distance [mm]; some places at a time, so that
    the memory stays small."""
    nearest, far = np.zeros(len(places), dtype=np.intp), np.zeros(len(places))
    for first in range(0, len(places), _ROWS):
        rows = slice(first, first + _ROWS)
        gap = np.linalg.norm(places[rows, None] - points, axis=2)
        nearest[rows], far[rows] = gap.argmin(axis=1), gap.min(axis=1)
    return nearest, far
