"""Two rectangular tubes side by side."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Sheet, Walls, fused, joined_walls
from sections.geometry.sheet import Seam
from sections.result import Array
from sections.shapes import seams
from sections.shapes.base import Engine, bend_radius

_CUSP = 0.125
"""Half the gap, in gauges, up to which the outline is closed between the rounded corners."""


@dataclass(frozen=True, kw_only=True)
class TwinTube:
    """Two equal rectangular tubes side by side, welded to each other along the top and the bottom of their contact.

    In the wall model each tube has its own wall at the contact, tied at the two welds only; the outline fuses them
    over the whole contact, an upper bound for J and the shear areas.
    """

    name: ClassVar[str] = "twin tube"
    serves: ClassVar[Engine] = "walls"

    width: float = parameter("outside width of each tube", "mm")
    height: float = parameter("outside height", "mm")
    gauge: float = parameter("wall thickness", "mm", thickness=True)
    radius: float | None = parameter(
        "inside corner radius; default one gauge, as EN 10219-2 has it up to 6 mm", "mm", None
    )
    weld_rate: float | None = seams.weld_rate()
    weld_length: float | None = seams.weld_length()
    weld_pitch: float | None = seams.weld_pitch()
    weld_basis: str = seams.weld_basis()
    shear_modulus: float | None = seams.shear_modulus()

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(width=self.width, height=self.height, gauge=self.gauge)
        if sized:
            half = min(self.width, self.height) / 2
            sized = faults.under("gauge", self.gauge, half, "half the smaller side")
        faults.radius(
            self.radius, self._room() if sized else None, "less than half the inside of the smaller side"
        )
        seams.check_weld(faults, self)
        faults.raise_any()

    def _room(self) -> float:
        """A little of the contact stays flat."""
        return 0.98 * (min(self.width, self.height) / 2 - self.gauge)

    @property
    def inside_radius(self) -> float:
        """Inside corner radius [mm], given or by default."""
        return bend_radius(self.radius, self.gauge, self._room())

    def assumed(self) -> dict[str, float]:
        return {"radius": self.inside_radius}

    def notes(self) -> list[str]:
        return seams.weld_notes(self)

    def of_material(self, nu: float, shear_modulus: float) -> TwinTube:
        return replace(self, shear_modulus=shear_modulus) if seams.needs_modulus(self) else self

    def _tube(self, side: float) -> Sheet:
        """The tube on the right (side 1) or on the left (−1)."""
        t = self.gauge
        near, far, low, high = t / 2, self.width - t / 2, t / 2, self.height - t / 2
        path = np.array([[near, low], [far, low], [far, high], [near, high]])
        return Sheet((path * [side, 1.0])[:: int(side)], t, self.inside_radius, closed=True)

    def walls(self) -> Walls:
        y, k = self.gauge / 2, seams.conductance(self)
        bend = self.gauge / 2 + (self.inside_radius + self.gauge / 2 if self.inside_radius > 0 else 0.0)
        welds: list[Seam] = [((-y, z), (y, z), k) for z in (bend, self.height - bend)]
        return joined_walls([self._tube(-1.0), self._tube(1.0)], welds)

    def outline(self) -> Outline:
        return fused([self._tube(1.0).outline(), self._tube(-1.0).outline(), *self._fillers()])

    def _fillers(self) -> list[Array]:
        """Closes the cusps between the rounded corners at the top and at the bottom."""
        if self.inside_radius <= 0:
            return []
        ring = self._tube(1.0).outline()
        if ring is None:
            return []
        upper = ring.outer[ring.outer[:, 1] > self.height / 2]
        upper = upper[np.argsort(upper[:, 0], kind="stable")]
        near = upper[: int(np.argmax(upper[:, 0] >= _CUSP * self.gauge)) + 1]
        top = np.vstack([near, near[:0:-1] * [-1.0, 1.0]])
        return [top, (top * [1.0, -1.0] + [0.0, self.height])[::-1]]
