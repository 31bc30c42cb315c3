"""Declared types and pydantic's errors in words."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

from pydantic_core import ValidationError

from loadpath.case.declare import Item, alternatives, bare, choices, is_mapping, items
from loadpath.case.errors import Log, listed, nearest, shown
from loadpath.case.schema import BRANCHES, NOT_A_QUANTITY
from sections import ShapeError

DIRECTION = "an axis word, forward, left or up, with or without a minus, components, or a point to look at"
_COUNTS = {2: "two", 3: "three", 4: "four", 6: "six"}


def type_words(hint: Any, refers: str | None = None) -> str:
    """What a value of a declared type is, as the guide and the messages call it."""
    plain = bare(hint)
    if refers == "direction":
        return "direction"
    options = alternatives(plain)
    if len(options) > 1:
        return " or ".join(type_words(o, refers) for o in options)
    if plain is float:
        return "number"
    if plain is int:
        return "whole number"
    if plain is bool:
        return "true or false"
    if plain is str:
        return _reference(refers) if refers else "text"
    if get_origin(plain) is Literal:
        return " or ".join(str(a) if isinstance(a, int) else f'"{a}"' for a in get_args(plain))
    if is_mapping(plain):
        return f"table of {_plural(get_args(plain)[1], None)} by {refers or 'name'}"
    if get_origin(plain) is tuple:
        first, *rest = get_args(plain)
        count = "list of" if rest == [Ellipsis] else _COUNTS[1 + len(rest)]
        return f"{count} {_plural(first, refers)}"
    return "table"


def _reference(refers: str) -> str:
    return "file name" if refers == "file" else f"name of a {refers}"


def _plural(hint: Any, refers: str | None) -> str:
    if refers == "part or body":
        return "names of parts or the body"
    word = type_words(hint)
    return f"names of {refers}s" if refers else word if word.endswith("s") else f"{word}s"


def explain(table: type, error: ValidationError, path: str, short: str | None, log: Log) -> None:
    """Note down every mistake that pydantic found in the values of a table.

    `short` is the key whose value stood for the whole table, if so.
    """
    for found in error.errors(include_url=False):
        _explain_one(table, found, path, short, log)


def _explain_one(table: type, found: Mapping[str, Any], path: str, short: str | None, log: Log) -> None:
    steps = [s for s in found["loc"] if s not in BRANCHES]
    key, value = str(steps[0]), found["input"]
    own = path if key == short else join(path, key)
    place = join(own, *steps[1:])
    item = next((i for i in items(table) if i.key == key), None)
    if item is None:
        log.mistake(place, "unknown key", f"one of {listed(keys(table), 40)}", nearest(key, keys(table)))
    elif found["type"] == NOT_A_QUANTITY:
        context = found["ctx"]
        log.mistake(place, context["what"], context["expected"], context["near"])
    elif found["type"] == "missing" and len(steps) == 1:
        log.mistake(place, "is missing", expectation(item))
    elif found["type"] == "literal_error":
        words = [str(c) for c in choices(item.hint)]
        log.mistake(place, f"{shown(value)} is not a choice", expectation(item), nearest(value, words))
    elif found["type"] in ("too_long", "missing"):
        log.mistake(own, f"{shown(value)} has {len(value)} entries", expectation(item))
    else:
        log.mistake(place, f"{shown(value)} does not fit", expectation(item))


def tell_faults(error: ShapeError, path: str, table: type, log: Log) -> None:
    """Note down every fault of a shape: under the key of its table, or in the file that this key names."""
    for fault in error.faults:
        what, expected = f"is {fault.given}", fault.allowed.removeprefix("must be ")
        if not fault.given:
            what, expected = fault.allowed, ""
        elif fault.allowed.startswith("must not "):
            what, expected = f"is {fault.given}; it {fault.allowed}", ""
        if error.file:
            place = f"{join(path, 'file')}, {fault.parameter}" if fault.parameter else join(path, "file")
            log.mistake_in(Path(error.file).name, place, what, expected)
        elif fault.parameter in keys(table):
            log.mistake(join(path, fault.parameter), what, expected)
        else:
            log.mistake(path, f"{fault.parameter} {what}".strip(), expected)


def expectation(item: Item) -> str:
    """What a key takes: type, unit and meaning."""
    if item.refers == "direction":
        return f"{DIRECTION} ({item.doc})"
    unit = f" [{item.unit}]" if item.unit else ""
    return f"{type_words(item.hint, item.refers)}{unit} ({item.doc})"


def keys(table: type) -> tuple[str, ...]:
    """The keys of a table."""
    return tuple(i.key for i in items(table))


def join(path: str, *steps: str | int) -> str:
    """A key path with further steps; numbers count the entries of a list from 0."""
    for step in steps:
        if isinstance(step, int):
            path += f"[{step}]"
        else:
            path += f".{step}" if path else step
    return path
