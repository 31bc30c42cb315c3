"""From raw TOML tables to declared tables: values checked, converted and looked up, mistakes noted down."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic_core import ValidationError

from loadpath.case.declare import Choice, Item, items, shorthand, table_of
from loadpath.case.errors import Log, listed, nearest, shown
from loadpath.case.lookup import Context, named_well, plain_value
from loadpath.case.schema import validator
from loadpath.case.units import with_unit
from loadpath.case.words import explain, join, keys, tell_faults
from sections import ShapeError, assumed_of


def read_table(table: type, raw: Any, path: str, context: Context) -> Any:
    """An instance of a declared table, or None where it cannot be made; mistakes go to the log.

    A faulty named entry inside does not spoil the table around it: it is left out.
    """
    log, short = context.log, None
    if not isinstance(raw, dict):
        short = shorthand(table)
        if short is None:
            log.mistake(path, f"{shown(raw)} is not a table", f"a table with {listed(keys(table))}")
            return None
        raw = {short: raw}
    children = {i.key: i for i in items(table) if i.is_child}
    values = {i.name: _child(i, raw, join(path, key), context) for key, i in children.items()}
    own = _own_values(table, {k: v for k, v in raw.items() if k not in children}, path, short, context)
    if own is None or any(v is _FAULTY for v in values.values()):
        return None
    try:
        made = table(**values, **own)
    except ShapeError as error:
        tell_faults(error, path, table, log)
        return None
    for item in items(table):
        if item.name in (assumed := assumed_of(made)):
            log.defaults[join(path, item.key)] = with_unit(assumed[item.name], item.unit)
    return made


def _own_values(
    table: type, raw: Mapping[str, Any], path: str, short: str | None, context: Context
) -> dict[str, Any] | None:
    """Values of the keys that hold no tables, defaults filled in; None where one of them is faulty.

    `short` is the key whose value stood for the whole table, if so.
    """
    log = context.log
    try:
        given = validator(table).validate_python(raw)
    except ValidationError as error:
        explain(table, error, path, short, log)
        return None
    before, values = len(log.mistakes), {}
    for item in items(table):
        if item.is_child:
            continue
        place = path if item.key == short else join(path, item.key)
        if item.key in given:
            values[item.name] = plain_value(given[item.key], item, place, context)
        else:
            values[item.name] = item.default
            _note_default(item, place, log)
    return values if len(log.mistakes) == before else None


_FAULTY = object()


def _child(item: Item, raw: Mapping[str, Any], path: str, context: Context) -> Any:
    """Value of a key that holds tables; _FAULTY where it cannot be made."""
    if item.entries is not None:
        return _entries(item, raw.get(item.key, {}), path, context)
    if item.key not in raw and item.required:
        context.log.mistake(path, "is missing", item.doc)
        return _FAULTY
    if item.nested is not None and (item.key in raw or item.default is not None):
        found = read_table(item.nested, raw.get(item.key, {}), path, context)
        return _FAULTY if found is None else found
    return _list_of_tables(item, raw[item.key], path, context) if item.key in raw else item.default


def _list_of_tables(item: Item, raw: Any, path: str, context: Context) -> Any:
    if item.element is None or not isinstance(raw, list):
        context.log.mistake(path, f"{shown(raw)} is not a list of tables", item.doc)
        return _FAULTY
    found = [read_table(item.element, one, join(path, k), context) for k, one in enumerate(raw)]
    return _FAULTY if None in found else tuple(found)


def _entries(item: Item, raw: Any, path: str, context: Context) -> dict[str, Any]:
    """The good ones among named tables, by name."""
    if not isinstance(raw, dict):
        context.log.mistake(path, f"{shown(raw)} is not a table", f"tables by name ({item.doc})")
        return {}
    found = {}
    for name, one in raw.items():
        place = join(path, name)
        if not named_well(name, item, place, context):
            continue
        value = read_entry(item, one, place, context)
        if value is not None:
            found[name] = value
    return found


def read_entry(item: Item, raw: Any, path: str, context: Context) -> Any:
    """One named entry; the word at its tag tells which table it is."""
    entries = item.entries
    if not isinstance(entries, Choice):
        return None if entries is None else read_table(entries, raw, path, context)
    table = table_of(entries, raw)
    if table is not None:
        rest = {k: v for k, v in raw.items() if k != entries.tag}
        return read_table(table, rest, path, context)
    words, log = tuple(entries.options), context.log
    if not isinstance(raw, dict):
        log.mistake(path, f"{shown(raw)} is not a table", f"a table with {entries.tag} and its keys")
    elif entries.tag not in raw:
        log.mistake(join(path, entries.tag), "is missing", f"one of {listed(words, 40)}")
    else:
        word = raw[entries.tag]
        place = join(path, entries.tag)
        log.mistake(
            place,
            f"there is no {entries.tag} {shown(word)}",
            f"one of {listed(words, 40)}",
            nearest(word, words),
        )
    return None


def _note_default(item: Item, path: str, log: Log) -> None:
    if not item.tell or item.default is None:
        return
    value = item.default
    numbers = value if isinstance(value, tuple) else (value,)
    if all(isinstance(v, float | int) and not isinstance(v, bool) for v in numbers) and numbers:
        texts = [with_unit(v, item.unit) for v in numbers]
        log.defaults[path] = ", ".join(texts)
    else:
        log.defaults[path] = str(value).lower() if isinstance(value, bool) else str(value)
