"""Load cases in words: their kind and numbers as a case file would have them."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from loadpath.case.declare import Item, items
from loadpath.case.errors import CaseError, Log
from loadpath.case.lookup import Context
from loadpath.case.reading import read_table
from loadpath.case.units import with_unit
from loadpath.loads import KINDS, LoadKind, Place, StandardRow
from loadpath.model import LoadSpec

_ELSEWHERE = ("class", "state", "pose", "part_acceleration", "forces")


def load_case_words(spec: LoadSpec) -> str:
    """Kind and numbers of a load case: those that are not at their default, and all that rule its size."""
    kind = spec.kind if isinstance(spec, LoadKind) else type(spec).__name__
    texts = [_words(i, getattr(spec, i.name)) for i in items(type(spec)) if i.key not in _ELSEWHERE]
    return ", ".join([kind, *(t for t in texts if t)])


def row_load_case(row: StandardRow) -> LoadKind:
    """The load case that a row of a set says, before a case file gives it points.

    Raises
    ------
    KeyError : a kind that there is not. CaseError : keys that this kind does not take.
    """
    keys = {k: v for k, v in row.load_case.items() if k != "kind"}
    log = Log(row.name)
    spec = read_table(KINDS[row.load_case["kind"]], keys, row.name, Context(log, {}, Path()))
    if not isinstance(spec, LoadKind):
        raise CaseError(log.mistakes)
    return spec


def _words(item: Item, value: Any) -> str:
    if value in (None, (), "") or (value == item.default and not item.tell):
        return ""
    if isinstance(value, Mapping):
        return f"{item.key} = {', '.join(f'{v:g} × {k}' for k, v in value.items())}"
    parts = value if isinstance(value, tuple) else (value,)
    return f"{item.key} = {', '.join(_one(item, v) for v in parts)}"


def _one(item: Item, value: Any) -> str:
    if isinstance(value, Place):
        return value.point
    if isinstance(value, float | int) and not isinstance(value, bool):
        return with_unit(value, "" if item.unit == "g" else item.unit)
    return str(value)
