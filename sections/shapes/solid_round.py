"""Solid round bar."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, circle
from sections.shapes.base import Engine

_CHORDS = 40


@dataclass(frozen=True, kw_only=True)
class SolidRound:
    """Solid round bar, as of an anti-roll bar."""

    name: ClassVar[str] = "solid round"
    serves: ClassVar[Engine] = "outline"

    diameter: float = parameter("diameter", "mm", thickness=True)

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        faults.positive(diameter=self.diameter)
        faults.raise_any()

    def walls(self) -> None:
        return None

    def outline(self) -> Outline:
        half = self.diameter / 2
        ring = circle(half, _CHORDS, "area") + np.array([0.0, half])
        return Outline(ring, box=np.array([[-half, 0.0], [half, self.diameter]]))
