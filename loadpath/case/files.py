"""The files of a case: the TOML itself, the CSV of hardpoints, and none outside its folder."""

from __future__ import annotations

import csv
import re
import tomllib
from pathlib import Path
from typing import Any

from loadpath.case.errors import CaseError, Mistake, nearest, shown

_PLACE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")
POINT_COLUMNS = ["name", "x", "y", "z"]


def read_toml(path: Path) -> dict[str, Any]:
    """Raw tables of a case file.

    Raises
    ------
    CaseError : where there is no such file, or it is no TOML in UTF-8.
    """
    text = _text(path)
    if isinstance(text, Mistake):
        raise CaseError([text])
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        message = str(error)
        place = _PLACE.search(message)
        where = f"line {place[1]}, column {place[2]}" if place and place[1] else "end of the file"
        what = _PLACE.sub("", message)
        raise CaseError(
            [Mistake(path.name, where, f"not valid TOML: {what[:1].lower()}{what[1:]}")]
        ) from None
    except (ValueError, RecursionError) as error:
        what = "nested too deeply" if isinstance(error, RecursionError) else str(error)
        raise CaseError([Mistake(path.name, "", f"not valid TOML: {what}")]) from None


def _text(path: Path) -> str | Mistake:
    """The text of a file, or what is wrong with it."""
    try:
        return path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = error.object[: error.start].count(b"\n") + 1
        return Mistake(path.name, f"line {line}", "is not UTF-8 text", "a file saved as UTF-8")
    except FileNotFoundError:
        near = nearest(path.name, _siblings(path))
        return Mistake(str(path), "", "there is no such file", "a case file (TOML)", near)
    except IsADirectoryError:
        return Mistake(str(path), "", "is a folder", "a case file (TOML)")
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        return Mistake(str(path), "", f"cannot be read: {reason}")


def _siblings(path: Path) -> list[str]:
    try:
        return [p.name for p in path.parent.iterdir()]
    except (OSError, ValueError):
        return []


def file_in_folder(name: str, folder: Path) -> Path | str:
    """The file of that name at or below a folder, or what is wrong with the name."""
    try:
        base = folder.resolve()
        found = (base / name).resolve()
        if not found.is_relative_to(base):
            return f"{shown(name)} leaves the folder of the case file"
        if found.is_file():
            return found
        return f"there is no file {shown(name)} in the folder of the case file"
    except (OSError, ValueError, RuntimeError):
        return f"{shown(name)} is not a file name"


def read_points_csv(path: Path) -> dict[str, list[float | str]]:
    """Raw positions by name from a CSV with the columns name, x, y, z; lines that start with # are left out.

    Raises
    ------
    CaseError : where it cannot be read as such; the positions themselves are checked later.
    """
    text = _text(path)
    if isinstance(text, Mistake):
        raise CaseError([text])
    points: dict[str, list[float | str]] = {}
    head, mistakes = False, []
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        place = f"line {number}"
        try:
            cells = [c.strip() for c in next(csv.reader([line], strict=True, skipinitialspace=True), [])]
        except csv.Error as error:
            mistakes.append(Mistake(path.name, place, f"not valid CSV: {error}"))
            continue
        if not head and cells != POINT_COLUMNS:
            raise CaseError(
                [Mistake(path.name, place, f"the columns are {shown(line)}", ",".join(POINT_COLUMNS))]
            )
        if head and cells[0] in points:
            mistakes.append(
                Mistake(path.name, place, f"the point {shown(cells[0])} stands twice", "each once")
            )
        if head:
            points[cells[0]] = [_cell(c) for c in cells[1:]]
        head = True
    if mistakes:
        raise CaseError(mistakes)
    return points


def _cell(text: str) -> float | str:
    """A number, or the text as it stands: a quantity with unit or tolerance, or a mistake to be told."""
    try:
        return float(text)
    except ValueError:
        return text
