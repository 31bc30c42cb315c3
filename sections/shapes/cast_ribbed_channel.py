"""Cast open channel with ribs along it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import FILLET_STEP, Outline, Sheet, Walls, joined_walls, rounded
from sections.result import Array
from sections.shapes import casting
from sections.shapes.base import Engine, bend_radius


@dataclass(frozen=True, kw_only=True)
class CastRibbedChannel:
    """Cast channel open at the top, with ribs along the member standing on its base, evenly spaced.

    Walls against outline, 70 x 45 with two ribs and default fillets, measured: at 3 mm second moments 0.3, J -4.4,
    Cw -0.9, shear areas -5 %; at 6 mm -0.9, -8.7, -3.3 and -11 %. Mid-lines know no fillets.
    """

    name: ClassVar[str] = "cast ribbed channel"
    serves: ClassVar[Engine] = "outline"

    width: float = parameter("outside width", "mm")
    height: float = parameter("height, overall", "mm")
    wall: float = parameter("thickness of the side walls", "mm", thickness=True)
    base: float = parameter("thickness of the base", "mm", thickness=True)
    ribs: int = parameter("number of ribs", "", 2)
    rib: float | None = parameter("thickness of a rib; default 0.8 of the wall (common practice)", "mm", None)
    rib_height: float | None = parameter(
        "height of the ribs above the base; default half of what the walls have", "mm", None
    )
    fillet: float | None = parameter(
        "radius where walls and ribs meet the base; default half the wall (common practice)", "mm", None
    )
    draft: float = casting.draft("walls and ribs, on their inner faces")

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(
            width=self.width,
            height=self.height,
            wall=self.wall,
            base=self.base,
            rib=self.rib_thickness,
            rib_height=self.rib_rise,
        )
        if not isinstance(self.ribs, int) or self.ribs < 0:
            faults.add("ribs", str(self.ribs), "must be a whole number, 0 or more")
            sized = False
        if sized:
            sized = self._check_sizes(faults)
        if self.fillet is not None:
            room = self._room() if sized else np.inf
            faults.inside(
                "fillet", self.fillet, 0.0, room, "half the clear base between ribs, and the ribs' height"
            )
        faults.raise_any()

    def _check_sizes(self, faults: FaultList) -> bool:
        half, rise = self.width / 2, self.height - self.base
        good = faults.under("wall", self.wall, half, "half the width")
        good &= casting.check_draft(faults, self.draft)
        good &= faults.under("base", self.base, self.height, "the height")
        if good and self.ribs:
            each = (self.width - 2 * self.wall) / self.ribs
            good &= faults.under("rib", self.rib_thickness, each, "the ribs must fit side by side")
            good &= faults.inside(
                "rib_height", self.rib_rise, high=rise, why="the height of the walls above the base"
            )
        return good and self._check_draft(faults, rise)

    def _check_draft(self, faults: FaultList, rise: float) -> bool:
        why = "the lean of the drafted faces; the top must stay above 0"
        good = faults.inside("wall", self.wall, np.tan(self.draft) * rise / 2, why=why, open_low=True)
        if self.ribs:
            lean = np.tan(self.draft) * self.rib_rise
            good &= faults.inside("rib", self.rib_thickness, lean, why=why, open_low=True)
        foot = self._gap() - np.tan(self.draft) * (rise + self.rib_rise)
        return good and faults.inside(
            "draft", foot, 0.0, why="clear base between the drafted feet", open_low=True
        )

    def _gap(self) -> float:
        """Clear base between ribs and walls."""
        return (self.width - 2 * self.wall - self.ribs * self.rib_thickness) / (self.ribs + 1)

    def _room(self) -> float:
        rise = self.height - self.base
        gap = self._gap() - np.tan(self.draft) * (rise + self.rib_rise)
        return float(min((0.9 if self.draft else 1.0) * gap / 2, rise, self.rib_rise if self.ribs else rise))

    @property
    def rib_thickness(self) -> float:
        """Thickness of a rib [mm], given or by default."""
        return 0.8 * self.wall if self.rib is None else self.rib

    @property
    def rib_rise(self) -> float:
        """Height of the ribs above the base [mm], given or by default."""
        return (self.height - self.base) / 2 if self.rib_height is None else self.rib_height

    @property
    def fillet_radius(self) -> float:
        """Fillet radius [mm], given or by default."""
        return bend_radius(self.fillet, self.wall / 2, self._room())

    def assumed(self) -> dict[str, float]:
        ribs = {"rib": self.rib_thickness, "rib_height": self.rib_rise} if self.ribs else {}
        return ribs | {"fillet": self.fillet_radius}

    def notes(self) -> list[str]:
        lean = float(np.tan(self.draft))
        tops = [self.base, self.wall - lean * (self.height - self.base) / 2]
        rib = (self.rib_thickness, self.rib_rise) if self.ribs else (None, 0.0)
        if self.ribs:
            tops.append(self.rib_thickness - lean * self.rib_rise)
        return list(casting.casting_notes(min(tops), self.fillet_radius, self.wall, *rib))

    def _rib_places(self) -> Array:
        step = self._gap() + self.rib_thickness
        return np.array([(k - (self.ribs - 1) / 2) * step for k in range(self.ribs)])

    def walls(self) -> Walls:
        side, level = (self.width - self.wall) / 2, self.base / 2
        places = self._rib_places()
        floor = np.array([[y, level] for y in (-side, *places, side)])
        sides = [Sheet(np.array([[y, level], [y, self.height]]), self.wall) for y in (-side, side)]
        tops = [np.array([[y, level], [y, self.base + self.rib_rise]]) for y in places]
        return joined_walls(
            [Sheet(floor, self.base), *sides, *(Sheet(top, self.rib_thickness) for top in tops)]
        )

    def outline(self) -> Outline:
        y, inner, base, half = self.width / 2, self.width / 2 - self.wall, self.base, self.rib_thickness / 2
        r, top = self.fillet_radius, self.base + self.rib_rise
        lean = np.tan(self.draft) * np.array([self.height - base, self.rib_rise]) / 2
        ring = [
            (-y, 0.0, 0.0),
            (y, 0.0, 0.0),
            (y, self.height, 0.0),
            (inner + lean[0], self.height, 0.0),
            (inner - lean[0], base, r),
        ]
        for place in self._rib_places()[::-1]:
            foot, head = half + lean[1], half - lean[1]
            ring += [(place + foot, base, r), (place + head, top, 0.0)]
            ring += [(place - head, top, 0.0), (place - foot, base, r)]
        ring += [(lean[0] - inner, base, r), (-inner - lean[0], self.height, 0.0), (-y, self.height, 0.0)]
        corners = np.array(ring)
        return Outline(rounded(corners[:, :2], corners[:, 2], True, "area", FILLET_STEP))
