"""Schemas of the declared tables: one for reading and, by `editor`, for editors.

They are written for pydantic's core directly: that reads a file in a tenth of the time that its models need
to load, and the JSON Schema comes from the same schemas.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal, get_args, get_origin

from pydantic_core import CoreSchema, PydanticCustomError, SchemaValidator, core_schema

from loadpath.case.declare import Bounds, Item, alternatives, annotation, bare, items
from loadpath.case.units import NoQuantity, is_unit, read_quantity, with_unit

NOT_A_QUANTITY = "quantity"
"""Type of the error of a number that does not fit; its context has `what`, `expected` and `near`."""

BRANCHES = ("<list>", "<one>")
"""Marks in the place of an error that tell which kind of value was read, where there are two."""


@cache
def validator(table: Any) -> SchemaValidator:
    """Reads one table's own values into a dict of those that were given, by key.

    Tables inside it are read on their own.
    """
    return SchemaValidator(schema_of(table))


def schema_of(table: type) -> CoreSchema:
    """Schema of one table's own values."""
    fields = {
        item.key: core_schema.typed_dict_field(value_schema(item), required=item.required)
        for item in items(table)
        if not item.is_child
    }
    return core_schema.typed_dict_schema(fields, extra_behavior="forbid")


def value_schema(item: Item) -> CoreSchema:
    """Schema of the value of one key.

    Raises
    ------
    TypeError : a declaration with a type or unit that no value of a case file has.
    """
    if not is_unit(item.unit):
        raise TypeError(f"the key {item.key} is declared with the unknown unit {item.unit!r}")
    return _translated(item.hint, item.unit)


def _translated(hint: Any, unit: str) -> CoreSchema:
    """The schema for one declared type; see `LoadSpec` for those there are."""
    plain, options = bare(hint), alternatives(bare(hint))
    if len(options) > 1:
        tagged: dict[Any, CoreSchema] = {_branch(o): _translated(o, unit) for o in options}
        return core_schema.tagged_union_schema(tagged, _branch_of_value)
    if plain is float:
        return _number(unit, annotation(hint, Bounds))
    if plain is bool:
        return core_schema.bool_schema(strict=True)
    if plain is int:
        return core_schema.int_schema(strict=True)
    if plain is str:
        return core_schema.str_schema()
    arguments = get_args(plain)
    if get_origin(plain) is Literal:
        return core_schema.literal_schema(list(arguments))
    inner = [_translated(a, unit) for a in arguments if a is not Ellipsis]
    if get_origin(plain) is tuple:
        return core_schema.list_schema(*inner) if Ellipsis in arguments else core_schema.tuple_schema(inner)
    if get_origin(plain) is Mapping:
        return core_schema.dict_schema(*inner)
    raise TypeError(f"no case-file value is declared as {hint!r}")


def _branch(hint: Any) -> str:
    return BRANCHES[0] if get_origin(bare(hint)) is tuple else BRANCHES[1]


def _branch_of_value(value: Any) -> str:
    return BRANCHES[0] if isinstance(value, list) else BRANCHES[1]


@cache
def _number(unit: str, bounds: Bounds | None) -> CoreSchema:
    above, least, most = (None, None, None) if bounds is None else bounds.limits()
    written = core_schema.union_schema(
        [core_schema.float_schema(gt=above, ge=least, le=most), core_schema.str_schema()]
    )
    reader = _NumberReader(unit, bounds)
    return core_schema.no_info_plain_validator_function(reader, json_schema_input_schema=written)


@dataclass(frozen=True)
class _NumberReader:
    unit: str
    bounds: Bounds | None

    def __call__(self, value: Any) -> float:
        try:
            number = read_quantity(value, self.unit)
        except NoQuantity as error:
            raise _no_quantity(error.what, error.expected, error.near) from None
        if self.bounds is not None and not self.bounds.hold(number):
            what = f"{with_unit(number, self.unit)} is out of bounds"
            raise _no_quantity(what, f"a number {self.bounds.words()}", "")
        return number


def _no_quantity(what: str, expected: str, near: str) -> PydanticCustomError:
    return PydanticCustomError(NOT_A_QUANTITY, "{what}", {"what": what, "expected": expected, "near": near})
