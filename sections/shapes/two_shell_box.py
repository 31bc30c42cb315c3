"""Box of two pressed shells."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar, Literal

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Sheet, Walls, fused, joined_walls
from sections.geometry.sheet import Seam
from sections.result import Array
from sections.shapes import openings, seams, stamping
from sections.shapes.base import Engine, bend_radius
from sections.shapes.openings import Face
from sections.shapes.seams import bend_face, cusp_filler, flange_points, seam_place

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
    upper_web_gauge: float | None = stamping.web_gauge("the upper shell")
    lower_web_gauge: float | None = stamping.web_gauge("the lower shell")
    flange: float | None = parameter(
        "flange, from the side wall's outside face, flanged; default 16 mm", "mm", None
    )
    radius: float | None = parameter(
        "inside bend radius; default two of the thicker gauge (common practice)", "mm", None
    )
    seam: float | None = parameter(
        "weld line on the flange, from the wall's outside face; 0 at the innermost contact; default its middle",
        "mm",
        None,
    )
    hole: float | None = openings.hole()
    hole_pitch: float | None = openings.hole_pitch()
    hole_in: Literal["top", "bottom"] = openings.hole_in("top")
    doubler: float | None = openings.doubler("top")
    doubler_width: float | None = openings.doubler_width()
    weld_rate: float | None = seams.weld_rate()
    weld_length: float | None = seams.weld_length()
    weld_pitch: float | None = seams.weld_pitch()
    weld_basis: str = seams.weld_basis()
    shear_modulus: float | None = seams.shear_modulus()

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        if self.joint not in ("overlapped", "flanged"):
            faults.add("joint", repr(self.joint), 'must be "overlapped" or "flanged"')
        sized = faults.positive(
            width=self.width,
            height=self.height,
            upper_gauge=self.upper_gauge,
            lower_gauge=self.lower_gauge,
            split=self.split,
            flange=self.rim,
            upper_web_gauge=self.upper_web_gauge,
            lower_web_gauge=self.lower_web_gauge,
        )
        if sized:
            sized = self._check_sizes(faults)
        why = "half the width, the side walls' straight and, if flanged, half of it and the flange"
        faults.radius(self.radius, self._room() if sized else None, why)
        if sized and not faults.faults:
            self._check_joint(faults)
        faces = self._faces() if sized else None
        openings.check_holes(faults, self, faces)
        openings.check_doubler(faults, self, faces, "top")
        seams.check_weld(faults, self)
        faults.raise_any()

    def _check_sizes(self, faults: FaultList) -> bool:
        folds = 2 if self.joint == "flanged" else 1
        top = self.height - folds * self.upper_gauge
        sheets = (self.upper_gauge, self.lower)
        side = sum(sheets) if self.joint == "overlapped" else max(sheets)
        good = faults.inside(
            "split", self.line, folds * self.lower, top, _WALL, open_low=True, open_high=True
        )
        good &= stamping.check_web(faults, self.upper_web, self.upper_gauge, "upper_web_gauge")
        good &= stamping.check_web(faults, self.lower_web, self.lower, "lower_web_gauge")
        return good & faults.inside("width", self.width, 2 * side, why=_SHEETS, open_low=True)

    def _check_joint(self, faults: FaultList) -> None:
        radius = self.inside_radius
        if self.joint == "overlapped":
            room = self.height - self.upper_gauge - radius - self.line
            why = "the straight of the upper side wall"
            faults.inside("overlap", self.lap, 0.0, room, why, open_low=True)
        elif self.seam:
            why = "from the end of the bend to the flange's edge; or 0"
            faults.inside("seam", self.seam, radius, self.rim, why)

    def _room(self) -> float:
        up, low = self.height - self.line, self.line
        if self.joint == "flanged":
            straight = min(up / 2 - self.upper_gauge, low / 2 - self.lower)
            return min(straight, self.width / 2 - max(self.upper_gauge, self.lower), self.rim)
        inner = self.width / 2 - self.upper_gauge - self.lower
        return min(up - self.upper_gauge, low - self.lower, inner)

    @property
    def lower(self) -> float:
        """Gauge of the lower shell [mm], given or by default."""
        return self.upper_gauge if self.lower_gauge is None else self.lower_gauge

    @property
    def upper_web(self) -> float:
        """Thickness of the upper shell's side walls [mm], given or by default."""
        return self.upper_gauge if self.upper_web_gauge is None else self.upper_web_gauge

    @property
    def lower_web(self) -> float:
        """Thickness of the lower shell's side walls [mm], given or by default."""
        return self.lower if self.lower_web_gauge is None else self.lower_web_gauge

    @property
    def rim(self) -> float:
        """Flange [mm], given or by default."""
        return 16.0 if self.flange is None else self.flange

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

    def assumed(self) -> dict[str, float]:
        always = {
            "lower_gauge": self.lower,
            "split": self.line,
            "upper_web_gauge": self.upper_web,
            "lower_web_gauge": self.lower_web,
            "radius": self.inside_radius,
        }
        if self.joint == "overlapped":
            return always | {"overlap": self.lap}
        return always | {"flange": self.rim, "seam": self._seam_y() - self.width / 2}

    def notes(self) -> list[str]:
        gauge = max(self.upper_gauge, self.lower)
        usual = 2 * gauge if self.radius is None else None
        flanged = self.joint == "flanged"
        return [
            *stamping.bend_notes(self.inside_radius, gauge, usual),
            *(stamping.flange_notes(self.rim, self.inside_radius, gauge) if flanged else ()),
            *stamping.thinning_notes(self.upper_web, self.upper_gauge),
            *stamping.thinning_notes(self.lower_web, self.lower),
            *openings.hole_notes(self, self._faces()),
            *seams.weld_notes(self),
        ]

    def of_material(self, nu: float, shear_modulus: float) -> TwoShellBox:
        return replace(self, shear_modulus=shear_modulus) if seams.needs_modulus(self) else self

    def _faces(self) -> dict[str, Face]:
        up, low, radius = self.upper_gauge, self.lower, self.inside_radius
        inset = self.upper_web if self.joint == "overlapped" else 0.0
        across = self.width - 2 * radius
        return {
            "top": Face(((0.0, self.height - up / 2),), across - 2 * up, up),
            "bottom": Face(((0.0, low / 2),), across - 2 * (low + inset), low),
        }

    def _seam_y(self) -> float:
        gauge = max(self.upper_gauge, self.lower)
        return self.width / 2 + seam_place(self.seam, self.rim, self.inside_radius, gauge)

    def _sheets(self) -> tuple[Sheet, Sheet]:
        up, low, top = self.upper_gauge, self.lower, self.height
        if self.joint == "flanged":
            upper = self._flanged(self.upper_web, self.line + up / 2, top - up / 2)
            lower = self._flanged(self.lower_web, self.line - low / 2, low / 2)
        else:
            y, inner = self._sides()
            upper = [[y, self.line], [y, top - up / 2]]
            lower = [[inner, self.line + self.lap], [inner, self.line], [inner, low / 2]]
        return self._shell(upper, up, self.upper_web), self._shell(lower, low, self.lower_web)

    def _sides(self) -> tuple[float, float]:
        """y of the mid-lines of the upper shell's and the lower shell's side walls, overlapped."""
        outer = self.width / 2 - self.upper_web / 2
        return outer, self.width / 2 - self.upper_web - self.lower_web / 2

    def _flanged(self, web_gauge: float, level: float, far: float) -> list[list[float]]:
        web = (self.width - web_gauge) / 2
        return [*flange_points(self.width / 2 + self.rim, self._seam_y(), web, level), [web, far]]

    def _shell(self, right: list[list[float]], gauge: float, web: float) -> Sheet:
        """A shell by its right half: flange stretches where there are any, the side wall, half the far wall."""
        half = np.array(right)
        path = np.vstack([half, (half * [-1.0, 1.0])[::-1]])
        side = np.abs(np.diff(path[:, 0])) < 1e-9
        return Sheet(path, np.where(side, web, gauge), self.inside_radius)

    def walls(self) -> Walls:
        k = seams.conductance(self)
        if self.joint == "flanged":
            up, low = (
                (self._seam_y(), self.line + self.upper_gauge / 2),
                (self._seam_y(), self.line - self.lower / 2),
            )
        else:
            outer, inner = self._sides()
            up, low = (outer, self.line), (inner, self.line)
        welds: list[Seam] = [((s * up[0], up[1]), (s * low[0], low[1]), k) for s in (-1.0, 1.0)]
        walls, faces = joined_walls(self._sheets(), welds), self._faces()
        return openings.patched(openings.holed(walls, self, faces), self, faces["top"])

    def outline(self) -> Outline | None:
        if self.hole is not None:
            return None  # the net section is two pieces
        upper, lower = self._sheets()
        patch = openings.patch_outlines(self, self._faces()["top"])
        return fused([upper.outline(), lower.outline(), *self._fillers(upper, lower), *patch])

    def _fillers(self, upper: Sheet, lower: Sheet) -> list[Array]:
        if self.inside_radius <= 0 or self.joint == "overlapped":
            return []
        bends = bend_face(upper, self.line), bend_face(lower, self.line)
        return cusp_filler(*bends, self.line, min(self.upper_gauge, self.lower))
