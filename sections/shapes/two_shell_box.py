"""Box of two pressed shells."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Literal

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Sheet, Walls, fused, joined_walls
from sections.geometry.sheet import Seam
from sections.result import Array
from sections.shapes.base import Engine, bend_radius
from sections.shapes.seams import bend_face, check_weld, conductance, cusp_filler, flange_points, seam_place

_WALL, _SHEETS = "both shells need a side wall", "twice the sheets of one side"


@dataclass(frozen=True, kw_only=True)
class TwoShellBox:
    """An upper and a lower pressed shell welded to a box, as an arm is made.

    "overlapped": the upper shell's side walls end at the joint line, outside those of the lower shell, which run on
    inside by `overlap`; the weld lies along the upper shell's edge. "flanged": both shells turn outward at the joint
    line and their flanges lie on each other; the weld lies on the flange.

    In the wall model the layers are tied at the weld line only; the outline fuses them wherever they touch, an upper
    bound for J and the shear areas. Walls against outline, 58 x 46 x 2.5, measured: overlapped second moments -0.3,
    J -4.9, shear areas -1.6 (y) and -12.6 % (z); flanged -1.2, -9.6, -0.1 and -21.8 %. That is the joint, not thin
    theory, which by itself is as good as for a rectangular tube. Cw differs by tens of per cent.
    """

    name: ClassVar[str] = "two-shell box"
    serves: ClassVar[Engine] = "walls"

    width: float = parameter("outside width of the box, without flanges", "mm")
    height: float = parameter("height, overall", "mm")
    upper_gauge: float = parameter("sheet thickness of the upper shell", "mm", thickness=True)
    lower_gauge: float | None = parameter(
        "the same of the lower shell; default as the upper", "mm", None, thickness=True
    )
    split: float | None = parameter("height of the joint line; default half the height", "mm", None)
    joint: Literal["overlapped", "flanged"] = parameter('"overlapped" or "flanged"', "", "overlapped")
    overlap: float | None = parameter(
        "how far the lower shell runs on inside the upper, overlapped; default 10 mm where the side wall has room",
        "mm",
        None,
    )
    flange: float = parameter("flange, from the side wall's outside face, flanged", "mm", 16.0)
    radius: float | None = parameter(
        "inside bend radius; default two of the thicker gauge (common practice)", "mm", None
    )
    seam: float | None = parameter(
        "weld line on the flange, from the wall's outside face; 0 at the innermost contact; default its middle",
        "mm",
        None,
    )
    weld_rate: float | None = parameter(
        "shear stiffness of one weld; default a continuous weld", "N/mm", None
    )
    weld_pitch: float | None = parameter("distance between welds along the member", "mm", None)
    shear_modulus: float = parameter(
        "shear modulus of the sheet, used with weld_rate", "MPa", 80000.0, tell=False
    )

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        if self.joint not in ("overlapped", "flanged"):
            faults.add("joint", repr(self.joint), 'must be "overlapped" or "flanged"')
        sized = faults.positive(
            width=self.width,
            height=self.height,
            upper_gauge=self.upper_gauge,
            lower_gauge=self.lower,
            split=self.line,
            flange=self.flange,
        )
        if sized:
            sized = self._check_sizes(faults)
        why = "half the width, the side walls' straight and, if flanged, half of it and the flange"
        faults.radius(self.radius, self._room() if sized else None, why)
        if sized and not faults.faults:
            self._check_joint(faults)
        check_weld(faults, self.weld_rate, self.weld_pitch, self.shear_modulus)
        faults.raise_any()

    def _check_sizes(self, faults: FaultList) -> bool:
        folds = 2 if self.joint == "flanged" else 1
        top = self.height - folds * self.upper_gauge
        sheets = (self.upper_gauge, self.lower)
        side = sum(sheets) if self.joint == "overlapped" else max(sheets)
        good = faults.inside(
            "split", self.line, folds * self.lower, top, _WALL, open_low=True, open_high=True
        )
        return good & faults.inside("width", self.width, 2 * side, why=_SHEETS, open_low=True)

    def _check_joint(self, faults: FaultList) -> None:
        radius = self.inside_radius
        if self.joint == "overlapped":
            room = self.height - self.upper_gauge - radius - self.line
            why = "the straight of the upper side wall"
            faults.inside("overlap", self.lap, 0.0, room, why, open_low=True)
        elif self.seam:
            why = "from the end of the bend to the flange's edge; or 0"
            faults.inside("seam", self.seam, radius, self.flange, why)

    def _room(self) -> float:
        up, low = self.height - self.line, self.line
        if self.joint == "flanged":
            straight = min(up / 2 - self.upper_gauge, low / 2 - self.lower)
            return min(straight, self.width / 2 - max(self.upper_gauge, self.lower), self.flange)
        inner = self.width / 2 - self.upper_gauge - self.lower
        return min(up - self.upper_gauge, low - self.lower, inner)

    @property
    def lower(self) -> float:
        """Gauge of the lower shell [mm], given or by default."""
        return self.upper_gauge if self.lower_gauge is None else self.lower_gauge

    @property
    def line(self) -> float:
        """Height of the joint line [mm], given or by default."""
        return self.height / 2 if self.split is None else self.split

    @property
    def inside_radius(self) -> float:
        """Inside bend radius [mm], given or by default."""
        room = self._room()
        if self.joint == "overlapped":
            wall = self.height - self.upper_gauge - self.line
            room = min(room, wall / 2 if self.overlap is None else wall - self.overlap)
        return bend_radius(self.radius, 2 * max(self.upper_gauge, self.lower), room)

    @property
    def lap(self) -> float:
        """Overlap of the side walls [mm], given or by default."""
        straight = self.height - self.upper_gauge - self.line - self.inside_radius
        return min(10.0, straight) if self.overlap is None else self.overlap

    def _seam_y(self) -> float:
        gauge = max(self.upper_gauge, self.lower)
        return self.width / 2 + seam_place(self.seam, self.flange, self.inside_radius, gauge)

    def _sheets(self) -> tuple[Sheet, Sheet]:
        up, low, top = self.upper_gauge, self.lower, self.height
        if self.joint == "flanged":
            upper = self._flanged(up, self.line + up / 2, top - up / 2)
            lower = self._flanged(low, self.line - low / 2, low / 2)
        else:
            y, inner = (self.width - up) / 2, self.width / 2 - up - low / 2
            upper = [[y, self.line], [y, top - up / 2]]
            lower = [[inner, self.line + self.lap], [inner, self.line], [inner, low / 2]]
        return self._shell(upper, up), self._shell(lower, low)

    def _flanged(self, gauge: float, level: float, far: float) -> list[list[float]]:
        web = (self.width - gauge) / 2
        return [*flange_points(self.width / 2 + self.flange, self._seam_y(), web, level), [web, far]]

    def _shell(self, right: list[list[float]], gauge: float) -> Sheet:
        half = np.array(right)
        return Sheet(np.vstack([half, (half * [-1.0, 1.0])[::-1]]), gauge, self.inside_radius)

    def walls(self) -> Walls:
        k = conductance(self.weld_rate, self.weld_pitch, self.shear_modulus)
        if self.joint == "flanged":
            up, low = (
                (self._seam_y(), self.line + self.upper_gauge / 2),
                (self._seam_y(), self.line - self.lower / 2),
            )
        else:
            up = ((self.width - self.upper_gauge) / 2, self.line)
            low = (self.width / 2 - self.upper_gauge - self.lower / 2, self.line)
        seams: list[Seam] = [((s * up[0], up[1]), (s * low[0], low[1]), k) for s in (-1.0, 1.0)]
        return joined_walls(self._sheets(), seams)

    def outline(self) -> Outline:
        return fused([*(sheet.outline() for sheet in self._sheets()), *self._fillers()])

    def _fillers(self) -> list[Array]:
        radius, tangent = self.inside_radius, self.width / 2 + self.inside_radius
        if radius <= 0 or self.joint == "overlapped":
            return []
        upper = bend_face(tangent, self.line, radius + self.upper_gauge, 1.0)
        lower = bend_face(tangent, self.line, radius + self.lower, -1.0)
        return cusp_filler(upper, lower, self.line, min(self.upper_gauge, self.lower))
