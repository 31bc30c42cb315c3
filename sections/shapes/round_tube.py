"""Round tube."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Walls, circle
from sections.shapes.base import Engine

_CHORDS, _WALLS = 40, 72


@dataclass(frozen=True, kw_only=True)
class RoundTube:
    """Round tube, welded or seamless.

    Walls against outline, measured: 40 x 2 second moments -0.3, J 0.0, shear areas -0.5 %; 40 x 5: -2.1, +0.6,
    -3.3 %; 22 x 3: -2.5, +0.7, -4.0 %. The outline's polygon of 40 chords has the circle's area; its J is within
    0.02 % and its surface stress within 0.4 % of closed forms.
    """

    name: ClassVar[str] = "round tube"
    serves: ClassVar[Engine] = "outline"

    diameter: float = parameter("outside diameter", "mm")
    gauge: float = parameter("wall thickness", "mm", thickness=True)

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        if faults.positive(diameter=self.diameter, gauge=self.gauge):
            half = self.diameter / 2
            faults.under("gauge", self.gauge, half, "half the diameter")
        faults.raise_any()

    def walls(self) -> Walls:
        ring = circle((self.diameter - self.gauge) / 2, _WALLS, "length")
        index = np.arange(_WALLS)
        nodes = ring + np.array([0.0, self.diameter / 2])
        return Walls(nodes, np.column_stack([index, np.roll(index, -1)]), np.full(_WALLS, self.gauge))

    def outline(self) -> Outline:
        centre = np.array([0.0, self.diameter / 2])
        outer, inner = (
            circle(radius, _CHORDS, "area") + centre
            for radius in (self.diameter / 2, self.diameter / 2 - self.gauge)
        )
        half = self.diameter / 2
        return Outline(outer, (inner,), np.array([[-half, 0.0], [half, self.diameter]]))
