"""JSON Schema of the case file for editors that complete and check; made from the schemas that reading uses."""

from __future__ import annotations

import math
from typing import Any

from loadpath.case.declare import Choice, Item, items, shorthand
from loadpath.case.lookup import NAME
from loadpath.case.mirror import TWIN
from loadpath.case.schema import value_schema
from loadpath.case.tables import CaseTable
from loadpath.case.units import factor

_DIALECT = "https://json-schema.org/draft/2020-12/schema"
_TWIN = {"type": "boolean", "description": "false: no twin is made (names that end in _l only)"}


def json_schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of the case file: keys, types, bounds, shapes and kinds of load case.

    Names that refer to something, and what several tables must fit together in, are left to `read_case`.
    """
    definitions: dict[str, Any] = {}
    root = _object(CaseTable, definitions, None)
    return {"$schema": _DIALECT, "title": "Case file", **root, "$defs": definitions}


def _object(table: type, definitions: dict[str, Any], tag: tuple[Choice, str] | None) -> dict[str, Any]:
    """Schema of one table; tables inside it go to the definitions."""
    properties = {i.key: _property(i, definitions) for i in items(table)}
    required = [i.key for i in items(table) if i.required]
    if tag is not None:
        choice, word = tag
        properties = {choice.tag: {"const": word}, **properties}
        required = required if word == choice.default else [choice.tag, *required]
    return {
        "type": "object",
        "description": table.__doc__ or "",
        "properties": properties,
        "required": required,
        "additionalProperties": False,
    }


def _property(item: Item, definitions: dict[str, Any]) -> dict[str, Any]:
    text = f"{item.doc} [{item.unit}]" if item.unit else item.doc
    return {**_value(item, definitions), "description": text, **_default(item)}


def _default(item: Item) -> dict[str, Any]:
    """The default in the key's own unit, where it is a value that could be written."""
    value = item.default
    if isinstance(value, bool | str) and value != "":
        return {"default": value}
    numbers = value if isinstance(value, tuple) else (value,)
    if not numbers or not all(isinstance(v, float | int) and math.isfinite(v) for v in numbers):
        return {}
    own = [v / factor(item.unit) for v in numbers]
    return {"default": own if isinstance(value, tuple) else own[0]}


def _value(item: Item, definitions: dict[str, Any]) -> dict[str, Any]:
    if item.entries is not None:
        names = {} if item.refers else {"propertyNames": {"pattern": f"^{NAME.pattern}$"}}
        return {"type": "object", **names, "additionalProperties": _entry(item.entries, definitions)}
    if item.element is not None:
        return {"type": "array", "items": _reference(item.element, definitions, None, named=False)}
    if item.nested is not None:
        return _reference(item.nested, definitions, None, named=False)
    from pydantic.json_schema import GenerateJsonSchema  # slow to load, and not needed for reading

    return GenerateJsonSchema().generate(value_schema(item))


def _entry(entries: type | Choice, definitions: dict[str, Any]) -> dict[str, Any]:
    if isinstance(entries, Choice):
        tagged = [(table, (entries, word)) for word, table in entries.options.items()]
        return {"oneOf": [_reference(table, definitions, tag, named=True) for table, tag in tagged]}
    full = _reference(entries, definitions, None, named=True)
    short = next((i for i in items(entries) if i.key == shorthand(entries)), None)
    if short is None:
        return full
    return {"anyOf": [_property(short, definitions), full]}


def _reference(
    table: type, definitions: dict[str, Any], tag: tuple[Choice, str] | None, *, named: bool
) -> dict[str, Any]:
    """A reference to a table's schema, which is put among the definitions once."""
    if table.__name__ not in definitions:
        definitions[table.__name__] = {}
        made = _object(table, definitions, tag)
        if named:
            made["properties"][TWIN] = _TWIN
        definitions[table.__name__] = made
    return {"$ref": f"#/$defs/{table.__name__}"}
