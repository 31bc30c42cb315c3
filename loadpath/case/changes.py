"""Changes tried on a section without touching the file: values are read as the file's own keys are."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from pydantic_core import SchemaValidator, ValidationError, core_schema

from loadpath.case.case import Case
from loadpath.case.declare import Item, bare, items
from loadpath.case.errors import CaseError, Log, nearest, shown
from loadpath.case.lookup import Context, plain_value
from loadpath.case.schema import value_schema
from loadpath.case.units import NoQuantity, factor, read_quantity, with_unit
from loadpath.case.words import explain, join, keys, tell_faults
from sections import Shape, ShapeError

MOST = 500
"""Values that one range may have."""

_SET, _VARY = "--set", "--vary"


@dataclass(frozen=True, eq=False)
class Varied:
    """One section over a range of one of its dimensions.

    Attributes
    ----------
    key : that varies, several with commas, and their unit. values : (n) in that unit. shapes : (n).
    now : the value that the section has without the range, in that unit; None where it is left to a default or is
        not one.
    """

    key: str
    unit: str
    values: tuple[float, ...]
    shapes: tuple[Shape, ...]
    now: float | None


def changed_shape(case: Case, name: str, changes: Sequence[str]) -> Shape:
    """A section of the case with other values of some keys.

    Parameters
    ----------
    name : of the section. changes : "key=value" as the case file writes the value; a string needs no quotes.

    Raises
    ------
    CaseError : with every mistake: what is no change, unknown keys, values or units that do not fit, values that
        the shape does not allow, and keys that name a file.
    """
    log = Log(_SET)
    path = join("sections", name)
    shape = case.shapes[name]
    texts: dict[str, str] = {}
    for change in changes:
        key, text = _split(change, "a change", f"{_SET} gauge=2.8", log)
        if key in texts:
            log.mistake(join(path, key), "is set twice", "each key once")
        texts[key] = text
    found = _read(shape, {k: _as_written(t) for k, t in texts.items() if k}, path, case, log)
    made = None if log.mistakes else _made(shape, found, path, log)
    if made is None:
        raise CaseError(log.mistakes)
    return made


def varied_shape(case: Case, name: str, shape: Shape, change: str) -> Varied:
    """A section at every value of a range of one dimension.

    Parameters
    ----------
    name, shape : the section, changed before or not.
    change : "key=first:last:step", or "key=a,b,c" for values one by one; "key,key=..." gives them one value.

    Raises
    ------
    CaseError : where it is no range, the key holds no number, or the shape does not allow a value; the first such
        value is told.
    """
    log, path = Log(_VARY), join("sections", name)
    together, text = _split(change, "a range", f"{_VARY} gauge=1.8:3.2:0.2", log)
    varied = [_number(type(shape), key.strip(), path, log) for key in together.split(",") if key]
    good = [item for item in varied if item is not None]
    if len({item.unit for item in good}) > 1:
        log.mistake(path, f"{together} have different units", "keys of one unit")
    values = [] if log.mistakes else _values(good[0], text, join(path, together), log)
    if not values:
        raise CaseError(log.mistakes)
    shapes = tuple(_at(shape, good, value, path) for value in values)
    unit, scale = good[0].unit, factor(good[0].unit)
    now = {getattr(shape, item.name) for item in good}
    one = now.pop() if len(now) == 1 else None
    return Varied(
        together, unit, tuple(v / scale for v in values), shapes, None if one is None else one / scale
    )


def _number(table: type, key: str, path: str, log: Log) -> Item | None:
    """The key of a table that holds one number; else a mistake."""
    numbers = [i.key for i in items(table) if bare(i.hint) is float]
    item = next((i for i in items(table) if i.key == key), None)
    if item is None:
        log.mistake(join(path, key), "unknown key", f"one of {', '.join(numbers)}", nearest(key, numbers))
    elif key not in numbers:
        log.mistake(join(path, key), f"cannot be varied: {_why_fixed(item)}", f"one of {', '.join(numbers)}")
        return None
    return item


def quantity(text: str, unit: str, said: str, path: str) -> float:
    """A number with or without unit, in internal units.

    Raises
    ------
    CaseError : for anything else, told as said at a path.
    """
    try:
        return float(read_quantity(_as_written(text), unit))
    except NoQuantity as error:
        log = Log(said)
        log.mistake(path, error.what, error.expected, error.near)
        raise CaseError(log.mistakes) from None


def _split(change: str, what: str, example: str, log: Log) -> tuple[str, str]:
    key, sign, text = change.partition("=")
    if not sign or not key.strip() or not text.strip():
        log.mistake("", f"{shown(change)} is not {what}", f"a key, = and values, such as {example}")
        return "", ""
    return key.strip(), text.strip()


def _as_written(text: str) -> Any:
    """A value as TOML reads it; what is none is a string, so that words and units need no quotes."""
    try:
        return tomllib.loads(f"value = {text}")["value"]
    except tomllib.TOMLDecodeError:
        return text


def _read(shape: Shape, raw: Mapping[str, Any], path: str, case: Case, log: Log) -> dict[str, Any]:
    """Values of the given keys by field name, in internal units; mistakes go to the log."""
    table = type(shape)
    known = {i.key: i for i in items(table)}
    for key in raw:
        item = known.get(key)
        if item is None:
            log.mistake(
                join(path, key), "unknown key", f"one of {', '.join(keys(table))}", nearest(key, known)
            )
        elif item.refers == "file" or item.is_child:
            log.mistake(join(path, key), f"cannot be set here: {_why_fixed(item)}")
    free = {k: i for k, i in known.items() if k in raw and log.clean(join(path, k))}
    fields = {k: core_schema.typed_dict_field(value_schema(i)) for k, i in free.items()}
    try:
        given = SchemaValidator(core_schema.typed_dict_schema(fields)).validate_python(
            {k: raw[k] for k in free}
        )
    except ValidationError as error:
        explain(table, error, path, None, log)
        return {}
    context = Context(log, {}, case.path.parent)
    return {free[k].name: plain_value(v, free[k], join(path, k), context) for k, v in given.items()}


def _why_fixed(item: Item) -> str:
    if item.refers == "file":
        return "it names measured points; another trace is another section of the case file"
    if item.is_child:
        return "it holds a table; write that in the case file"
    return "it is no number"


def _made(shape: Shape, values: Mapping[str, Any], path: str, log: Log) -> Shape | None:
    """The shape made anew with other values, so that everything that follows from them is worked out again."""
    table: Any = type(shape)
    own = {i.name: getattr(shape, i.name) for i in items(table)}
    try:
        made: Shape = table(**{**own, **values})
    except ShapeError as error:
        tell_faults(error, path, type(shape), log)
        return None
    return made


def _at(shape: Shape, varied: Sequence[Item], value: float, path: str) -> Shape:
    together = ",".join(item.key for item in varied)
    log = Log(f"{_VARY} {together} = {with_unit(value, varied[0].unit)}")
    made = _made(shape, {item.name: value for item in varied}, path, log)
    if made is None:
        raise CaseError(log.mistakes)
    return made


def _values(item: Item, text: str, path: str, log: Log) -> list[float]:
    """Values of a range in internal units; none, and a mistake, where it is no range."""
    parts = text.split(":")
    listed = len(parts) == 1 and "," in text
    try:
        read = [
            float(read_quantity(_as_written(p), item.unit)) for p in (text.split(",") if listed else parts)
        ]
    except NoQuantity as error:
        log.mistake(path, error.what, error.expected, error.near)
        return []
    if listed:
        return read
    if len(read) != 3:
        log.mistake(path, f"{shown(text)} is not a range", "first:last:step, or values with commas")
        return []
    first, last, step = read
    if not (step > 0 and last > first):
        log.mistake(path, f"{shown(text)} leads nowhere", "first under last, and a step above 0")
        return []
    count = math.floor((last - first) / step + 1e-9) + 1
    if count > MOST:
        log.mistake(path, f"{shown(text)} has {count} values", f"at most {MOST}")
        return []
    return [round(first + k * step, 12) for k in range(count)]
