"""Channel."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Sheet, Walls, joined_walls
from sections.shapes.base import Engine, bend_radius


@dataclass(frozen=True, kw_only=True)
class Channel:
    """Bent channel, web at the left, open to the right (+y).

    Walls against outline, 40 x 80, measured: at 3 mm Iyy -0.1, Izz -0.4, J +1.2, Cw -0.7, shear areas -1.2 (y) and
    -0.5 % (z); at 6 mm -0.5, -1.5, +2.6, -3.2, -3.7 and -1.4 %. Thin theory is over 2 % off from about
    gauge/flange = 1/8.
    """

    name: ClassVar[str] = "channel"
    serves: ClassVar[Engine] = "walls"

    width: float = parameter("flange width, overall", "mm")
    height: float = parameter("height, overall", "mm")
    gauge: float = parameter("sheet thickness", "mm", thickness=True)
    radius: float | None = parameter("inside bend radius; default one gauge (common practice)", "mm", None)

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(width=self.width, height=self.height, gauge=self.gauge)
        if sized:
            limit = min(self.width, self.height / 2)
            sized = faults.under("gauge", self.gauge, limit, "the width and half the height")
        faults.radius(self.radius, self._room() if sized else None, "what the flange and half the web leave")
        faults.raise_any()

    def _room(self) -> float:
        return min(self.width, self.height / 2) - self.gauge

    @property
    def inside_radius(self) -> float:
        """Inside bend radius [mm], given or by default."""
        return bend_radius(self.radius, self.gauge, self._room())

    def _sheet(self) -> Sheet:
        web, low, high = self.gauge / 2, self.gauge / 2, self.height - self.gauge / 2
        path = np.array([[self.width, low], [web, low], [web, high], [self.width, high]])
        return Sheet(path, self.gauge, self.inside_radius)

    def walls(self) -> Walls:
        return joined_walls([self._sheet()])

    def outline(self) -> Outline:
        return self._sheet().outline()
