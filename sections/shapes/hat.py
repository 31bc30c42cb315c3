"""Hat."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Literal

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Sheet, Walls, fused, joined_walls
from sections.shapes import openings, stamping
from sections.shapes.base import Engine, bend_radius
from sections.shapes.openings import Face


@dataclass(frozen=True, kw_only=True)
class Hat:
    """Pressed hat, crown on top, open downward, flanges outward at the bottom.

    Walls against outline, 84 x 62 with 18 mm flanges, measured: at 2.6 mm Iyy -0.2, Izz 0.0, J +0.7, Cw -0.9, shear
    areas -0.2 (y) and -0.4 % (z); at 6 mm -1.1, -0.1, +1.8, -6.5, -0.7 and -2.0 %. Thin theory is over 2 % off from
    about gauge/height = 1/15, first in Cw.
    """

    name: ClassVar[str] = "hat"
    serves: ClassVar[Engine] = "walls"

    width: float = parameter("crown width, outside", "mm")
    height: float = parameter("height, overall", "mm")
    gauge: float = parameter("sheet thickness", "mm", thickness=True)
    flange: float = parameter("flange, from the web's outside face to its edge", "mm")
    web_gauge: float | None = stamping.web_gauge()
    radius: float | None = parameter(
        "inside bend radius of all four bends; default two gauges (common practice)", "mm", None
    )
    hole: float | None = openings.hole()
    hole_pitch: float | None = openings.hole_pitch()
    hole_in: Literal["crown", "webs"] = openings.hole_in("crown")
    doubler: float | None = openings.doubler("crown")
    doubler_width: float | None = openings.doubler_width()

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(
            width=self.width,
            height=self.height,
            gauge=self.gauge,
            flange=self.flange,
            web_gauge=self.web_gauge,
        )
        if sized:
            half = min(self.width, self.height) / 2
            sized = faults.under("gauge", self.gauge, half, "half the width or height")
            sized &= stamping.check_web(faults, self.web, self.gauge)
        faults.radius(
            self.radius, self._room() if sized else None, "what flange, half the web and half the crown leave"
        )
        faces = self._faces() if sized else None
        openings.check_holes(faults, self, faces)
        openings.check_doubler(faults, self, faces, "crown")
        faults.raise_any()

    def _room(self) -> float:
        return min(min(self.width, self.height) / 2 - self.gauge, self.flange)

    @property
    def web(self) -> float:
        """Gauge of the side walls [mm], given or by default."""
        return self.gauge if self.web_gauge is None else self.web_gauge

    @property
    def inside_radius(self) -> float:
        """Inside bend radius [mm], given or by default."""
        return bend_radius(self.radius, 2 * self.gauge, self._room())

    def assumed(self) -> dict[str, float]:
        return {"web_gauge": self.web, "radius": self.inside_radius}

    def notes(self) -> list[str]:
        usual = 2 * self.gauge if self.radius is None else None
        return [
            *stamping.bend_notes(self.inside_radius, self.gauge, usual),
            *stamping.flange_notes(self.flange, self.inside_radius, self.gauge),
            *stamping.thinning_notes(self.web, self.gauge),
            *openings.hole_notes(self, self._faces()),
        ]

    def _faces(self) -> dict[str, Face]:
        y, bend = (self.width - self.web) / 2, self.gauge + self.inside_radius
        webs = ((y, self.height / 2), (-y, self.height / 2))
        return {
            "crown": Face(((0.0, self.height - self.gauge / 2),), self.width - 2 * bend, self.gauge),
            "webs": Face(webs, self.height - 2 * bend, self.web),
        }

    def _sheet(self) -> Sheet:
        tip, web = self.width / 2 + self.flange, (self.width - self.web) / 2
        low, high = self.gauge / 2, self.height - self.gauge / 2
        path = np.array([[-tip, low], [-web, low], [-web, high], [web, high], [web, low], [tip, low]])
        return Sheet(path, stamping.hat_gauges(1, self.gauge, self.web), self.inside_radius)

    def walls(self) -> Walls:
        faces = self._faces()
        walls = openings.holed(joined_walls([self._sheet()]), self, faces)
        return openings.patched(walls, self, faces["crown"])

    def outline(self) -> Outline | None:
        if self.hole is not None:
            return None  # the net section is two pieces
        hat, patch = self._sheet().outline(), openings.patch_outlines(self, self._faces()["crown"])
        return fused([hat, *patch]) if patch else hat
