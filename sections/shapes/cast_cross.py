"""Cast or forged cross."""

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
class CastCross:
    """Cross of an upright and a level wall, with fillets between them: stiff to bend both ways, soft in torsion.

    Walls against outline: see the cast I; mid-lines know no fillets.
    """

    name: ClassVar[str] = "cast cross"
    serves: ClassVar[Engine] = "outline"

    width: float = parameter("width, overall", "mm")
    height: float = parameter("height, overall", "mm")
    upright: float = parameter(
        "thickness of the upright wall, drafted at half the height of each arm", "mm", thickness=True
    )
    level: float = parameter("thickness of the level wall", "mm", thickness=True)
    fillet: float | None = parameter(
        "radius between the walls; default the thinner of both (common practice)", "mm", None
    )
    draft: float = casting.draft("the faces of the upright wall above and below the level one")
    corner: float = casting.corner()

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(width=self.width, height=self.height, upright=self.upright, level=self.level)
        sized &= casting.check_draft(faults, self.draft)
        if sized:
            sized = faults.under("level", self.level, self.height, "the height")
        if sized:
            lean, why = 2 * self._lean(), "the lean of its faces, and less than the width"
            sized = faults.inside(
                "upright", self.upright, lean, self.width - lean, why, open_low=True, open_high=True
            )
        if faults.inside("corner", self.corner, 0.0) and sized:
            least = min(self.upright - 2 * self._lean(), self.level)
            faults.inside("corner", self.corner, 0.0, 0.45 * least, "0.45 of the thinner edge")
        if self.fillet is not None:
            faults.inside(
                "fillet", self.fillet, 0.0, self._room() if sized else np.inf, "what the walls leave"
            )
        faults.raise_any()

    def _lean(self) -> float:
        return float(np.tan(self.draft) * (self.height - self.level) / 4)

    def _room(self) -> float:
        across, up = (self.width - self.upright) / 2 - self._lean(), (self.height - self.level) / 2
        return 0.9 * (min(across, up) - self.corner)

    @property
    def fillet_radius(self) -> float:
        """Fillet radius [mm], given or by default."""
        return bend_radius(self.fillet, min(self.upright, self.level), self._room())

    def assumed(self) -> dict[str, float]:
        return {"fillet": self.fillet_radius}

    def notes(self) -> list[str]:
        least = min(self.upright - 2 * self._lean(), self.level)
        return list(casting.casting_notes(least, self.fillet_radius, min(self.upright, self.level)))

    def walls(self) -> Walls:
        y, middle = self.width / 2, self.height / 2
        level = Sheet(np.array([[-y, middle], [0.0, middle], [y, middle]]), self.level)
        upright = Sheet(np.array([[0.0, 0.0], [0.0, middle], [0.0, self.height]]), self.upright)
        return joined_walls([level, upright])

    def outline(self) -> Outline:
        y, h, t = self.width / 2, self.height / 2, self.level / 2
        tip, root = self.upright / 2 - self._lean(), self.upright / 2 + self._lean()
        c, r = self.corner, self.fillet_radius
        right = np.array([[tip, -h, c], [root, -t, r], [y, -t, c], [y, t, c], [root, t, r], [tip, h, c]])
        ring = np.vstack([right, (right * [-1.0, 1.0, 1.0])[::-1]])
        corners = rounded(ring[:, :2], ring[:, 2], True, "area", FILLET_STEP)
        return Outline(corners + np.array([0.0, h]))
