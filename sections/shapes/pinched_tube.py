"""Round tube pressed flat."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Sheet, Walls, joined_walls
from sections.shapes.base import Engine


@dataclass(frozen=True, kw_only=True)
class PinchedTube:
    """Round tube pressed flat between two planes: two half rounds and two flats, its girth unchanged.

    Walls against outline, 40 x 2 pressed to 25, measured: see the table of `sections.compare`; like a round tube.
    """

    name: ClassVar[str] = "pinched tube"
    serves: ClassVar[Engine] = "outline"

    diameter: float = parameter("outside diameter before pressing", "mm")
    gauge: float = parameter("wall thickness", "mm", thickness=True)
    height: float = parameter("height that is left, outside", "mm")

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        if faults.positive(diameter=self.diameter, gauge=self.gauge, height=self.height):
            faults.under("gauge", self.gauge, self.diameter / 2, "half the diameter")
            why = "more than two walls, and no more than the diameter"
            faults.inside("height", self.height, 2 * self.gauge, self.diameter, why, open_low=True)
        faults.raise_any()

    @property
    def flat(self) -> float:
        """Length of each flat [mm]: what half the girth has over that of the half rounds."""
        return np.pi * (self.diameter - self.height) / 2

    def _sheet(self) -> Sheet:
        y, low, high = (
            (self.flat + self.height - self.gauge) / 2,
            self.gauge / 2,
            self.height - self.gauge / 2,
        )
        path = np.array([[-y, low], [y, low], [y, high], [-y, high]])
        return Sheet(path, self.gauge, self.height / 2 - self.gauge, closed=True)

    def walls(self) -> Walls:
        return joined_walls([self._sheet()])

    def outline(self) -> Outline:
        return self._sheet().outline()
