"""Tube blown up into a rectangle or a round."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Sheet, Walls, joined_walls
from sections.shapes.base import Engine

_USUAL = 0.10


@dataclass(frozen=True, kw_only=True)
class HydroformedTube:
    """Round tube hydroformed into a rectangle with rounded corners; with the largest radius, and width = height, a
    larger round.

    Its gauge follows from the blank: no material is fed along the tube and the wall thins evenly, so that gauge times
    girth stays. Corners, which stretch last, come out thinner than that and flats thicker; a measured part is better
    traced. Walls against outline: as a rectangular tube.
    """

    name: ClassVar[str] = "hydroformed tube"
    serves: ClassVar[Engine] = "walls"

    width: float = parameter("outside width", "mm")
    height: float = parameter("outside height", "mm")
    radius: float = parameter("inside corner radius", "mm")
    blank_diameter: float = parameter("outside diameter of the tube before", "mm")
    blank_gauge: float = parameter("wall thickness of the tube before", "mm", thickness=True)

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(
            width=self.width,
            height=self.height,
            blank_diameter=self.blank_diameter,
            blank_gauge=self.blank_gauge,
        )
        sized &= faults.inside("radius", self.radius, 0.0)
        if sized and self._check_blank(faults):
            room = min(self.width, self.height) / 2 - self.gauge
            faults.inside("radius", self.radius, 0.0, room, "half the inside of the smaller side")
        faults.raise_any()

    def _check_blank(self, faults: FaultList) -> bool:
        half = min(self.blank_diameter, self.width, self.height) / 2
        if not faults.under(
            "blank_gauge", self.blank_gauge, half, "half the blank and half the smaller side"
        ):
            return False
        most = self._girth(self.blank_gauge) / np.pi + self.blank_gauge
        why = "the girth of the section; hydroforming only widens"
        return faults.inside("blank_diameter", self.blank_diameter, high=most, why=why)

    def _girth(self, gauge: float) -> float:
        """Length of the mid-line [mm]."""
        return 2 * (self.width + self.height) - 4 * gauge - (8 - 2 * np.pi) * (self.radius + gauge / 2)

    @property
    def gauge(self) -> float:
        """Wall thickness after forming [mm]: gauge × girth = that of the blank."""
        metal = self.blank_gauge * np.pi * (self.blank_diameter - self.blank_gauge)
        straight, slope = self._girth(0.0), 8 - np.pi
        root: float = max(straight**2 - 4 * slope * metal, 0.0) ** 0.5
        return (straight - root) / (2 * slope)

    @property
    def widening(self) -> float:
        """Girth over that of the blank, less 1."""
        return float(self._girth(self.gauge) / (np.pi * (self.blank_diameter - self.blank_gauge)) - 1)

    def notes(self) -> list[str]:
        told = [
            f"gauge {self.gauge:.3g} mm by even thinning of the {self.blank_gauge:g} mm blank, whose girth grows by "
            f"{self.widening:.0%}; corners come out thinner"
        ]
        if self.widening > _USUAL:
            told.append(
                f"widening by more than {_USUAL:.0%} needs feed or annealing (common practice, no source)"
            )
        return told

    def _sheet(self) -> Sheet:
        t = self.gauge
        y, low, high = (self.width - t) / 2, t / 2, self.height - t / 2
        path = np.array([[-y, low], [y, low], [y, high], [-y, high]])
        return Sheet(path, t, self.radius, closed=True)

    def walls(self) -> Walls:
        return joined_walls([self._sheet()])

    def outline(self) -> Outline:
        return self._sheet().outline()
