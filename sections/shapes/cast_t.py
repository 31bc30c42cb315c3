"""Cast or forged T."""

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
class CastT:
    """T section, flange on top, with fillets between web and flange.

    Walls against outline: see the cast I; mid-lines know no fillets.
    """

    name: ClassVar[str] = "cast T"
    serves: ClassVar[Engine] = "outline"

    width: float = parameter("flange width", "mm")
    height: float = parameter("height, overall", "mm")
    web: float = parameter("web thickness", "mm", thickness=True)
    flange: float = parameter("flange thickness", "mm", thickness=True)
    fillet: float | None = casting.fillet_between()
    draft: float = casting.draft("the web's faces, drawn downward")
    corner: float = casting.corner()

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(width=self.width, height=self.height, web=self.web, flange=self.flange)
        sized &= casting.check_draft(faults, self.draft)
        if sized:
            sized = faults.under("flange", self.flange, self.height, "the height")
        if sized:
            why = "the lean of the web, its foot must stay above 0, and less than the width"
            lean = 2 * self._lean()
            sized = faults.inside(
                "web", self.web, lean, self.width - lean, why, open_low=True, open_high=True
            )
        if faults.inside("corner", self.corner, 0.0) and sized:
            least = min(self.web - 2 * self._lean(), self.flange)
            faults.inside("corner", self.corner, 0.0, 0.45 * least, "0.45 of the thinner edge")
        if self.fillet is not None:
            faults.inside(
                "fillet", self.fillet, 0.0, self._room() if sized else np.inf, "the flange beside the web"
            )
        faults.raise_any()

    def _lean(self) -> float:
        """What each face of the web is further out at the flange, and further in at its foot."""
        return float(np.tan(self.draft) * (self.height - self.flange) / 2)

    def _room(self) -> float:
        beside = (self.width - self.web) / 2 - self._lean()
        return 0.9 * min(beside - self.corner, self.height - self.flange - self.corner)

    @property
    def fillet_radius(self) -> float:
        """Fillet radius [mm], given or by default."""
        return bend_radius(self.fillet, min(self.web, self.flange), self._room())

    def assumed(self) -> dict[str, float]:
        return {"fillet": self.fillet_radius}

    def notes(self) -> list[str]:
        thinner = min(self.web, self.flange)
        least = min(self.web - 2 * self._lean(), self.flange)
        return list(casting.casting_notes(least, self.fillet_radius, thinner))

    def walls(self) -> Walls:
        y, top = self.width / 2, self.height - self.flange / 2
        flange = Sheet(np.array([[-y, top], [0.0, top], [y, top]]), self.flange)
        return joined_walls([flange, Sheet(np.array([[0.0, 0.0], [0.0, top]]), self.web)])

    def outline(self) -> Outline:
        y, level, h = self.width / 2, self.height - self.flange, self.height
        foot, root = self.web / 2 - self._lean(), self.web / 2 + self._lean()
        right = np.array([[foot, 0.0], [root, level], [y, level], [y, h]])
        corners = np.vstack([right, (right * [-1.0, 1.0])[::-1]])
        c, r = self.corner, self.fillet_radius
        return Outline(rounded(corners, np.array([c, r, c, c, c, c, r, c]), True, "area", FILLET_STEP))
