"""The standard load cases: a table that can be edited, every row with its source."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any, Literal

from sections.fields import parameter

LOAD_CASE = "load_case"
"""Key of a row that holds the load case itself, as a case file has it."""


@dataclass(frozen=True, kw_only=True)
class RowText:
    """What a row of a set of load cases says of itself."""

    what: str = parameter("what happens")
    acts_at: str = parameter("where its force acts")
    others: str = parameter("what the other wheels carry")
    source: str = parameter("where its numbers are from")
    each: Literal["jack_at", "tow_at"] | None = parameter(
        "list of the case file that makes one load case of each point", default=None
    )
    all: Literal["lash_at"] | None = parameter(
        "list of the case file whose points are all in the load case", default=None
    )


@dataclass(frozen=True)
class StandardRow:
    """One row of a set. load_case : its keys and values as a case file has them, `kind` among them."""

    name: str
    text: RowText
    load_case: Mapping[str, Any]

    @property
    def places(self) -> str | None:
        """The list of points of the case file that it needs, or None."""
        return self.text.each or self.text.all


@cache
def standard_set() -> Mapping[str, StandardRow]:
    """The built-in rows by name."""
    raw = tomllib.loads(resources.files(__package__).joinpath("standard.toml").read_text("utf-8"))
    rows = {}
    for name, keys in raw.items():
        text = RowText(**{k: v for k, v in keys.items() if k != LOAD_CASE})
        rows[name] = StandardRow(name, text, MappingProxyType(keys[LOAD_CASE]))
    return MappingProxyType(rows)
