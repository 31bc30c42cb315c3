"""Solid rectangle."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, rounded
from sections.shapes import casting
from sections.shapes.base import Engine


@dataclass(frozen=True, kw_only=True)
class SolidRectangle:
    """Solid rectangle with rounded corners, or with drafted sides a trapezium: a forging, a flat bar, a plate."""

    name: ClassVar[str] = "solid rectangle"
    serves: ClassVar[Engine] = "outline"

    width: float = parameter("width, at half the height where the sides are drafted", "mm")
    height: float = parameter("height", "mm")
    radius: float = parameter("corner radius", "mm", 0.0)
    draft: float = parameter("angle by which the sides lean in from bottom to top", "deg", 0.0, tell=False)

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(width=self.width, height=self.height)
        sized &= casting.check_draft(faults, self.draft)
        if sized:
            why = "the width at the top must stay above 0"
            sized = faults.under("draft", 2 * self._lean(), self.width, why)
        if faults.inside("radius", self.radius, 0.0) and sized:
            half = (min(self.width, self.height) - 2 * self._lean()) / 2
            faults.inside(
                "radius", self.radius, 0.0, half, "half the smaller side, less the lean of the sides"
            )
        faults.raise_any()

    def _lean(self) -> float:
        """How far each side is off its middle at top and bottom."""
        return float(np.tan(self.draft) * self.height / 2)

    def walls(self) -> None:
        return None

    def outline(self) -> Outline:
        low, top, z = self.width / 2 + self._lean(), self.width / 2 - self._lean(), self.height
        corners = np.array([[-low, 0.0], [low, 0.0], [top, z], [-top, z]])
        return Outline(rounded(corners, self.radius, True, "area"))
