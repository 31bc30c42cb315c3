"""Values of a table made plain: names looked up, tolerances noted down."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from loadpath.case.declare import Item
from loadpath.case.errors import Log, listed, nearest, shown
from loadpath.case.files import file_in_folder
from loadpath.case.space import WORDS
from loadpath.case.units import Measured
from loadpath.case.words import join
from loadpath.materials import ids_of
from loadpath.model import BODY

NAME = re.compile(r"[a-z][a-z0-9_]*")
RESERVED = frozenset({BODY, *WORDS})


@dataclass(frozen=True, eq=False)
class Context:
    """What reading looks things up in.

    Attributes
    ----------
    names : valid names by what a key refers to, faulty entries included, so that one mistake is told once.
    folder : of the case file.
    """

    log: Log
    names: Mapping[str, tuple[str, ...]]
    folder: Path


def plain_value(value: Any, item: Item, path: str, context: Context) -> Any:
    """A value without its wrappings: lists as tuples, tolerances noted, names looked up."""
    if isinstance(value, Measured):
        context.log.tolerances[path] = value.half_width
        return float(value)
    if isinstance(value, list | tuple):
        return tuple(plain_value(v, item, join(path, k), context) for k, v in enumerate(value))
    if isinstance(value, dict):
        return {k: _mapped(k, v, item, join(path, k), context) for k, v in value.items()}
    if isinstance(value, str) and item.refers is not None:
        if item.refers == "file":
            return _file(value, path, context)
        look_up(value, item.refers, path, context)
    return value


def _mapped(key: str, value: Any, item: Item, path: str, context: Context) -> Any:
    if item.refers is not None:
        look_up(key, item.refers, path, context)
    return plain_value(value, item, path, context)


def _file(name: str, path: str, context: Context) -> str:
    found = file_in_folder(name, context.folder)
    if isinstance(found, Path):
        return str(found)
    context.log.mistake(path, found, "a file in the folder of the case file or below it")
    return name


def look_up(name: str, refers: str, path: str, context: Context) -> bool:
    """True where the name names something; else a mistake."""
    log, kind = context.log, "point" if refers == "direction" else refers
    valid = context.names[kind]
    if name in valid or (refers == "direction" and name in WORDS):
        log.used.add((kind, name))
        return True
    if refers == "direction":
        expected = f"one of {listed(WORDS)}, three numbers, or the name of a point"
        log.mistake(
            path, f"there is no direction or point {shown(name)}", expected, nearest(name, (*WORDS, *valid))
        )
    elif refers == "material" and ids_of(name):
        log.mistake(path, f"{shown(name)} is more than one grade", f"one of {listed(ids_of(name))}")
    else:
        log.unknown(path, refers, name, valid)
    return False


def named_well(name: str, item: Item, path: str, context: Context) -> bool:
    """True where a table may have the name; else a mistake. Where the key refers to something, it must name that."""
    if item.refers is not None:
        return look_up(name, item.refers, path, context)
    if NAME.fullmatch(name) and name not in RESERVED:
        return True
    expected = "a name of small letters, digits and _, with a letter first"
    if name in RESERVED:
        expected = f"another name ({listed(sorted(RESERVED))} have a meaning of their own)"
    context.log.mistake(path, f"{shown(name)} cannot be a name", expected)
    return False
