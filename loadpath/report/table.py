"""Tables as data, written as CSV or JSON; `text` prints the same rows."""

from __future__ import annotations

import csv
import errno
import io
import json
import math
import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

Cell = str | float | int | None


@dataclass(frozen=True)
class Column:
    """Heading, unit and how a number is shown; text is set to the left, numbers to the right.

    width : longest text in print; longer cells are broken into lines. 0 is no limit.
    significant : digits that count, for numbers of very different size; it takes the place of `digits`.
    order : a number next to nothing is shown by its order, 4e-14.
    """

    heading: str
    unit: str = ""
    digits: int = 0
    width: int = 0
    significant: int = 0
    order: bool = False

    @property
    def title(self) -> str:
        return f"{self.heading} [{self.unit}]" if self.unit else self.heading

    def show(self, cell: Cell) -> str:
        if cell is None:
            return "-"
        if isinstance(cell, str):
            return cell
        if self.order:
            return f"{cell:.0e}"
        if self.significant:
            return significant(cell, self.significant)
        text = f"{cell:.{self.digits}f}"
        return text[1:] if float(text) == 0 and text.startswith("-") else text


def significant(value: float, digits: int) -> str:
    """A number to so many significant digits without powers of ten, thousands apart."""
    if value == 0 or not math.isfinite(value):
        return "0" if value == 0 else str(value)
    places = digits - 1 - math.floor(math.log10(abs(value)))
    rounded = round(value, places)
    return f"{rounded:,.{max(0, places)}f}".replace(",", " ")


@dataclass(frozen=True)
class Table:
    """A titled table; `name` is its file name, `notes` are printed under it."""

    name: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    notes: tuple[str, ...] = ()


def without_columns(table: Table, *headings: str) -> Table:
    """The table without some columns."""
    kept = [k for k, c in enumerate(table.columns) if c.heading not in headings]
    rows = tuple(tuple(row[k] for k in kept) for row in table.rows)
    return replace(table, columns=tuple(table.columns[k] for k in kept), rows=rows)


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

    All texts and folders are made before the first file is written. Beside CSV files `statements.txt` says what
    each of them holds, with its notes, and the statements.
    """
    texts: dict[Path, str] = {}
    for kind, folder in folders.items():
        for table in tables:
            text = as_csv(table) if kind == "csv" else as_json(table, statements)
            texts[folder / f"{table.name}.{kind}"] = text
        if kind == "csv":
            files = [" ".join((f"{t.name}.csv: {t.title}.", *t.notes)) for t in tables]
            texts[folder / "statements.txt"] = "\n".join([*files, "", *statements]) + "\n"
    for folder in folders.values():
        folder.mkdir(parents=True, exist_ok=True)
        if not os.access(folder, os.W_OK):
            raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(folder))
    for path, text in texts.items():
        path.write_text(text, encoding="utf-8")
    return list(texts)
