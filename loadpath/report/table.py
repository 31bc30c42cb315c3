"""Tables as data: printed as text, written as CSV or JSON from the same rows."""

from __future__ import annotations

import csv
import errno
import io
import json
import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

Cell = str | float | int | None


@dataclass(frozen=True)
class Column:
    """Heading, unit and how a number is shown; text is set to the left, numbers to the right.

    width : longest text in print; longer cells are broken into lines. 0 is no limit.
    """

    heading: str
    unit: str = ""
    digits: int = 0
    width: int = 0

    @property
    def title(self) -> str:
        return f"{self.heading} [{self.unit}]" if self.unit else self.heading

    def show(self, cell: Cell) -> str:
        if cell is None:
            return "-"
        if isinstance(cell, str):
            return cell
        text = f"{cell:.{self.digits}f}"
        return text[1:] if float(text) == 0 and text.startswith("-") else text


@dataclass(frozen=True)
class Table:
    """A titled table; `name` is its file name, `notes` are printed under it."""

    name: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    notes: tuple[str, ...] = ()


def as_text(table: Table) -> str:
    """The table in plain text, columns aligned, long texts broken into lines."""
    right = [all(not isinstance(row[k], str) for row in table.rows) for k in range(len(table.columns))]
    shown = [[c.show(cell) for c, cell in zip(table.columns, row, strict=True)] for row in table.rows]
    broken = [[_break(t, c.width) for c, t in zip(table.columns, row, strict=True)] for row in shown]
    heads = [_break(c.title, c.width) if c.width else _break_unit(c) for c in table.columns]
    widths = [
        max(len(line) for row in [heads, *broken] for line in row[k]) for k in range(len(table.columns))
    ]
    lines = [table.title, "-" * len(table.title)] if table.title else []
    lines += _lines(heads, widths, right)
    lines.append("  ".join("-" * w for w in widths))
    for row in broken:
        lines += _lines(row, widths, right)
    if not table.rows:
        lines.append("(none)")
    lines += [line for note in table.notes for line in _break(note, 108)]
    return "\n".join(lines) + "\n"


def _break_unit(column: Column) -> list[str]:
    return [column.heading, f"[{column.unit}]"] if column.unit else [column.heading]


def _break(text: str, width: int) -> list[str]:
    """Break at spaces into lines of at most `width` characters; longer words stay whole."""
    if not width or len(text) <= width:
        return [text]
    lines, line = [], ""
    for word in text.split(" "):
        if line and len(line) + 1 + len(word) > width:
            lines.append(line)
            line = word
        else:
            line = f"{line} {word}" if line else word
    return [*lines, line]


def _lines(cells: Sequence[list[str]], widths: list[int], right: list[bool]) -> list[str]:
    height = max(len(c) for c in cells)
    lines = []
    for i in range(height):
        parts = [
            (c[i] if i < len(c) else "").rjust(w) if r else (c[i] if i < len(c) else "").ljust(w)
            for c, w, r in zip(cells, widths, right, strict=True)
        ]
        lines.append("  ".join(parts).rstrip())
    return lines


def as_csv(table: Table) -> str:
    """CSV with units in the headings, numbers unrounded."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\n")
    writer.writerow([c.title for c in table.columns])
    writer.writerows([["" if cell is None else cell for cell in row] for row in table.rows])
    return stream.getvalue()


def as_json(table: Table, statements: Sequence[str] = ()) -> str:
    """JSON: title, notes, statements and one object for each row, keys with units."""
    rows = [{c.title: cell for c, cell in zip(table.columns, row, strict=True)} for row in table.rows]
    told = {"title": table.title, "notes": list(table.notes), "statements": list(statements), "rows": rows}
    return json.dumps(told, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def write(tables: Sequence[Table], folders: Mapping[str, Path], statements: Sequence[str]) -> list[Path]:
    """Write every table as the kinds ("csv", "json") into their folders, with what must be read beside them.

    All texts and folders are made before the first file is written. Beside CSV files the statements stand in
    `statements.txt`.
    """
    texts: dict[Path, str] = {}
    for kind, folder in folders.items():
        for table in tables:
            text = as_csv(table) if kind == "csv" else as_json(table, statements)
            texts[folder / f"{table.name}.{kind}"] = text
        if kind == "csv":
            texts[folder / "statements.txt"] = "\n".join(statements) + "\n"
    for folder in folders.values():
        folder.mkdir(parents=True, exist_ok=True)
        if not os.access(folder, os.W_OK):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(folder))
    for path, text in texts.items():
        path.write_text(text, encoding="utf-8")
    return list(texts)
