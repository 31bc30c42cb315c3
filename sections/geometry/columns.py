"""Numbers from CSV files by column, with the line of each row."""

from __future__ import annotations

import csv
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

import numpy as np

from sections.errors import Fault, ShapeError
from sections.result import Array

_LIKE = 0.75
"""Likeness from which the name of a column is taken for a misspelt one."""


@dataclass(frozen=True)
class Columns:
    """Numbers by column, and the line of each row in the file."""

    values: Mapping[str, Array]
    lines: list[int]

    @property
    def points(self) -> Array:
        """(n, 2) the columns y and z."""
        return np.column_stack([self.values["y"], self.values["z"]])


def read_columns(
    path: str | Path, names: Sequence[str], least: int, usual: Mapping[str, float] | None = None
) -> Columns:
    """Columns of a CSV file with a header; others are left out.

    Parameters
    ----------
    least : number of rows. usual : columns that may be missing, or empty in a row, with their value then.

    Raises
    ------
    ShapeError : naming file and line.
    """
    usual = usual or {}
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
        raise_faults(path, [fault_at(1, "", "", words)])
    wanted = (*names, *usual)
    raise_faults(path, _odd_columns(header, wanted))
    rows: list[list[float]] = []
    lines: list[int] = []
    faults: list[Fault] = []
    for row in reader:
        if any(cell.strip() for cell in row):
            lines.append(reader.line_num)
            if len(row) > len(header):
                words = f"has {len(row)} values under {len(header)} columns; numbers take a decimal point, no comma"
                faults.append(fault_at(reader.line_num, "", "", words))
            cells = {name: cell.strip() for name, cell in zip(header, row, strict=False)}
            cells = {
                **{k: f"{v}" for k, v in usual.items()},
                **{k: v for k, v in cells.items() if v or k in names},
            }
            rows.append([_number(cells.get(name, ""), reader.line_num, name, faults) for name in wanted])
    if len(rows) < least:
        faults.append(Fault("", "", f"has {len(rows)} points; at least {least} are needed"))
    raise_faults(path, faults)
    return Columns(dict(zip(wanted, np.array(rows).T, strict=True)), lines)


def _odd_columns(header: Sequence[str], known: Sequence[str]) -> list[Fault]:
    """Columns that stand twice, or whose name is a known one misspelt, which would go unnoticed."""
    faults = []
    for k, name in enumerate(header):
        near = [] if name in known else get_close_matches(name, known, 1, _LIKE)
        if near:
            words = f"there is no column {name!r}; there are {', '.join(known)}; nearest: {near[0]}"
            faults.append(fault_at(1, "", "", words))
        elif name in known and name in header[:k]:
            faults.append(fault_at(1, "", "", f"column {name!r} stands twice"))
    return faults


def fault_at(line: int, column: str, given: str, allowed: str) -> Fault:
    """A fault at a line, and a column if one is to blame."""
    return Fault(f"line {line}" + (f", {column}" if column else ""), given, allowed)


def raise_faults(path: str | Path, faults: Sequence[Fault]) -> None:
    """Raise where there are any.

    Raises
    ------
    ShapeError : with the file.
    """
    if faults:
        raise ShapeError(str(path), faults, str(path))


def _number(cell: str, line: int, column: str, faults: list[Fault]) -> float:
    try:
        value = float(cell)
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        faults.append(fault_at(line, column, repr(cell), "must be a number"))
    return value
