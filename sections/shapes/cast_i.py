"""Cast or forged I."""

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
class CastI:
    """I section with fillets between web and flanges, web upright.

    Walls against outline, 50 x 60 with the default fillet, measured: at 3 mm second moments +0.5, J -11, Cw +1.5,
    shear areas -7 %; at 8 mm Iyy +1.6, Izz -2.3, J -25, Cw +11, shear areas -18 %. Mid-lines know no fillets.
    """

    name: ClassVar[str] = "cast I"
    serves: ClassVar[Engine] = "outline"

    width: float = parameter("flange width", "mm")
    height: float = parameter("height, overall", "mm")
    web: float = parameter("web thickness", "mm", thickness=True)
    flange: float = parameter("flange thickness", "mm", thickness=True)
    fillet: float | None = casting.fillet_between()
    draft: float = casting.draft("the inner faces of the flanges, drawn away from the web")
    corner: float = casting.corner()

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(width=self.width, height=self.height, web=self.web, flange=self.flange)
        sized &= casting.check_draft(faults, self.draft)
        if sized:
            sized = faults.under("web", self.web, self.width, "the width")
            sized &= faults.under("flange", self.flange, self.height / 2, "half the height")
            lean, why = self._lean(), "the lean of the flange; its edge must stay above 0"
            sized = sized and faults.inside("flange", self.flange, lean, why=why, open_low=True)
        if faults.inside("corner", self.corner, 0.0) and sized:
            tip = self.flange - self._lean()
            faults.inside(
                "corner", self.corner, 0.0, 0.45 * min(tip, self.width), "0.45 of the flange's edge"
            )
        if self.fillet is not None:
            room = self._room() if sized else np.inf
            faults.inside(
                "fillet", self.fillet, 0.0, room, "half the clear height, and the flange beside the web"
            )
        faults.raise_any()

    def _lean(self) -> float:
        """What a flange has more at the web, and less at its edge."""
        return float(np.tan(self.draft) * (self.width - self.web) / 4)

    def _room(self) -> float:
        outstand = (self.width - self.web) / 2
        if self.draft or self.corner:
            outstand = 0.9 * (outstand - self.corner)
        return min(outstand, self.height / 2 - self.flange - self._lean())

    @property
    def fillet_radius(self) -> float:
        """Fillet radius [mm], given or by default."""
        return bend_radius(self.fillet, min(self.web, self.flange), self._room())

    def assumed(self) -> dict[str, float]:
        return {"fillet": self.fillet_radius}

    def notes(self) -> list[str]:
        thinner = min(self.web, self.flange)
        return list(casting.casting_notes(thinner - self._lean(), self.fillet_radius, thinner))

    def walls(self) -> Walls:
        y, low, high = self.width / 2, self.flange / 2, self.height - self.flange / 2
        flanges = [Sheet(np.array([[-y, z], [0.0, z], [y, z]]), self.flange) for z in (low, high)]
        return joined_walls([*flanges, Sheet(np.array([[0.0, low], [0.0, high]]), self.web)])

    def outline(self) -> Outline:
        y, w, h = self.width / 2, self.web / 2, self.height
        tip, root = self.flange - self._lean(), self.flange + self._lean()
        right = [[y, 0.0], [y, tip], [w, root], [w, h - root], [y, h - tip], [y, h]]
        corners = np.array([*right, *([-y_, z] for y_, z in reversed(right))])
        r = self.fillet_radius
        radii = np.array([self.corner, self.corner, r, r, self.corner, self.corner] * 2)
        return Outline(rounded(corners, radii, True, "area", FILLET_STEP))
