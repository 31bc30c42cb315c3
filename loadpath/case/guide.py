"""The key tables of the case-file guide, made from the declarations."""

from __future__ import annotations

import inspect
import math
from collections.abc import Iterator
from typing import Any, Literal, get_args, get_origin

from loadpath.case.declare import (
    Choice,
    Item,
    alternatives,
    bare,
    is_mapping,
    is_table,
    items,
    shorthand,
)
from loadpath.case.tables import CaseTable
from loadpath.case.units import factor
from loadpath.case.words import join, type_words
from loadpath.materials import grades

_HEAD = "| key | type | unit | default | example | meaning |\n| --- | --- | --- | --- | --- | --- |"

# Examples by what a key refers to, by its unit, and by its name where those would look odd.
_NAMES = {"point": "lower_ball_l", "part": "cradle", "part or body": "body", "section": "rail"}
_NAMES |= {
    "material": "S420MC",
    "wheel": "rear_l",
    "load case": "bump",
    "direction": "up",
    "file": "points.csv",
}
_NUMBERS: dict[str, float] = {
    "mm": 60,
    "N": 4500,
    "N/mm": 9500,
    "MPa": 210000,
    "N*mm": 2400000,
    "N*mm/deg": 5000,
    "kg": 20,
}
_NUMBERS |= {"kg*mm2": 250000, "kg/m3": 7850, "%": 16, "g": 1, "": 0.3}
_BY_KEY: dict[str, Any] = {
    "wheelbase": 3320,
    "cg_height": 760,
    "front_share": 0.46,
    "track": 1690,
    "radius": 5,
    "diameter": 24,
}
_BY_KEY |= dict.fromkeys(("gauge", "plate_gauge", "upper_gauge", "lower_gauge"), 2.5)
_BY_KEY |= dict.fromkeys(("web_gauge", "upper_web_gauge", "lower_web_gauge"), 2.2)
_BY_KEY |= dict.fromkeys(("top", "bottom", "sides", "upright", "level", "plate", "core_radius"), 5)
_BY_KEY |= {"blank_gauge": 2.5, "plate_height": 80, "inset": 6, "corner": 3, "strip": 12, "merge": 0.2}
_BY_KEY |= {"haz_strength": 0.55, "haz_width": 20, "core_right": 1, "core_up": 1, "scale": 25.4}
_BY_KEY |= {"point_error": 0.3, "thickness_error": 0.05}
_BY_KEY |= {"hole": 25, "hole_pitch": 60, "doubler": 3, "doubler_width": 45}
_BY_KEY |= {"weld_rate": 100000, "weld_length": 20, "weld_basis": "detailed model of one spot"}
_BY_KEY |= dict.fromkeys(("wall", "base", "web", "rib", "fillet"), 5)
_BY_KEY |= {"flange": 16, "lip": 12, "overlap": 12, "seam": 8, "weld_pitch": 40, "shear_modulus": 80000}
_BY_KEY |= {"proof": 420, "ultimate": 480, "G": 81000, "forward": "-x", "left": "-y", "up": "+z"}
_BY_KEY |= {
    "unsprung_height": 350,
    "roll_centre": 80,
    "roll_stiffness": 5000000,
    "ground": -310,
    "radial": 9500,
}
_BY_KEY |= {"axial": 1400, "mass": 62, "unsprung_mass": 165, "most": 30, "least": 30000, "front_share": 0.46}
_BY_KEY |= {"title": "Rear cradle", "source": "supplier's certificate", "basis": "vehicle targets, May"}
_BY_KEY |= {"camber": -0.8, "toe": 0.1, "jounce": 90, "rebound": 95}
_BY_KEY |= {"measured_at": -95, "clamped_at": -20, "moves_as": "sliding ball"}
_BY_KEY |= {"pressure": 0.6, "area": 9000, "volume": 1200000, "exponent": 1.3, "gap": 24, "free_length": 420}
_BY_KEY |= {"rate": 150, "load": 12000}
_BY_KEY |= {"swing_limit": 25, "inner_limit": 22, "outer_limit": 47, "plunge_limit": 20}
_BY_PATH = {"vehicle.mass": 3050, "wheels.NAME.radius": 352, "wheels.NAME.part": "knuckle_l"}
_BY_PATH |= {"wheels.NAME.centre": "wheel_l", "wheels.NAME.unit": "drive_unit"}
_BY_PATH |= {"wheels.NAME.steer_link": "toe_link_l", "parts.NAME.at": "bar_6", "parts.NAME.split.at": "bar_6"}
_BY_PATH |= {"sensors.NAME.pivot": "sensor_l", "sensors.NAME.lever": "sensor_lever_l"}
_BY_PATH |= {"sensors.NAME.rod": "sensor_rod_l"}
_BY_PATH |= {f"wheels.NAME.{k}inner": "shaft_inner_l" for k in ("", "half_shaft.")}
_BY_PATH |= {f"wheels.NAME.{k}outer": "shaft_outer_l" for k in ("", "half_shaft.")}
_WHOLE = {
    "offset": "[0, 12]",
    "acceleration": "[-0.5, 0, 0]",
    "part_acceleration": "{ knuckle_l = [0, 0, 12] }",
    "inertia": "[600000, 900000, 800000]",
    "stud": "[0, 0.3, 0.95]",
    "table": "{ travel = [0, 10, 20], force = [0, 1500, 5000] }",
    "joints.NAME.axial_table.travel": "[0, 3, 5, 7]",
    "joints.NAME.axial_table.force": "[0, 2700, 7500, 22000]",
    "joints.NAME.torsional_table.angle": "[-20, 0, 20]",
    "joints.NAME.torsional_table.moment": "[-30000, 0, 40000]",
}
_WHOLE |= dict.fromkeys(
    ("axial_table", "radial_table", "second_radial_table"), "{ travel = [0, 3, 5], force = [0, 2700, 7500] }"
)
_WHOLE |= dict.fromkeys(
    ("torsional_table", "conical_table", "second_conical_table"),
    "{ angle = [0, 10, 20], moment = [0, 20000, 60000] }",
)
"""Examples that no single number makes, by key or by path."""


def refreshed(text: str) -> str:
    """The guide with fresh tables of keys and grades between their marks.

    Raises
    ------
    ValueError : where the marks are missing.
    """
    return _between_marks(_between_marks(text, "key tables", key_tables()), "grades", grade_table())


def _between_marks(text: str, name: str, made: str) -> str:
    begin, end = f"<!-- {name}: begin -->", f"<!-- {name}: end -->"
    before, _, rest = text.partition(begin)
    _, mark, after = rest.partition(end)
    if not mark:
        raise ValueError(f"the guide has no {begin} ... {end}")
    return f"{before}{begin}\n\n{made}\n{end}{after}"


def grade_table() -> str:
    """Markdown table of the built-in grades."""
    lines = ["| name | form | temper | thickness | Rp0.2 | Rm | A | source |", "| --- " * 8 + "|"]
    for g in grades().values():
        m = g.material
        low, high = ("" if t is None else f"{t:g}" for t in g.thickness)
        figures = " | ".join("" if v is None else f"{v:g}" for v in (m.proof, m.ultimate, m.elongation))
        source = f"{m.source}{'; from memory' if m.from_memory and 'memory' not in m.source else ''}"
        span = f"{low} to {high}" if low or high else ""
        lines.append(f"| `{g.id}` | {g.form} | {g.temper} | {span} | {figures} | {source} |")
    return "\n".join(lines) + "\n"


def key_tables() -> str:
    """Markdown tables of every key of the case file: type, unit, default, example, meaning."""
    return "\n".join(_tables("", CaseTable, "The file itself", set()))


def _tables(path: str, table: type, title: str, told: set[type]) -> Iterator[str]:
    """The table of one declaration and of all below it; each declaration once."""
    if table in told:
        return
    told.add(table)
    yield f"### {title}\n\n{_summary(table)}\n"
    if items(table):
        yield "\n".join([_HEAD, *(_row(i, path) for i in items(table))]) + "\n"
    short = shorthand(table)
    if short is not None:
        yield f"The value of `{short}` may stand for the whole table.\n"
    for item in items(table):
        yield from _below(item, join(path, item.key), told)


def _below(item: Item, path: str, told: set[type]) -> Iterator[str]:
    entry = _entry_path(item, path)
    if isinstance(item.entries, Choice):
        for word, table in item.entries.options.items():
            usual = " (or nothing)" if word == item.entries.default else ""
            yield from _tables(entry, table, f'`[{entry}]` with `{item.entries.tag} = "{word}"`{usual}', told)
    elif item.entries is not None:
        yield from _tables(entry, item.entries, f"`[{entry}]`", told)
    elif item.is_child:
        element = item.element
        title = f"Each of `{path}`" if element else f"`[{path}]`"
        yield from _tables(path, element or item.hint, title, told)


def _entry_path(item: Item, path: str) -> str:
    return join(path, "POINT" if item.refers == "point" else "NAME")


def _summary(table: type) -> str:
    """First paragraph of the docstring in one line."""
    return " ".join((inspect.getdoc(table) or "").split("\n\n")[0].split())


def _row(item: Item, path: str) -> str:
    cells = [f"`{item.key}`", _type(item), item.unit, _default(item), f"`{_example(item, path)}`", item.doc]
    return "| " + " | ".join(c.replace("|", "\\|") for c in cells) + " |"


def _type(item: Item) -> str:
    if item.entries is not None:
        return "tables by name"
    return "list of tables" if item.element else type_words(item.hint, item.refers)


def _default(item: Item) -> str:
    value = item.default
    if item.required:
        return "**required**"
    if is_table(type(value)):
        return "its defaults"
    if item.entries is not None or value is None or value in ((), ""):
        return "none"
    if isinstance(value, bool | str):
        return str(value).lower()
    numbers = value if isinstance(value, tuple) else (value,)
    return ", ".join("rigid" if math.isinf(v) else f"{v / factor(item.unit):g}" for v in numbers)


def _example(item: Item, path: str) -> str:
    own = join(path, item.key)
    whole = _WHOLE.get(own) or _WHOLE.get(item.key)
    if whole is not None:
        return f"{item.key} = {whole}"
    table = item.element or item.hint
    if item.entries is not None:
        return f"[{_entry_path(item, own)}]"
    if is_table(table) and not path:
        return f"[{item.key}]"
    if is_table(table):
        inside = ", ".join(f"{i.key} = {_value(i.hint, i, path)}" for i in items(table)[:2])
        return f"{item.key} = [{{ {inside} }}]" if table is not item.hint else f"{item.key} = {{ {inside} }}"
    return f"{item.key} = {_value(item.hint, item, path)}"


def _value(hint: Any, item: Item, path: str) -> str:
    """An example of a declared type as TOML."""
    plain, options = bare(hint), alternatives(bare(hint))
    given = _BY_PATH.get(join(path, item.key), None if item.refers else _BY_KEY.get(item.key))
    if len(options) > 1:
        return _value(options[0] if item.refers else options[-1], item, path)
    if plain is bool:
        return "true"
    if plain is int:
        return "3"
    if plain is float:
        return f"{given or _NUMBERS.get(item.unit, 1)}"
    if get_origin(plain) is tuple:
        return f"[{', '.join(_parts(plain, item, path))}]"
    if is_mapping(plain):
        return f"{{ {_NAMES[item.refers or 'point']} = {_value(get_args(plain)[1], item, path)} }}"
    if get_origin(plain) is Literal and not isinstance(get_args(plain)[-1], str):
        return f"{get_args(plain)[-1]}"
    word = get_args(plain)[-1] if get_origin(plain) is Literal else _NAMES.get(item.refers or "", "text")
    return f'"{given or word}"'


def _parts(hint: Any, item: Item, path: str) -> list[str]:
    """Entries of a list; a second name differs from the first."""
    values = [_value(a, item, path) for a in get_args(hint) if a is not Ellipsis]
    if item.refers == "part or body":
        values[0] = '"cradle"'
    elif item.refers == "point":
        values[1:] = ['"strut_lower_l"']
    return values
