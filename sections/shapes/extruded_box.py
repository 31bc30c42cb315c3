"""Extruded hollow section of several chambers."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Sheet, Walls, joined_walls, rounded
from sections.result import Array
from sections.shapes.base import Engine, bend_radius


@dataclass(frozen=True, kw_only=True)
class ExtrudedBox:
    """Extruded rectangle with chambers side by side, all of one width, between upright inner webs.

    Walls against outline, 120 x 60 x 3 with three chambers, measured: area +1.0, Iyy +1.4, Izz +0.2, J -2.8, shear
    areas -3.1 (y) and -2.2 %. Mid-lines know neither fillets nor rounded corners.
    """

    name: ClassVar[str] = "extruded box"
    serves: ClassVar[Engine] = "outline"

    width: float = parameter("outside width", "mm")
    height: float = parameter("outside height", "mm")
    gauge: float = parameter("thickness of the outer walls", "mm", thickness=True)
    cells: int = parameter("number of chambers", "", 2)
    web: float | None = parameter(
        "thickness of the inner webs; default the gauge", "mm", None, thickness=True
    )
    fillet: float | None = parameter(
        "radius in the chambers; default half the gauge (common practice)", "mm", None
    )
    corner: float | None = parameter(
        "radius of the outside corners; default half the gauge (common practice)", "mm", None
    )

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(width=self.width, height=self.height, gauge=self.gauge, web=self.inner)
        if not isinstance(self.cells, int) or self.cells < 1:
            faults.add("cells", str(self.cells), "must be a whole number, 1 or more")
            sized = False
        if sized:
            half = min(self.width, self.height) / 2
            sized = faults.under("gauge", self.gauge, half, "half the smaller side")
        if sized and self.cells > 1:
            sized = self._webs_fit(faults)
        for name, value, room in (
            ("fillet", self.fillet, self._room),
            ("corner", self.corner, self._outer_room),
        ):
            if value is not None:
                faults.inside(name, value, 0.0, room() if sized else np.inf, "what walls and chambers leave")
        faults.raise_any()

    def _webs_fit(self, faults: FaultList) -> bool:
        clear = self.width - 2 * self.gauge
        if self.inner < clear:
            most = ceil(clear / self.inner * (1 - 1e-9))
            if self.cells > most:
                why = f"inner webs of {self.inner:g} mm must fit side by side"
                faults.add("cells", str(self.cells), f"must be at most {most} ({why})")
            return self.cells <= most
        return faults.under("web", self.inner, clear, "the width between the outer walls")

    def _room(self) -> float:
        return min(self._cell(), self.height - 2 * self.gauge) / 2

    def _outer_room(self) -> float:
        """Up to the outer corner that leaves the wall its thickness there."""
        return self.gauge + self.fillet_radius

    def _cell(self) -> float:
        """Clear width of a chamber."""
        return (self.width - 2 * self.gauge - (self.cells - 1) * self.inner) / self.cells

    @property
    def inner(self) -> float:
        """Thickness of the inner webs [mm], given or by default."""
        return self.gauge if self.web is None else self.web

    @property
    def fillet_radius(self) -> float:
        """Radius in the chambers [mm], given or by default."""
        return bend_radius(self.fillet, self.gauge / 2, self._room())

    @property
    def corner_radius(self) -> float:
        """Radius of the outside corners [mm], given or by default."""
        return bend_radius(self.corner, self.gauge / 2, self._outer_room())

    def assumed(self) -> dict[str, float]:
        webs = {"web": self.inner} if self.cells > 1 else {}
        return webs | {"fillet": self.fillet_radius, "corner": self.corner_radius}

    def _starts(self) -> Array:
        """Left inner face of each chamber."""
        first, step = self.gauge - self.width / 2, self._cell() + self.inner
        return first + step * np.arange(self.cells, dtype=np.float64)

    def walls(self) -> Walls:
        y, low, high = (self.width - self.gauge) / 2, self.gauge / 2, self.height - self.gauge / 2
        webs = self._starts()[1:] - self.inner / 2
        across = np.array([-y, *webs, y])
        rows = [Sheet(np.column_stack([across, np.full(len(across), z)]), self.gauge) for z in (low, high)]
        ends = [Sheet(np.array([[side, low], [side, high]]), self.gauge) for side in (-y, y)]
        return joined_walls(
            [*rows, *ends, *(Sheet(np.array([[w, low], [w, high]]), self.inner) for w in webs)]
        )

    def outline(self) -> Outline:
        half, t = self.width / 2, self.gauge
        outer = _ring(-half, half, 0.0, self.height, self.corner_radius)
        starts = self._starts().tolist()
        holes = [_ring(a, a + self._cell(), t, self.height - t, self.fillet_radius) for a in starts]
        return Outline(outer, tuple(holes))


def _ring(left: float, right: float, low: float, high: float, radius: float) -> Array:
    corners = np.array([[left, low], [right, low], [right, high], [left, high]])
    return rounded(corners, radius, True, "area")
