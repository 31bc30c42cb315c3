"""Lipped channel."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Sheet, Walls, joined_walls
from sections.shapes.base import Engine, bend_radius


@dataclass(frozen=True, kw_only=True)
class LippedChannel:
    """Bent channel with lips turned inward, web at the left, open to the right (+y).

    Walls against outline, 50 x 100 x 18, measured: at 2 mm second moments -0.1, J +0.5, Cw -0.1, shear areas -0.5 (y)
    and -0.2 % (z); at 6 mm Izz -1.5, J +1.8, Cw -0.7, shear areas -3.3 and -1.1 %. Thin theory is over 2 % off from
    about gauge/flange = 1/10, in the shear area along the flanges.
    """

    name: ClassVar[str] = "lipped channel"
    serves: ClassVar[Engine] = "walls"

    width: float = parameter("flange width, overall", "mm")
    height: float = parameter("height, overall", "mm")
    lip: float = parameter("lip, overall, from the outside face of its flange", "mm")
    gauge: float = parameter("sheet thickness", "mm", thickness=True)
    radius: float | None = parameter("inside bend radius; default one gauge (common practice)", "mm", None)

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(width=self.width, height=self.height, lip=self.lip, gauge=self.gauge)
        if sized:
            half = min(self.width, self.height) / 2
            sized = faults.under("gauge", self.gauge, half, "half the smaller side")
            sized &= faults.inside(
                "lip",
                self.lip,
                self.gauge,
                self.height / 2,
                "more than the gauge, and the lips must not cross",
                open_low=True,
                open_high=True,
            )
        faults.radius(
            self.radius, self._room() if sized else None, "what lip, half the flange and half the web leave"
        )
        faults.raise_any()

    def _room(self) -> float:
        return min(self.lip, self.width / 2, self.height / 2) - self.gauge

    @property
    def inside_radius(self) -> float:
        """Inside bend radius [mm], given or by default."""
        return bend_radius(self.radius, self.gauge, self._room())

    def _sheet(self) -> Sheet:
        web, tip, high = self.gauge / 2, self.width - self.gauge / 2, self.height - self.gauge / 2
        half = np.array([[tip, self.lip], [tip, self.gauge / 2], [web, self.gauge / 2]])
        upper = np.array([[web, high], [tip, high], [tip, self.height - self.lip]])
        return Sheet(np.vstack([half, upper]), self.gauge, self.inside_radius)

    def walls(self) -> Walls:
        return joined_walls([self._sheet()])

    def outline(self) -> Outline:
        return self._sheet().outline()
