"""Round tube with a plate through its slot."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Sheet, Walls, fused, joined_walls
from sections.shapes.base import Engine

_CHORDS = 40


@dataclass(frozen=True, kw_only=True)
class TubeWithPlate:
    """Round tube, slotted, with an upright plate through its middle that stands out at top and bottom, welded in.

    The outline fuses tube and plate, as welds on both sides of the plate do; it has sharp corners there, where no
    stress is reported. In torsion the plate inside carries next to nothing, by symmetry.
    """

    name: ClassVar[str] = "tube with plate"
    serves: ClassVar[Engine] = "outline"

    diameter: float = parameter("outside diameter of the tube", "mm")
    gauge: float = parameter("wall thickness of the tube", "mm", thickness=True)
    plate: float = parameter("thickness of the plate", "mm", thickness=True)
    plate_height: float = parameter("height of the plate, overall", "mm")

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(
            diameter=self.diameter, gauge=self.gauge, plate=self.plate, plate_height=self.plate_height
        )
        if sized and faults.under("gauge", self.gauge, self.diameter / 2, "half the diameter"):
            inside = self.diameter - 2 * self.gauge
            faults.under("plate", self.plate, inside, "the inside of the tube")
            faults.inside(
                "plate_height", self.plate_height, self.diameter, why="the plate goes through the tube"
            )
        faults.raise_any()

    def _ring(self, radius: float, keep: float) -> np.ndarray:
        """Corners from the bottom anticlockwise, one at the bottom and one at the top."""
        angle = 2 * np.pi * np.arange(_CHORDS) / _CHORDS - np.pi / 2
        ring = radius * keep * np.column_stack([np.cos(angle), np.sin(angle)])
        return np.asarray(ring + np.array([0.0, self.plate_height / 2]))

    def walls(self) -> Walls:
        step = np.pi / _CHORDS
        radius = (self.diameter - self.gauge) / 2
        ring = self._ring(radius, step / np.sin(step))
        low, high = ring[0, 1], ring[_CHORDS // 2, 1]
        plate = np.array([[0.0, 0.0], [0.0, low], [0.0, high], [0.0, self.plate_height]])
        return joined_walls([Sheet(ring, self.gauge, closed=True), Sheet(plate, self.plate)])

    def outline(self) -> Outline:
        step = 2 * np.pi / _CHORDS
        keep = np.sqrt(step / np.sin(step))
        outer, inner = (self._ring(r, keep) for r in (self.diameter / 2, self.diameter / 2 - self.gauge))
        half, top = self.plate / 2, self.plate_height
        plate = np.array([[-half, 0.0], [half, 0.0], [half, top], [-half, top]])
        reach = self.diameter / 2
        return replace(fused([Outline(outer, (inner,)), plate]), box=np.array([[-reach, 0.0], [reach, top]]))
