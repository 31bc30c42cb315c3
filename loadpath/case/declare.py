"""What the room needs to know of a declared table: one `Item` for each key.

A table of the case file is a frozen, keyword-only dataclass whose fields are declared with
`sections.fields.parameter`: the tables of this room, every section shape and every kind of load case alike.
Mirroring, reading, the schema and the guide are all made from these declarations.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Mapping
from dataclasses import MISSING, dataclass
from functools import cache, cached_property
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

LEFT, RIGHT = "_l", "_r"
"""Endings of a name that is written once and of its generated twin."""


@dataclass(frozen=True)
class Bounds:
    """Bounds of a number, for `Annotated`; `above` excludes its value."""

    above: float = -math.inf
    least: float = -math.inf
    most: float = math.inf

    def words(self) -> str:
        """What a message says of them."""
        parts = [f"above {self.above:g}"] if self.above > -math.inf else []
        parts += [f"at least {self.least:g}"] if self.least > -math.inf else []
        parts += [f"at most {self.most:g}"] if self.most < math.inf else []
        return " and ".join(parts)

    def limits(self) -> tuple[float | None, float | None, float | None]:
        """Above, least, most; None where there is no bound."""
        above, least, most = (v if math.isfinite(v) else None for v in (self.above, self.least, self.most))
        return above, least, most

    def hold(self, value: float) -> bool:
        """True for a value within."""
        return value > self.above and self.least <= value <= self.most


Positive = Annotated[float, Bounds(above=0)]
NotNegative = Annotated[float, Bounds(least=0)]
Share = Annotated[float, Bounds(least=0, most=1)]
Vector = tuple[float, float, float]
Direction = str | Vector
"""A direction word, a point to look at, or components; its key `refers` to "direction"."""


@dataclass(frozen=True, eq=False)
class Choice:
    """Tables of several kinds under one key, told apart by the word at `tag`; for `Annotated`."""

    tag: str
    options: Mapping[str, type]
    default: str | None = None


@dataclass(frozen=True, eq=False)
class Item:
    """One key of a table.

    Attributes
    ----------
    key : in the file. name : of the dataclass field. hint : its type without None.
    entries, nested, element : the declared table where the key holds tables by name, one table, or a list of
        tables; else None.
    The rest is as given to `parameter`; default is MISSING where the key must be given.
    """

    key: str
    name: str
    hint: Any
    entries: type | Choice | None
    nested: type | None
    element: type | None
    default: Any
    doc: str
    unit: str
    refers: str | None
    vector: str | None
    tell: bool

    @property
    def required(self) -> bool:
        """True where the key must be given; named tables may always be none."""
        return self.default is MISSING and self.entries is None

    @cached_property
    def is_child(self) -> bool:
        """True where the key holds tables rather than values; each of them is read on its own."""
        return any(t is not None for t in (self.entries, self.nested, self.element))


def items(table: type) -> tuple[Item, ...]:
    """The keys of a declared table, in order; fields that are not declared with `parameter` are none."""
    return _items(table)


@cache
def _items(table: Any) -> tuple[Item, ...]:
    hints = get_type_hints(table, include_extras=True)
    declared = (f for f in dataclasses.fields(table) if f.init and "doc" in f.metadata)
    return tuple(_item(f, _without_none(hints[f.name])) for f in declared)


def _item(field: dataclasses.Field[Any], hint: Any) -> Item:
    m = field.metadata
    default = field.default
    if default is MISSING and field.default_factory is not MISSING:
        default = field.default_factory()
    return Item(
        key="class" if field.name == "cls" else field.name,
        name=field.name,
        hint=hint,
        entries=_entries(hint),
        nested=hint if is_table(hint) else None,
        element=_element(hint),
        default=default,
        doc=m["doc"],
        unit=m["unit"],
        refers=m["refers"],
        vector=m["vector"],
        tell=m["tell"],
    )


def _without_none(hint: Any) -> Any:
    left = [h for h in alternatives(hint) if h is not NoneType]
    return left[0] if len(left) == 1 else Union[tuple(left)]  # noqa: UP007


def alternatives(hint: Any) -> tuple[Any, ...]:
    """The members of a union, or the hint alone."""
    return get_args(hint) if get_origin(hint) in (Union, UnionType) else (hint,)


def bare(hint: Any) -> Any:
    """A hint without its annotations."""
    return get_args(hint)[0] if get_origin(hint) is Annotated else hint


def choices(hint: Any) -> tuple[Any, ...]:
    """The words of a Literal, or of those in a union; none of anything else."""
    options = (bare(o) for o in alternatives(bare(hint)))
    return tuple(a for o in options if get_origin(o) is Literal for a in get_args(o))


def annotation(hint: Any, kind: type) -> Any:
    """The annotation of that type, or None."""
    extras = get_args(hint)[1:] if get_origin(hint) is Annotated else ()
    return next((e for e in extras if isinstance(e, kind)), None)


def is_table(hint: Any) -> bool:
    """True for a declared table."""
    return isinstance(hint, type) and dataclasses.is_dataclass(hint)


def is_mapping(hint: Any) -> bool:
    """True for tables of values by name."""
    return get_origin(bare(hint)) in (Mapping, dict)


def _entries(hint: Any) -> type | Choice | None:
    choice = annotation(hint, Choice)
    if isinstance(choice, Choice):
        return choice
    if is_mapping(hint):
        value = get_args(bare(hint))[1]
        return value if is_table(value) else None
    return None


def _element(hint: Any) -> type | None:
    values = get_args(hint) if get_origin(hint) is tuple else ()
    return values[0] if len(values) == 2 and values[1] is Ellipsis and is_table(values[0]) else None


def shorthand(table: type) -> str | None:
    """The key whose value may stand for the whole table."""
    return getattr(table, "shorthand", None)


def table_of(entries: type | Choice, raw: Any) -> type | None:
    """The declared table of one raw entry; None where its tag names none."""
    if not isinstance(entries, Choice):
        return entries
    word = raw.get(entries.tag, entries.default) if isinstance(raw, dict) else None
    return entries.options.get(word) if isinstance(word, str) else None
