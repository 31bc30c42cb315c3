"""Box welded of four plates."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Sheet, Walls, fused, joined_walls
from sections.geometry.edits import with_weak_zones
from sections.geometry.sheet import Seam
from sections.shapes.base import Engine


@dataclass(frozen=True, kw_only=True)
class FabricatedBox:
    """Box of a top and a bottom plate and two webs between them, welded along its four inner edges.

    In aluminium the welds leave zones of less strength along all three plates that meet; stiffness is not touched.
    The welds are taken to be as strong as those zones and continuous.

    In the wall model the webs end at the plates' inner faces, tied to the plates' mid-lines by as much shear
    stiffness as a web has over that distance.
    """

    name: ClassVar[str] = "fabricated box"
    serves: ClassVar[Engine] = "walls"

    width: float = parameter("width of top and bottom plate", "mm")
    height: float = parameter("height, overall", "mm")
    top: float = parameter("thickness of the top plate", "mm", thickness=True)
    bottom: float | None = parameter(
        "thickness of the bottom plate; default that of the top", "mm", None, thickness=True
    )
    web: float = parameter("thickness of each web", "mm", thickness=True)
    inset: float = parameter("from the edge of the plates to the outside of the webs", "mm", 0.0)
    haz_strength: float | None = parameter(
        "strength of the heat-affected zones over that of the grade; default none, as in steel", "", None
    )
    haz_width: float = parameter(
        "extent of those zones from each weld; 20 mm is for MIG up to 6 mm, EN 1999-1-1 6.1.6.3, from memory",
        "mm",
        20.0,
        tell=False,
    )

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(
            width=self.width,
            height=self.height,
            top=self.top,
            bottom=self.bottom,
            web=self.web,
            haz_width=self.haz_width,
        )
        if sized and faults.inside("inset", self.inset, 0.0):
            both = self.top + self.lower
            faults.inside("height", self.height, both, why="more than both plates", open_low=True)
            room = self.width / 2 - self.web
            faults.under("inset", self.inset, room, "half the width less a web")
        if self.haz_strength is not None:
            faults.inside("haz_strength", self.haz_strength, 0.0, 1.0, open_low=True, unit="")
        faults.raise_any()

    @property
    def lower(self) -> float:
        """Thickness of the bottom plate [mm], given or by default."""
        return self.top if self.bottom is None else self.bottom

    def assumed(self) -> dict[str, float]:
        return {"bottom": self.lower}

    def notes(self) -> list[str]:
        if self.haz_strength is None:
            return []
        return [
            f"within {self.haz_width:g} mm of its welds walls count with {self.haz_strength:g} of the strength of "
            "the grade (heat-affected zones); extent and strength are the case file's"
        ]

    def _edges(self) -> np.ndarray:
        """(4, 2) where the mid-lines of webs and plates meet."""
        y, low, high = self.width / 2 - self.inset - self.web / 2, self.lower / 2, self.height - self.top / 2
        return np.array([[-y, low], [y, low], [-y, high], [y, high]])

    def walls(self) -> Walls:
        edges, half = self._edges(), self.width / 2
        plates = [
            Sheet(np.array([[-half, a[1]], a, b, [half, a[1]]]), gauge)
            for a, b, gauge in ((*edges[:2], self.lower), (*edges[2:], self.top))
        ]
        half_plate = np.array([[0.0, self.lower / 2]] * 2 + [[0.0, -self.top / 2]] * 2)
        feet = edges + half_plate
        webs = [Sheet(feet[[k, k + 2]], self.web) for k in (0, 1)]
        ties: list[Seam] = [
            ((a[0], a[1]), (b[0], b[1]), self.web / abs(a[1] - b[1]))
            for a, b in zip(edges.tolist(), feet.tolist(), strict=True)
        ]
        made = joined_walls([*plates, *webs], ties)
        if self.haz_strength is None:
            return made
        # The fillets' roots are at the webs' inner faces, half a web further in than the mid-lines meet (extent from
        # the intersection of the welded surfaces: EN 1999-1-1 6.1.6.3, from memory).
        made = with_weak_zones(made, edges, self.haz_width + self.web / 2, self.haz_strength)
        return with_weak_zones(made, feet, self.haz_width, self.haz_strength)

    def outline(self) -> Outline:
        half, y, low, high = self.width / 2, self._edges()[1, 0], self.lower, self.height - self.top
        boxes = [(-half, half, 0.0, low), (-half, half, high, self.height)]
        boxes += [(side - self.web / 2, side + self.web / 2, low, high) for side in (-y, y)]
        return fused([np.array([[a, c], [b, c], [b, d], [a, d]]) for a, b, c, d in boxes])
