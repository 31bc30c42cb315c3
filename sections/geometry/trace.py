"""Measured points from CSV files to geometry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

from sections.errors import Fault, ShapeError
from sections.geometry.columns import Columns, fault_at, raise_faults, read_columns
from sections.geometry.crossings import crossings
from sections.geometry.double import standing_twice
from sections.geometry.outline import Outline
from sections.geometry.placing import Placing, chain, on_line, same_points
from sections.geometry.sheet import fused
from sections.geometry.walls import RATIOS, IntArray, Walls, on_one_line
from sections.result import Array

_MOST_WALLS = 5000
"""Walls of one trace: their paths through the section take memory by the square of their number, 0.6 GB here."""
_ROWS = 256
"""Places compared with all points at once."""


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


def read_midline(path: str | Path, closed: bool, placing: Placing | None = None) -> Trace:
    """Walls through the points of a CSV file with columns y, z, thickness [mm] and, if wanted, strength, E_ratio,
    G_ratio, density_ratio and path.

    Thickness is as measured at the point; the wall between two points takes the mean of theirs, and the lower
    strength (over that of the grade). The ratios, of another material over the section's own, are those of the wall
    from the point on. Points with another number of path, one after the other, begin another path. A
    point that repeats an earlier one joins that place, which makes cells and branches.

    Raises
    ------
    ShapeError : naming file and line: unreadable, a column missing, no number, thickness not above zero, two equal
        points in a row, walls that cross or lie on each other, pieces that do not hang together, a half that does
        not meet its mirror line.
    """
    placing = Placing() if placing is None else placing
    optional = {"strength": 1.0, "path": 0.0} | dict.fromkeys(RATIOS, 1.0)
    table = read_columns(path, ("y", "z", "thickness"), 3 if closed else 2, optional)
    values, lines = table.values, table.lines
    raise_faults(path, _out_of_range(values, lines))
    points, faults = on_line(table.points, lines, placing)
    raise_faults(path, faults)
    if not placing.merge:
        raise_faults(path, _too_many(len(points) - 1, placing))
    order, notes = _in_order(points, placing, lines)
    same = same_points(points[order], placing.merge if placing.merge else 1e-9 * float(np.ptp(points)))
    first = order[same]
    pairs = _neighbours(values["path"][order], closed)
    double = first[pairs[:, 0]] == first[pairs[:, 1]]
    notes += _merged_notes(path, pairs[double], order, lines, placing)
    pairs = pairs[~double]
    if not len(pairs):
        raise_faults(path, [Fault("merge", f"{placing.merge:g} mm", "must leave more than one point")])
    raise_faults(path, _too_many(len(pairs), placing))
    raise_faults(path, crossings(points[first], pairs, first[pairs], [lines[k] for k in order]))
    return _walls(path, table, points, first[pairs], order[pairs], placing, notes)


def _too_many(walls: int, placing: Placing) -> list[Fault]:
    count = walls * (1 if placing.across is None else 2)
    if count <= _MOST_WALLS:
        return []
    words = f"makes about {count} walls; at most {_MOST_WALLS} are worked out: leave points out with merge"
    return [Fault("", "", words)]


def _neighbours(path: Array, closed: bool) -> IntArray:
    """(m, 2) places in the order that are joined: those in a row on one path; each path's ends where closed."""
    last = np.flatnonzero(np.append(path[1:] != path[:-1], True))
    first = np.append(0, last[:-1] + 1)
    along = np.column_stack([np.arange(len(path)), np.arange(len(path)) + 1])
    along[last, 1] = first
    kept = np.ones(len(path), dtype=bool)
    kept[last] = closed
    return along[kept]


def _out_of_range(values: Mapping[str, Array], lines: Sequence[int]) -> list[Fault]:
    thickness, strength = values["thickness"], values["strength"]
    thin = [
        fault_at(lines[k], "thickness", f"{thickness[k]:g} mm", "must be above 0 mm")
        for k in np.flatnonzero(thickness <= 0).tolist()
    ]
    weak = [
        fault_at(lines[k], "strength", f"{strength[k]:g}", "must be above 0 and at most 1")
        for k in np.flatnonzero((strength <= 0) | (strength > 1)).tolist()
    ]
    other = [
        fault_at(lines[k], name, f"{values[name][k]:g}", "must be above 0")
        for name in RATIOS
        for k in np.flatnonzero(values[name] <= 0).tolist()
    ]
    return [*thin, *weak, *other]


def _walls(
    path: str | Path,
    table: Columns,
    points: Array,
    ends: IntArray,
    wall_points: IntArray,
    placing: Placing,
    notes: list[str],
) -> Trace:
    """Walls between measured points (m, 2), with their mirror image, turned and scaled."""
    kept, index = np.unique(ends, return_inverse=True)
    ends, count = index.reshape(-1, 2), len(kept)
    parents, flips, nodes = kept, np.ones((count, 2)), points[kept]
    axis = placing.across
    if axis is not None:
        held = nodes[:, axis] == placing.mirror_at
        twin = np.where(held, np.arange(count), count + np.cumsum(~held) - 1)
        flip = np.ones(2)
        flip[axis] = -1.0
        image = nodes * flip
        image[:, axis] += 2 * placing.mirror_at
        flips[held, axis] = 0.0
        parents = np.concatenate([kept, kept[~held]])
        flips = np.vstack([flips, np.tile(flip, ((~held).sum(), 1))])
        nodes = np.vstack([nodes, image[~held]])
        along_line = held[ends].all(axis=1)
        ends = np.vstack([ends, twin[ends[~along_line]]])
        wall_points = np.vstack([wall_points, wall_points[~along_line]])
    thickness, strength = table.values["thickness"], table.values["strength"]
    E, G, density = (table.values[name] for name in RATIOS)
    try:
        walls = Walls(
            nodes @ placing.turn.T,
            ends,
            thickness[wall_points].mean(axis=1),
            strength=strength[wall_points].min(axis=1),
            E_ratio=E[wall_points[:, 0]],
            G_ratio=G[wall_points[:, 0]],
            density_ratio=density[wall_points[:, 0]],
        )
    except ShapeError as error:
        raise ShapeError(str(path), error.faults, str(path)) from error
    if on_one_line(walls.nodes):
        words = "all points lie on one straight line, across which thin walls have no stiffness; trace the outline"
        raise_faults(path, [Fault("", "", words)])
    follows = placing.turn * flips[:, None, :]
    return Trace(walls, tuple(notes), parents, follows, wall_points)


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
        order, told = _in_order(points[own], placing, [lines[k] for k in own])
        own = own[order]
        if placing.merge:
            double = np.linalg.norm(points[own] - points[np.roll(own, 1)], axis=1) <= placing.merge
            pairs = np.column_stack([np.arange(len(own)) - 1, np.arange(len(own))])[double]
            told += _merged_notes(path, pairs, own, lines, placing)
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


def _in_order(points: Array, placing: Placing, lines: Sequence[int]) -> tuple[IntArray, list[str]]:
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


def _merged_notes(
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
