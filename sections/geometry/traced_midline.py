"""Measured points of mid-lines, from a CSV file to walls."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np

from sections.errors import Fault, ShapeError
from sections.geometry.columns import Columns, fault_at, raise_faults, read_columns
from sections.geometry.crossings import crossings
from sections.geometry.placing import Placing, on_line, same_points
from sections.geometry.trace import Trace, in_order, merged_notes
from sections.geometry.walls import RATIOS, IntArray, Walls, on_one_line
from sections.result import Array

_MOST_WALLS = 5000
"""Walls of one trace: their paths through the section take memory by the square of their number, 0.6 GB here."""


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
    order, notes = in_order(points, placing, lines)
    same = same_points(points[order], placing.merge if placing.merge else 1e-9 * float(np.ptp(points)))
    first = order[same]
    pairs = _neighbours(values["path"][order], closed)
    double = first[pairs[:, 0]] == first[pairs[:, 1]]
    notes += merged_notes(path, pairs[double], order, lines, placing)
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
