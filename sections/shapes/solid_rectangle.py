"""Solid rectangle."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, rounded
from sections.shapes.base import Engine


@dataclass(frozen=True, kw_only=True)
class SolidRectangle:
    """Solid rectangle with rounded corners: a forging, a flat bar, a plate."""

    name: ClassVar[str] = "solid rectangle"
    serves: ClassVar[Engine] = "outline"

    width: float = parameter("width", "mm")
    height: float = parameter("height", "mm")
    radius: float = parameter("corner radius", "mm", 0.0)

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(width=self.width, height=self.height)
        if faults.inside("radius", self.radius, 0.0) and sized:
            half = min(self.width, self.height) / 2
            faults.inside("radius", self.radius, 0.0, half, "half the smaller side")
        faults.raise_any()

    def walls(self) -> None:
        return None

    def outline(self) -> Outline:
        y, z = self.width / 2, self.height
        corners = np.array([[-y, 0.0], [y, 0.0], [y, z], [-y, z]])
        return Outline(rounded(corners, self.radius, True, "area"))
