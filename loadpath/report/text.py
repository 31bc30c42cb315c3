"""Tables and sentences as plain text that fits a page."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from loadpath.report.table import Column, Table

WIDE = 114
"""Longest line; a table that is wider has its texts broken sooner, then goes on below with its first columns."""
NARROW = 24
"""No text is broken shorter than this to make a table fit."""

_SPACE = re.compile(r" (?![-+]?\d)")


def as_text(table: Table) -> str:
    """The table in plain text, columns aligned, long texts broken into lines."""
    columns = _fitted(table)
    cells = [[_break(c.show(x), c.width) for c, x in zip(columns, row, strict=True)] for row in table.rows]
    heads = [_head(c) for c in columns]
    widths = [max(len(line) for row in [heads, *cells] for line in row[k]) for k in range(len(columns))]
    right = _numbers(table)
    lines = [table.title, "-" * len(table.title)] if table.title else []
    for n, block in enumerate(_blocks(widths, right)):
        lines += [""] * (n > 0) + _lines([heads[k] for k in block], block, widths, right)
        lines.append("  ".join("-" * widths[k] for k in block))
        for row in cells:
            lines += _lines([row[k] for k in block], block, widths, right)
    if not table.rows:
        lines.append("(none)")
    lines += [line for note in table.notes for line in _break(note, WIDE)]
    return "\n".join(lines) + "\n"


def _numbers(table: Table) -> list[bool]:
    """Whether a column holds no text."""
    return [all(not isinstance(row[k], str) for row in table.rows) for k in range(len(table.columns))]


def _fitted(table: Table) -> list[Column]:
    """The columns as they are, or, in a table that is too wide, narrower ones: headings of numbers, then texts."""
    columns = list(table.columns)
    cells = [max((len(c.show(row[k])) for row in table.rows), default=0) for k, c in enumerate(table.columns)]
    cells = [min(n, c.width) if c.width else n for n, c in zip(cells, columns, strict=True)]
    if _over(columns, cells) > 0:
        for k, number in enumerate(_numbers(table)):
            if number and not columns[k].width:
                columns[k] = _narrower(columns[k], max(cells[k], *map(len, columns[k].title.split(" "))))
    for k in sorted(range(len(columns)), key=lambda k: -cells[k]):
        over = _over(columns, cells)
        if over > 0 and columns[k].width and cells[k] > NARROW:
            cells[k] = max(NARROW, cells[k] - over)
            columns[k] = _narrower(columns[k], cells[k])
    return columns


def _over(columns: Sequence[Column], cells: Sequence[int]) -> int:
    """By how many characters the table is too wide."""
    wide = [max(n, *map(len, _head(c))) for c, n in zip(columns, cells, strict=True)]
    return sum(wide) + 2 * (len(wide) - 1) - WIDE


def _narrower(column: Column, width: int) -> Column:
    return replace(column, width=width)


def _blocks(widths: Sequence[int], right: Sequence[bool]) -> list[list[int]]:
    """Columns that fit side by side; every block begins with the columns of text that the table begins with."""
    texts = next((k for k, number in enumerate(right) if number), len(right))
    lead = list(range(texts))
    taken = sum(widths[k] + 2 for k in lead)
    blocks, used = [list(lead)], taken
    for k in range(texts, len(widths)):
        if used + widths[k] > WIDE and len(blocks[-1]) > texts:
            blocks.append(list(lead))
            used = taken
        blocks[-1].append(k)
        used += widths[k] + 2
    return blocks


def _head(column: Column) -> list[str]:
    if column.width:
        return _break(column.title, column.width)
    return [column.heading, f"[{column.unit}]"] if column.unit else [column.heading]


def _break(text: str, width: int) -> list[str]:
    """Break at spaces into lines of at most `width` characters; a number stays with the word before it."""
    if not width or len(text) <= width:
        return [text]
    lines, line = [], ""
    for word in _SPACE.split(text):
        if line and len(line) + 1 + len(word) > width:
            lines.append(line)
            line = word
        else:
            line = f"{line} {word}" if line else word
    return [*lines, line]


def _lines(
    cells: Sequence[list[str]], block: Sequence[int], widths: Sequence[int], right: Sequence[bool]
) -> list[str]:
    """Cells of one row, each of several lines, side by side."""
    lines = []
    for i in range(max(len(c) for c in cells)):
        texts = [c[i] if i < len(c) else "" for c in cells]
        padded = [
            t.rjust(widths[k]) if right[k] else t.ljust(widths[k]) for t, k in zip(texts, block, strict=True)
        ]
        lines.append("  ".join(padded).rstrip())
    return lines


def wrapped(lines: Sequence[str], width: int = WIDE) -> str:
    """Lines broken at spaces, continued with two spaces."""
    import textwrap

    return "\n".join(textwrap.fill(line, width, subsequent_indent="  ") for line in lines) + "\n"
