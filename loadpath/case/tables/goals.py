"""Targets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from loadpath.case.declare import Direction, Positive
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class StiffnessTable:
    """Least stiffness of a point."""

    part: str = parameter("the part", refers="part")
    point: str = parameter("the point", refers="point")
    along: Direction = parameter("direction", refers="direction")
    held: Literal["mounts rigid", "body rates", "as mounted"] = parameter("what holds the part meanwhile")
    least: Positive = parameter("least stiffness", "N/mm")
    basis: str = parameter("where the figure is from", default="case file", tell=False)


@dataclass(frozen=True, kw_only=True)
class MassBudgetTable:
    """Most mass of some parts together."""

    parts: tuple[str, ...] = parameter("the parts", refers="part")
    most: Positive = parameter("most mass", "kg")
    basis: str = parameter("where the figure is from", default="case file", tell=False)


TARGETS: Mapping[str, type] = MappingProxyType({"stiffness": StiffnessTable, "mass": MassBudgetTable})
