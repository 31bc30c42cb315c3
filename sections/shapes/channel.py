"""Channel."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Literal

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Sheet, Walls, joined_walls
from sections.shapes import openings, stamping
from sections.shapes.base import Engine, bend_radius
from sections.shapes.openings import Face


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
    hole: float | None = openings.hole()
    hole_pitch: float | None = openings.hole_pitch()
    hole_in: Literal["web", "flanges"] = openings.hole_in("web")

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(width=self.width, height=self.height, gauge=self.gauge)
        if sized:
            limit = min(self.width, self.height / 2)
            sized = faults.under("gauge", self.gauge, limit, "the width and half the height")
        faults.radius(self.radius, self._room() if sized else None, "what the flange and half the web leave")
        openings.check_holes(faults, self, self._faces() if sized else None)
        faults.raise_any()

    def _room(self) -> float:
        return min(self.width, self.height / 2) - self.gauge

    @property
    def inside_radius(self) -> float:
        """Inside bend radius [mm], given or by default."""
        return bend_radius(self.radius, self.gauge, self._room())

    def assumed(self) -> dict[str, float]:
        return {"radius": self.inside_radius}

    def notes(self) -> list[str]:
        usual = self.gauge if self.radius is None else None
        bends = stamping.bend_notes(self.inside_radius, self.gauge, usual)
        return [*bends, *openings.hole_notes(self, self._faces())]

    def _faces(self) -> dict[str, Face]:
        t, bend = self.gauge, self.gauge + self.inside_radius
        middle = (self.width + bend) / 2
        flanges = ((middle, t / 2), (middle, self.height - t / 2))
        return {
            "web": Face(((t / 2, self.height / 2),), self.height - 2 * bend, t),
            "flanges": Face(flanges, self.width - bend, t),
        }

    def _sheet(self) -> Sheet:
        web, low, high = self.gauge / 2, self.gauge / 2, self.height - self.gauge / 2
        path = np.array([[self.width, low], [web, low], [web, high], [self.width, high]])
        return Sheet(path, self.gauge, self.inside_radius)

    def walls(self) -> Walls:
        return openings.holed(joined_walls([self._sheet()]), self, self._faces())

    def outline(self) -> Outline | None:
        if self.hole is not None:
            return None  # the net section is two pieces
        return self._sheet().outline()
