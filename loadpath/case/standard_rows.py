"""The rows of a set that a case file takes, and the load cases that each of them makes in it.

Works on raw tables: what is malformed here yields nothing, and is told when the file is read.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from loadpath.case.declare import LEFT
from loadpath.case.files import file_in_folder, read_toml
from loadpath.case.lookup import Context
from loadpath.case.mirror import TWIN
from loadpath.case.reading import read_table
from loadpath.case.words import join
from loadpath.loads import LOAD_CASE, RowText, StandardRow, standard_set

KEY = "standard_loads"
"""Key of the case file that takes them."""

POSE = "pose"
"""Key of a load case that says in which pose it acts."""


def chosen_rows(
    rows: Mapping[str, StandardRow], asked: Mapping[str, Any], context: Context
) -> list[StandardRow]:
    """The rows that the file takes, in the order of the set; unknown names are mistakes."""
    wanted, without = asked.get("rows", "all"), asked.get("leave_out", [])
    for key, names in (("rows", wanted), ("leave_out", without)):
        for k, name in enumerate(names if isinstance(names, list) else []):
            if rows and isinstance(name, str) and name not in rows:
                context.log.unknown(join(KEY, key, k), "standard load case", name, rows)
    kept = list(rows) if wanted == "all" else wanted if isinstance(wanted, list) else []
    dropped = without if isinstance(without, list) else []
    return [row for name, row in rows.items() if name in kept and name not in dropped]


def set_rows(asked: Mapping[str, Any], context: Context) -> Mapping[str, StandardRow]:
    """Rows by name: the built-in ones, or those of the file's own set.

    Raises
    ------
    CaseError : where the file's own set is no TOML.
    """
    name = asked.get("file")
    if not isinstance(name, str):
        return standard_set()
    file = file_in_folder(name, context.folder)
    return _own_rows(file, context) if isinstance(file, Path) else {}


def _own_rows(file: Path, context: Context) -> Mapping[str, StandardRow]:
    """Rows of a set in a file; faulty ones are left out, with their mistakes."""
    rows, log = {}, replace(context.log, file=file.name)
    for name, keys in read_toml(file).items():
        load_case = keys.get(LOAD_CASE) if isinstance(keys, dict) else None
        if not isinstance(load_case, dict) or "kind" not in load_case:
            log.mistake(join(name, LOAD_CASE), "is missing", "a table with kind and the keys of that kind")
            continue
        rest = {k: v for k, v in keys.items() if k != LOAD_CASE}
        text = read_table(RowText, rest, name, replace(context, log=log))
        if isinstance(text, RowText):
            rows[name] = StandardRow(name, text, load_case)
    return rows


def places_of(row: StandardRow, asked: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The points of the file that a row is made of."""
    places = asked.get(row.places or "")
    found = places if isinstance(places, list) else []
    return [p for p in found if isinstance(p, dict) and isinstance(p.get("point"), str)]


def load_cases_of(row: StandardRow, asked: Mapping[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Names and keys of a row's load cases: one for each of its points and for each loading state.

    A load case of a listed point has no twin, as every point is listed.
    """
    states = asked.get("states")
    named = [s for s in states if isinstance(s, str)] if isinstance(states, list) else []
    for point, keys in _at_places(row, asked):
        for state in named or [""]:
            words = [w for w in (point, state if len(named) > 1 else "") if w]
            name = "_".join([row.name.removesuffix(LEFT), *words])
            name += LEFT if row.name.endswith(LEFT) else ""
            alone = {TWIN: False} if point.endswith(LEFT) and name.endswith(LEFT) else {}
            yield name, {**keys, **({"state": state} if state else {}), **alone}


def _row_keys(row: StandardRow, asked: Mapping[str, Any]) -> dict[str, Any]:
    """The keys of a row; without its pose where all rows act as the vehicle stands."""
    standing = asked.get("poses") == "standing"
    return {key: value for key, value in row.load_case.items() if not (standing and key == POSE)}


def _at_places(row: StandardRow, asked: Mapping[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Points and keys of a row."""
    places, keys = places_of(row, asked), _row_keys(row, asked)
    if row.text.all and places:
        yield "", {**keys, "places": places}
    elif row.text.each and places:
        for place in places:
            yield place["point"], {**keys, **place}
    else:
        yield "", keys
