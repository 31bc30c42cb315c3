"""Axes and points."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Literal

from loadpath.case.declare import Vector
from sections.fields import parameter

AxisWord = Literal["+x", "-x", "+y", "-y", "+z", "-z"]


@dataclass(frozen=True, kw_only=True)
class AxesTable:
    """Which way the vehicle's axes point in the coordinates of the file."""

    forward: AxisWord = parameter("the way the vehicle looks", default="+x", tell=False)
    left: AxisWord = parameter("its left side", default="+y", tell=False)
    up: AxisWord = parameter("away from the ground", default="+z", tell=False)


@dataclass(frozen=True, kw_only=True)
class PointTable:
    """A hardpoint; `name = [x, y, z]` says the same in short."""

    shorthand: ClassVar[str] = "at"
    at: Vector = parameter("position", "mm", vector="polar")
