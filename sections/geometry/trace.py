"""Reading measured points from CSV files."""

from __future__ import annotations

import csv
import math
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from sections.errors import Fault, ShapeError
from sections.geometry.outline import Outline
from sections.geometry.sheet import merged
from sections.geometry.walls import IntArray, Walls
from sections.result import Array


@dataclass(frozen=True)
class _Table:
    """Numbers of a CSV file by column, and the line of each row."""

    columns: dict[str, Array]
    lines: list[int]


def read_midline(path: str | Path, closed: bool) -> Walls:
    """Walls through the points of a CSV file with columns y, z, thickness [mm].

    Thickness is as measured at the point; the wall between two points takes the mean of theirs. A point that repeats
    an earlier one joins the path there, which makes cells and branches.

    Raises
    ------
    ShapeError : naming file and line: unreadable, a column missing, no number, thickness not above zero, two equal
        points in a row, walls that cross.
    """
    table = _read(path, ("y", "z", "thickness"), closed)
    points = np.column_stack([table.columns["y"], table.columns["z"]])
    thickness = table.columns["thickness"]
    following = np.roll(np.arange(len(points)), -1)[: None if closed else -1]
    pairs = np.column_stack([np.arange(len(following)), following])
    faults = [
        _at(table.lines[k], "thickness", f"{thickness[k]:g} mm", "must be above 0 mm")
        for k in np.flatnonzero(thickness <= 0)
    ]
    span = max(float(np.ptp(points, axis=0).max()), 1e-30)
    nodes, node = merged(points, span)
    faults += [
        _at(table.lines[b], "", "", f"repeats the point of line {table.lines[a]}")
        for a, b in pairs
        if node[a] == node[b]
    ]
    _raise(path, faults)
    _raise(path, _crossings(points, pairs, node[pairs], table.lines))
    try:
        return Walls(nodes, node[pairs], (thickness[pairs[:, 0]] + thickness[pairs[:, 1]]) / 2)
    except ShapeError as error:
        raise ShapeError(str(path), error.faults, str(path)) from error


def read_outline(path: str | Path) -> Outline:
    """Outline through the points of a CSV file with columns ring, y, z [mm]; ring 0 is the outer one, 1, 2 ... holes.

    Raises
    ------
    ShapeError : naming file and line, or the place on the outline.
    """
    table = _read(path, ("ring", "y", "z"), closed=True)
    ring = table.columns["ring"]
    faults = [
        _at(table.lines[k], "ring", f"{ring[k]:g}", "must be 0 for the outer ring, or 1, 2 ... for a hole")
        for k in np.flatnonzero((ring < 0) | (ring != np.round(ring)))
    ]
    if not faults and not np.any(ring == 0):
        faults.append(Fault("ring", "", "has no 0, the outer ring"))
    _raise(path, faults)
    points = np.column_stack([table.columns["y"], table.columns["z"]])
    rings = [points[ring == number] for number in np.unique(ring)]
    try:
        return Outline(rings[0], tuple(rings[1:]))
    except ShapeError as error:
        raise ShapeError(str(path), error.faults, str(path)) from error


def _read(path: str | Path, names: Sequence[str], closed: bool) -> _Table:
    try:
        text = Path(path).read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        reason = error.strerror if isinstance(error, OSError) else "it is not text in UTF-8"
        raise ShapeError(str(path), [Fault("", "", f"cannot be read: {reason}")], str(path)) from error
    reader = csv.reader(text.splitlines())
    header = [name.strip() for name in next(reader, [])]
    missing = [name for name in names if name not in header]
    if missing:
        given = ", ".join(header) or "nothing"
        words = f"needs the columns {', '.join(names)}; {', '.join(missing)} missing in: {given}"
        raise ShapeError(str(path), [_at(1, "", "", words)], str(path))
    rows: list[list[float]] = []
    lines: list[int] = []
    faults: list[Fault] = []
    for row in reader:
        if any(cell.strip() for cell in row):
            lines.append(reader.line_num)
            cells = dict(zip(header, row, strict=False))
            rows.append([_number(cells.get(name, ""), reader.line_num, name, faults) for name in names])
    least = 3 if closed else 2
    if len(rows) < least:
        faults.append(Fault("", "", f"has {len(rows)} points; at least {least} are needed"))
    _raise(path, faults)
    return _Table(dict(zip(names, np.array(rows).T, strict=True)), lines)


def _number(cell: str, line: int, column: str, faults: list[Fault]) -> float:
    try:
        value = float(cell)
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        faults.append(_at(line, column, repr(cell.strip()), "must be a number"))
    return value


def _crossings(points: Array, pairs: IntArray, nodes: IntArray, lines: list[int]) -> list[Fault]:
    """Walls that cross or touch where they have no common point."""
    start, run = points[pairs[:, 0]], points[pairs[:, 1]] - points[pairs[:, 0]]
    gap = start[None, :, :] - start[:, None, :]
    cross = run[:, None, 0] * run[None, :, 1] - run[:, None, 1] * run[None, :, 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        mine = (gap[..., 0] * run[None, :, 1] - gap[..., 1] * run[None, :, 0]) / cross
        other = (gap[..., 0] * run[:, None, 1] - gap[..., 1] * run[:, None, 0]) / cross
    met = (mine >= 0) & (mine <= 1) & (other >= 0) & (other <= 1)
    shared = (nodes[:, None, :, None] == nodes[None, :, None, :]).any(axis=(2, 3))
    faults = []
    for a, b in np.argwhere(np.triu(met & ~shared)):
        y, z = start[a] + mine[a, b] * run[a]
        words = f"the wall from here on crosses that from line {lines[pairs[a, 0]]} at (y {y:.4g}, z {z:.4g})"
        faults.append(_at(lines[pairs[b, 0]], "", "", words))
    return faults


def _at(line: int, column: str, given: str, allowed: str) -> Fault:
    return Fault(f"line {line}" + (f", {column}" if column else ""), given, allowed)


def _raise(path: str | Path, faults: Sequence[Fault]) -> None:
    if faults:
        raise ShapeError(str(path), faults, str(path))
