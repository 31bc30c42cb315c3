"""Rectangular tube."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Literal

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Sheet, Walls, fused, joined_walls
from sections.shapes import openings
from sections.shapes.base import Engine, bend_radius
from sections.shapes.openings import Face


@dataclass(frozen=True, kw_only=True)
class RectangularTube:
    """Rectangular or square tube with rounded corners.

    Walls against outline, measured with the default radius: 78 x 70 x 2.5 second moments -0.1, J -0.2, shear areas
    -0.4 %; 78 x 70 x 6: -0.7, -0.3, -1.7 %; 40 x 40 x 3: -0.5, -0.3, -1.3 %. Thin theory is over 2 % off in stiffness
    from about gauge/width = 1/10: 30 x 30 x 3 shear areas -2.2 %; 40 x 40 x 5 second moments -1.7, shear areas
    -3.4 %; 30 x 30 x 5: -3.5 and -6.0 % (J still within 0.3 %). Cw, small in a tube, comes out 5 to 70 % low.
    """

    name: ClassVar[str] = "rectangular tube"
    serves: ClassVar[Engine] = "walls"

    width: float = parameter("outside width", "mm")
    height: float = parameter("outside height", "mm")
    gauge: float = parameter("wall thickness", "mm", thickness=True)
    radius: float | None = parameter(
        "inside corner radius; default one gauge, as EN 10219-2 has it up to 6 mm", "mm", None
    )
    hole: float | None = openings.hole()
    hole_pitch: float | None = openings.hole_pitch()
    hole_in: Literal["top", "bottom", "sides"] = openings.hole_in("top")
    doubler: float | None = openings.doubler("top")
    doubler_width: float | None = openings.doubler_width()

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(width=self.width, height=self.height, gauge=self.gauge)
        if sized:
            half = min(self.width, self.height) / 2
            sized = faults.under("gauge", self.gauge, half, "half the smaller side")
        faults.radius(self.radius, self._room() if sized else None, "half the inside of the smaller side")
        faces = self._faces() if sized else None
        openings.check_holes(faults, self, faces)
        openings.check_doubler(faults, self, faces, "top")
        faults.raise_any()

    def _room(self) -> float:
        return min(self.width, self.height) / 2 - self.gauge

    @property
    def inside_radius(self) -> float:
        """Inside corner radius [mm], given or by default."""
        return bend_radius(self.radius, self.gauge, self._room())

    def assumed(self) -> dict[str, float]:
        return {"radius": self.inside_radius}

    def notes(self) -> list[str]:
        return list(openings.hole_notes(self, self._faces()))

    def _faces(self) -> dict[str, Face]:
        t, y = self.gauge, (self.width - self.gauge) / 2
        across, up = (side - 2 * t - 2 * self.inside_radius for side in (self.width, self.height))
        middle = self.height / 2
        return {
            "top": Face(((0.0, self.height - t / 2),), across, t),
            "bottom": Face(((0.0, t / 2),), across, t),
            "sides": Face(((y, middle), (-y, middle)), up, t),
        }

    def _sheet(self) -> Sheet:
        t = self.gauge
        y, low, high = (self.width - t) / 2, t / 2, self.height - t / 2
        path = np.array([[-y, low], [y, low], [y, high], [-y, high]])
        return Sheet(path, t, self.inside_radius, closed=True)

    def walls(self) -> Walls:
        faces = self._faces()
        return openings.patched(
            openings.holed(joined_walls([self._sheet()]), self, faces), self, faces["top"]
        )

    def outline(self) -> Outline | None:
        if self.hole is not None:
            return None  # the net section is two pieces
        tube, patch = self._sheet().outline(), openings.patch_outlines(self, self._faces()["top"])
        return fused([tube, *patch]) if patch else tube
