"""Twins: what is named `_l` is written once, its `_r` is generated; what is written of it goes on top.

Works on the raw tables, before anything is checked.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from loadpath.case.declare import LEFT, RIGHT, Item, items, shorthand, table_of
from loadpath.case.errors import Log, is_within, shown
from loadpath.case.reflect import Glass, twin_name
from loadpath.case.space import component
from loadpath.case.words import join

_RIGHT_NAME = re.compile(rf"{RIGHT}\b")

TWIN = "twin"
"""Key of a named table: false makes no twin of it."""


@dataclass
class Twins:
    """What mirroring did.

    Attributes
    ----------
    made : paths of the generated tables. overrides : paths of what was written over them.
    """

    made: set[str] = field(default_factory=set)
    overrides: list[str] = field(default_factory=list)

    def repeats(self, path: str, text: str, told: Mapping[str, str]) -> bool:
        """True where a twin says at the path what its original says too, by path in `told`."""
        original = _RIGHT_NAME.sub(LEFT, path)
        same = told.get(original, "") if original != path else ""
        return bool(same) and self.holds(path) and _sideless(same) == _sideless(text)

    def holds(self, path: str) -> bool:
        """True for a path in a generated twin."""
        return is_within(path, self.made)


def mirror(raw: Any, table: type, left: str, log: Log) -> tuple[Any, Twins]:
    """Raw tables with every twin in them; `left` is the axis word of the left side."""
    twins = Twins()
    return _Mirror(Glass(component(left)), log, twins).with_twins(raw, table, "", True), twins


def _sideless(text: str) -> str:
    """A text in which both sides and both signs look the same."""
    return _RIGHT_NAME.sub(LEFT, text).replace("-", "")


@dataclass(frozen=True)
class _Mirror:
    glass: Glass
    log: Log
    twins: Twins

    def with_twins(self, raw: Any, table: type, path: str, make: bool) -> Any:
        """A raw table whose named tables have their twins; none are made below a name with a side."""
        if not isinstance(raw, dict):
            return raw
        found = dict(raw)
        for item in items(table):
            inside = raw.get(item.key)
            if item.entries is not None and isinstance(inside, dict):
                found[item.key] = self._entries(inside, item, join(path, item.key), make)
            elif item.nested is not None and inside is not None:
                found[item.key] = self.with_twins(inside, item.nested, join(path, item.key), make)
        return found

    def _entries(self, raw: Mapping[str, Any], item: Item, path: str, make: bool) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for name, one in raw.items():
            wanted = self._wants_twin(one, name, join(path, name))
            if name in found:
                continue
            twin, sided = twin_name(name), name.endswith((LEFT, RIGHT))
            found[name] = self._below(one, item, join(path, name), make and not sided)
            if make and wanted and twin != name:
                found[twin] = self._twin(found[name], item, raw.get(twin), join(path, twin))
        return found

    def _wants_twin(self, one: Any, name: str, path: str) -> bool:
        asked = one.get(TWIN, True) if isinstance(one, dict) else True
        if not isinstance(asked, bool):
            self.log.mistake(join(path, TWIN), f"{shown(asked)} does not fit", "true or false")
        elif isinstance(one, dict) and TWIN in one and not name.endswith(LEFT):
            self.log.mistake(
                join(path, TWIN), "only what is named _l has a twin", f"a name that ends in {LEFT}"
            )
        return asked is True

    def _below(self, one: Any, item: Item, path: str, make: bool) -> Any:
        if not isinstance(one, dict) or item.entries is None:
            return one
        table = table_of(item.entries, one)
        rest = {k: v for k, v in one.items() if k != TWIN}
        return rest if table is None else self.with_twins(rest, table, path, make)

    def _twin(self, one: Any, item: Item, written: Any, path: str) -> Any:
        made = self.glass.entry(one, item)
        self.twins.made.add(path)
        if written is None:
            return made
        return self._merged(made, self._below(written, item, path, False), item, path)

    def _merged(self, made: Any, written: Any, item: Item, path: str) -> Any:
        table = None if item.entries is None else table_of(item.entries, made)
        short = None if table is None else shorthand(table)
        if short is None:
            return self._deep(made, written, path, None)
        made, full = (v if isinstance(v, dict) else {short: v} for v in (made, written))
        merged = self._deep(made, full, path, short)
        return merged if isinstance(written, dict) or set(merged) != {short} else merged[short]

    def _deep(self, made: Any, written: Any, path: str, short: str | None) -> Any:
        if not isinstance(made, dict) or not isinstance(written, dict):
            if written != made:
                self.twins.overrides.append(path)
            return written
        merged = dict(made)
        for key, value in written.items():
            place = path if key == short else join(path, key)
            merged[key] = self._deep(made.get(key), value, place, None)
        return merged
