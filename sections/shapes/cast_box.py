"""Cast box with a core."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import FILLET_STEP, Outline, Sheet, Walls, joined_walls, rounded
from sections.shapes import casting
from sections.shapes.base import Engine, bend_radius


@dataclass(frozen=True, kw_only=True)
class CastBox:
    """Hollow casting around a core, its walls of different thickness, the core drafted and perhaps off its place.

    Walls against outline: as a rectangular tube, and off by what draft and fillets of the core do, which mid-lines do
    not know.
    """

    name: ClassVar[str] = "cast box"
    serves: ClassVar[Engine] = "outline"

    width: float = parameter("outside width", "mm")
    height: float = parameter("outside height", "mm")
    sides: float = parameter("thickness of the side walls, at half the height", "mm", thickness=True)
    top: float = parameter("thickness of the top", "mm", thickness=True)
    bottom: float | None = parameter(
        "thickness of the bottom; default that of the top", "mm", None, thickness=True
    )
    core_radius: float | None = parameter(
        "radius of the core's corners; default the thinnest wall (common practice)", "mm", None
    )
    corner: float = casting.corner()
    draft: float = parameter("draft angle of the core's sides, narrower at the top", "deg", 0.0, tell=False)
    core_right: float = parameter("how far the core is off to the right", "mm", 0.0, tell=False)
    core_up: float = parameter("how far the core is off upward", "mm", 0.0, tell=False)

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(
            width=self.width, height=self.height, sides=self.sides, top=self.top, bottom=self.lower
        )
        sized &= casting.check_draft(faults, self.draft)
        if sized:
            sized = faults.under(
                "top", self.top + self.lower, self.height, "top and bottom leave room for a core"
            )
        if sized:
            lean = self._lean()
            half = self.width / 2 - lean
            sized = faults.inside(
                "sides", self.sides, lean, half, "a core between", open_low=True, open_high=True
            )
            reach = self.sides - lean
            sized &= faults.inside(
                "core_right", self.core_right, -reach, reach, "the wall", open_low=True, open_high=True
            )
            room = (-self.lower, self.top)
            sized &= faults.inside("core_up", self.core_up, *room, "the wall", open_low=True, open_high=True)
        if faults.inside("corner", self.corner, 0.0) and sized:
            half = 0.45 * min(self.width, self.height)
            most = min(half, self._least() + self.inside_radius)
            faults.inside("corner", self.corner, 0.0, most, "the thinnest wall and the core's radius")
        if self.core_radius is not None:
            faults.inside(
                "core_radius", self.core_radius, 0.0, self._room() if sized else np.inf, "what the core has"
            )
        faults.raise_any()

    @property
    def lower(self) -> float:
        """Thickness of the bottom [mm], given or by default."""
        return self.top if self.bottom is None else self.bottom

    def _lean(self) -> float:
        return float(np.tan(self.draft) * (self.height - self.top - self.lower) / 2)

    def _least(self) -> float:
        """Thinnest wall, the core off its place [mm]."""
        side = self.sides - self._lean() - abs(self.core_right)
        return min(side, self.top - self.core_up, self.lower + self.core_up)

    def _room(self) -> float:
        narrow = self.width - 2 * self.sides - 2 * self._lean()
        return (0.9 if self.draft else 1.0) * min(narrow, self.height - self.top - self.lower) / 2

    @property
    def inside_radius(self) -> float:
        """Radius of the core's corners [mm], given or by default."""
        return bend_radius(self.core_radius, min(self.sides, self.top, self.lower), self._room())

    def assumed(self) -> dict[str, float]:
        return {"bottom": self.lower, "core_radius": self.inside_radius}

    def notes(self) -> list[str]:
        return list(
            casting.casting_notes(self._least(), self.inside_radius, min(self.sides, self.top, self.lower))
        )

    def walls(self) -> Walls:
        left, right = self.sides + self.core_right, self.sides - self.core_right
        low, up = self.lower + self.core_up, self.top - self.core_up
        y0, y1 = left / 2 - self.width / 2, self.width / 2 - right / 2
        path = np.array(
            [[y0, low / 2], [y1, low / 2], [y1, self.height - up / 2], [y0, self.height - up / 2]]
        )
        return joined_walls([Sheet(path, np.array([low, right, up, left]), closed=True)])

    def outline(self) -> Outline:
        half, lean = self.width / 2, self._lean()
        core = half - self.sides
        low, high = self.lower + self.core_up, self.height - self.top + self.core_up
        outer = np.array([[-half, 0.0], [half, 0.0], [half, self.height], [-half, self.height]])
        inner = np.array([[-core - lean, low], [core + lean, low], [core - lean, high], [lean - core, high]])
        hole = rounded(
            inner + np.array([self.core_right, 0.0]), self.inside_radius, True, "area", FILLET_STEP
        )
        return Outline(rounded(outer, self.corner, True, "area", FILLET_STEP), (hole,))
