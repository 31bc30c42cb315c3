"""A raw table in the looking glass: the plane left = 0 of the case's axes.

Led by the declarations: positions, forces and directions are polar vectors, moments axial ones; names that
end in `_l` become `_r` where a key refers to something; a choice between left and right changes over. A
member's own frame (x along the path, z from `up`, y = z × x) is reflected in x and z, so that its y runs the
other way: `offset` changes the sign of y, and the section is reflected in its z axis when it is made (see
`profiles`).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from loadpath.case.declare import LEFT, RIGHT, Item, choices, is_mapping, items, shorthand, table_of
from loadpath.case.space import AXIS_WORDS, component


def twin_name(name: str) -> str:
    """The twin's name where the name ends in `_l`, else the name itself."""
    return name.removesuffix(LEFT) + RIGHT if name.endswith(LEFT) else name


def twin_of(name: str) -> str:
    """The name at the other side, of a name with a side; else the name itself."""
    return name.removesuffix(RIGHT) + LEFT if name.endswith(RIGHT) else twin_name(name)


@dataclass(frozen=True)
class Glass:
    """Reflects raw values; `axis` is the component of positions that runs to the left."""

    axis: int

    def entry(self, one: Any, item: Item) -> Any:
        """One named table."""
        table = None if item.entries is None else table_of(item.entries, one)
        return one if table is None else self._reflected_table(one, table)

    def _reflected_table(self, raw: Any, table: type) -> Any:
        if not isinstance(raw, dict):
            short = next((i for i in items(table) if i.key == shorthand(table)), None)
            return raw if short is None else self._reflected(raw, short)
        known = {i.key: i for i in items(table)}
        return {k: self._reflected(v, known[k]) if k in known else v for k, v in raw.items()}

    def _reflected(self, value: Any, item: Item) -> Any:
        """One value in the looking glass."""
        if item.entries is not None and isinstance(value, dict):
            return {twin_name(k): self.entry(v, item) for k, v in value.items()}
        if item.nested is not None:
            return _turned(value) if item.vector == "reversed" else self._reflected_table(value, item.nested)
        if item.element is not None and isinstance(value, list):
            return [self._reflected_table(v, item.element) for v in value]
        if is_mapping(item.hint) and isinstance(value, dict):
            return {twin_name(k) if item.refers else k: self._reflected(v, item) for k, v in value.items()}
        if isinstance(value, str):
            return self._reflected_word(value, item)
        vector = "polar" if item.refers == "direction" else item.vector
        if isinstance(value, list) and vector is not None:
            return [_negated(v) if self._flips(k, vector) else v for k, v in enumerate(value)]
        if isinstance(value, list):
            return [self._reflected_word(v, item) if isinstance(v, str) else v for v in value]
        return value

    def _flips(self, k: int, vector: str) -> bool:
        """True where component k of a vector changes its sign."""
        if vector == "section":
            return k == 0
        return (k == self.axis) == (vector == "polar")

    def _reflected_word(self, word: str, item: Item) -> str:
        if item.refers == "direction":
            return self._reflected_direction(word)
        if item.refers is not None:
            return twin_name(word)
        if {"left", "right"} <= set(choices(item.hint)):
            return {"left": "right", "right": "left"}.get(word, word)
        return word

    def _reflected_direction(self, word: str) -> str:
        if word.lstrip("-") == "left" or (word in AXIS_WORDS and component(word) == self.axis):
            return str(_negated(word))
        return twin_name(word)


def _turned(table: Any) -> Any:
    """A table of force over travel seen from its other end; one that begins at 0 holds both ways already."""
    if not isinstance(table, dict) or any(not isinstance(v, list) or not v for v in table.values()):
        return table
    if any(_is_nothing(column[0]) for column in table.values()):
        return table
    return {key: [_negated(v) for v in reversed(column)] for key, column in table.items()}


def _is_nothing(value: Any) -> bool:
    """True for 0, with a unit or without."""
    if isinstance(value, str):
        return bool(re.match(r"\s*[+-]?(0+\.?0*|\.0+)(?![\d.eE])", value))
    return bool(value == 0)


def _negated(value: Any) -> Any:
    """A number, a quantity or a direction word with the other sign; anything else as it is."""
    if isinstance(value, str):
        text = value.strip()
        if text.startswith("-"):
            return ("+" if text[1:2] in ("x", "y", "z") else "") + text[1:]
        return "-" + text.removeprefix("+")
    return 0 - value if isinstance(value, int | float) and not isinstance(value, bool) else value
