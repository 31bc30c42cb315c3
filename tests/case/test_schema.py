"""The JSON Schema that editors get, against the files that reading takes and refuses."""

from __future__ import annotations

import json
import re
import tomllib

import pytest
from case_files import GOOD, edited

from loadpath.case import json_schema
from loadpath.case.declare import items
from loadpath.case.tables import CaseTable
from loadpath.loads import KINDS
from sections import SHAPES

SCHEMA = json_schema()


def fits(value, schema) -> bool:
    """The part of JSON Schema (draft 2020-12) that the schema uses; what is not known here fails the test."""
    known = {
        "type",
        "properties",
        "required",
        "additionalProperties",
        "propertyNames",
        "items",
        "prefixItems",
    }
    known |= {
        "minItems",
        "maxItems",
        "enum",
        "const",
        "anyOf",
        "oneOf",
        "$ref",
        "exclusiveMinimum",
        "minimum",
    }
    known |= {"maximum", "description", "default", "title", "$schema", "$defs"}
    assert set(schema) <= known, set(schema) - known
    if "$ref" in schema and not fits(value, SCHEMA["$defs"][schema["$ref"].removeprefix("#/$defs/")]):
        return False
    if "type" in schema and not of_type(value, schema["type"]):
        return False
    if "enum" in schema and value not in schema["enum"]:
        return False
    if "const" in schema and value != schema["const"]:
        return False
    if "anyOf" in schema and not any(fits(value, s) for s in schema["anyOf"]):
        return False
    if "oneOf" in schema and sum(fits(value, s) for s in schema["oneOf"]) != 1:
        return False
    if isinstance(value, dict):
        return fits_object(value, schema)
    if isinstance(value, list):
        first = schema.get("prefixItems", [])
        rest = [schema["items"]] * len(value) if "items" in schema else []
        sized = schema.get("minItems", 0) <= len(value) <= schema.get("maxItems", len(value))
        return sized and all(fits(v, s) for v, s in zip(value, first or rest, strict=False))
    if isinstance(value, int | float) and not isinstance(value, bool):
        above = value > schema.get("exclusiveMinimum", -1e99)
        return above and schema.get("minimum", -1e99) <= value <= schema.get("maximum", 1e99)
    return True


def fits_object(value, schema) -> bool:
    properties, more = schema.get("properties", {}), schema.get("additionalProperties", True)
    names = schema.get("propertyNames", {}).get("pattern", "")
    if any(r not in value for r in schema.get("required", [])):
        return False
    for key, one in value.items():
        if not re.search(names, key):
            return False
        if key in properties:
            if not fits(one, properties[key]):
                return False
        elif more is False or (isinstance(more, dict) and not fits(one, more)):
            return False
    return True


def of_type(value, name) -> bool:
    kinds = {
        "object": dict,
        "array": list,
        "string": str,
        "boolean": bool,
        "number": (int, float),
        "integer": int,
    }
    return isinstance(value, kinds[name]) and (name == "boolean" or not isinstance(value, bool))


def test_the_good_file_fits():
    assert fits(tomllib.loads(GOOD), SCHEMA)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("gauge = 2.5", "gage = 2.5"),
        ("gauge = 2.5", ""),
        ("gauge = 2.5", "gauge = true"),
        ('shape = "channel"', 'shape = "chanel"'),
        ("wheelbase = 3320", "wheelbase = -1"),
        ("front_share = 0.46", "front_share = 46"),
        ("format = 1", "format = 2"),
        ("format = 1", ""),
        ("ball_l = [4, 742, 214]", "ball_l = [4, 742]"),
        ("ball_l = [4, 742, 214]", "ball_l = [4, 742, 214, 1]"),
        ("ball_l = [4, 742, 214]", "ball_l = { at = [4, 742, 214], side = 1 }"),
        ("[masses.box_l]", "[masses.Box]"),
        ('kind = "bolted"', 'kind = "bolted"\nradial = 3'),
        ('turn = "left"', 'turn = "lift"'),
        ("forces = [{", "forces = [4, {"),
        ('kind = "bump"', 'kind = "bumb"'),
        ("mass = 12", 'mass = 12\ntwin = "no"'),
        ("[vehicle]", "[nonsense]\n[vehicle]"),
    ],
)
def test_a_file_that_reading_refuses_does_not_fit(old, new):
    assert not fits(tomllib.loads(edited((old, new))), SCHEMA)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("gauge = 2.5", 'gauge = "2.5 ± 0.1 mm"'),
        ("ball_l = [4, 742, 214]", 'ball_l = { at = [4, "742", 214], twin = true }'),
        ("mass = 12", "mass = 12\ntwin = false"),
        ("radial = 9500", "radial = [9500, 9500]"),
        ('axis = "left"', "axis = [0, 1, 0]"),
        ('kind = "link"\n', 'kind = "link"\nup = "forward"\n'),
    ],
)
def test_what_reading_takes_fits(old, new):
    assert fits(tomllib.loads(edited((old, new))), SCHEMA)


def test_every_shape_kind_and_key_is_in_it():
    words = {
        s["properties"][tag].get("const")
        for tag in ("shape", "kind")
        for s in SCHEMA["$defs"].values()
        if tag in s["properties"]
    }
    assert words >= {*SHAPES, *KINDS, "frame", "link", "rigid", "bushing", "stiffness", "mass"}
    for table in [CaseTable, *SHAPES.values(), *KINDS.values()]:
        made = SCHEMA if table is CaseTable else SCHEMA["$defs"][table.__name__]
        assert {i.key for i in items(table)} <= set(made["properties"])


def test_defaults_are_in_the_unit_of_their_key():
    assert SCHEMA["$defs"]["VehicleTable"]["properties"]["front_roll_share"]["default"] == 0.5
    assert SCHEMA["$defs"]["EndTable"]["properties"]["about_x"].keys() == {"anyOf", "description"}
    assert SCHEMA["$defs"]["Bump"]["properties"]["class"]["default"] == "rare"


def test_it_is_plain_json():
    assert json.loads(json.dumps(SCHEMA)) == SCHEMA
