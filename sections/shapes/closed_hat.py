"""Hat closed by a plate."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar, Literal

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Sheet, Walls, fused, joined_walls
from sections.result import Array
from sections.shapes import openings, seams, stamping
from sections.shapes.base import Engine, bend_radius
from sections.shapes.openings import Face
from sections.shapes.seams import bend_face, cusp_filler, flange_points, seam_place


@dataclass(frozen=True, kw_only=True)
class ClosedHat:
    """Pressed hat with a plate welded under its flanges.

    In the wall model the two flange layers are walls of their own, tied at the weld line only. The outline fuses them
    over the whole flange, which no spot or stitch weld does: it is an upper bound for J and the shear areas.

    Walls against outline, 84 x 62 with 18 mm flanges, gauge 2.6, default radius, measured: second moments -0.5,
    J -8.3, shear areas -3.8 (y) and -11.1 % (z); with the weld at the end of the bend (seam = 0) J -4.3, shear areas
    -2.1 and -5.7 %. That is the joint, not thin theory, which by itself is as good as for the open hat. Cw, small in
    a closed section, differs by tens of per cent.
    """

    name: ClassVar[str] = "closed hat"
    serves: ClassVar[Engine] = "walls"

    width: float = parameter("crown width, outside", "mm")
    height: float = parameter("height, overall, with the plate", "mm")
    gauge: float = parameter("sheet thickness of the hat", "mm", thickness=True)
    flange: float = parameter("flange, from the web's outside face to its edge", "mm")
    plate_gauge: float | None = parameter(
        "thickness of the plate; default that of the hat", "mm", None, thickness=True
    )
    web_gauge: float | None = stamping.web_gauge()
    radius: float | None = parameter(
        "inside bend radius of all four bends; default two gauges (common practice)", "mm", None
    )
    seam: float | None = parameter(
        "weld line, from the web's outside face; 0 at the innermost contact; default half the flange",
        "mm",
        None,
    )
    hole: float | None = openings.hole()
    hole_pitch: float | None = openings.hole_pitch()
    hole_in: Literal["crown", "webs", "plate"] = openings.hole_in("crown")
    doubler: float | None = openings.doubler("crown")
    doubler_width: float | None = openings.doubler_width()
    weld_rate: float | None = seams.weld_rate()
    weld_length: float | None = seams.weld_length()
    weld_pitch: float | None = seams.weld_pitch()
    weld_basis: str = seams.weld_basis()
    shear_modulus: float | None = seams.shear_modulus()

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(
            width=self.width,
            height=self.height,
            gauge=self.gauge,
            flange=self.flange,
            plate_gauge=self.plate_gauge,
            web_gauge=self.web_gauge,
        )
        if sized:
            sized = faults.under("gauge", self.gauge, self.width / 2, "half the width")
            left = self.height - 2 * self.gauge
            sized &= faults.under("plate_gauge", self.plate, left, "height less two gauges")
            sized &= stamping.check_web(faults, self.web, self.gauge)
        faults.radius(
            self.radius, self._room() if sized else None, "what flange, half the web and half the crown leave"
        )
        if sized and self.seam:
            low = min(self.inside_radius, self._room())
            why = "from the end of the bend to the flange's edge; or 0"
            faults.inside("seam", self.seam, low, self.flange, why)
        faces = self._faces() if sized else None
        openings.check_holes(faults, self, faces)
        openings.check_doubler(faults, self, faces, "crown")
        seams.check_weld(faults, self)
        faults.raise_any()

    def _room(self) -> float:
        web = (self.height - self.plate) / 2 - self.gauge
        return min(self.width / 2 - self.gauge, web, self.flange)

    @property
    def plate(self) -> float:
        """Thickness of the plate [mm], given or by default."""
        return self.gauge if self.plate_gauge is None else self.plate_gauge

    @property
    def web(self) -> float:
        """Gauge of the side walls [mm], given or by default."""
        return self.gauge if self.web_gauge is None else self.web_gauge

    @property
    def inside_radius(self) -> float:
        """Inside bend radius [mm], given or by default."""
        return bend_radius(self.radius, 2 * self.gauge, self._room())

    def assumed(self) -> dict[str, float]:
        seam = seam_place(self.seam, self.flange, self.inside_radius, self.gauge)
        return {"plate_gauge": self.plate, "web_gauge": self.web, "radius": self.inside_radius, "seam": seam}

    def notes(self) -> list[str]:
        usual = 2 * self.gauge if self.radius is None else None
        return [
            *stamping.bend_notes(self.inside_radius, self.gauge, usual),
            *stamping.flange_notes(self.flange, self.inside_radius, self.gauge),
            *stamping.thinning_notes(self.web, self.gauge),
            *openings.hole_notes(self, self._faces()),
            *seams.weld_notes(self),
        ]

    def of_material(self, nu: float, shear_modulus: float) -> ClosedHat:
        return replace(self, shear_modulus=shear_modulus) if seams.needs_modulus(self) else self

    def _faces(self) -> dict[str, Face]:
        y, bend = (self.width - self.web) / 2, self.gauge + self.inside_radius
        middle, rise = (self.height + self.plate) / 2, self.height - self.plate
        return {
            "crown": Face(((0.0, self.height - self.gauge / 2),), self.width - 2 * bend, self.gauge),
            "webs": Face(((y, middle), (-y, middle)), rise - 2 * bend, self.web),
            "plate": Face(((0.0, self.plate / 2),), self.width, self.plate),
        }

    def _seam_y(self) -> float:
        return self.width / 2 + seam_place(self.seam, self.flange, self.inside_radius, self.gauge)

    def _sheets(self) -> tuple[Sheet, Sheet]:
        t, tip, web = self.gauge, self.width / 2 + self.flange, (self.width - self.web) / 2
        right = np.array(flange_points(tip, self._seam_y(), web, self.plate + t / 2))
        crown = np.array([[web, self.height - t / 2], [-web, self.height - t / 2]])
        path = np.vstack([right, crown, (right * [-1.0, 1.0])[::-1]])
        plate = np.array(flange_points(tip, self._seam_y(), tip, self.plate / 2))
        bottom = np.vstack([plate, (plate * [-1.0, 1.0])[::-1]])
        gauges = stamping.hat_gauges(len(right) - 1, t, self.web)
        return Sheet(path, gauges, self.inside_radius), Sheet(bottom, self.plate)

    def walls(self) -> Walls:
        y, k = self._seam_y(), seams.conductance(self)
        top, low = self.plate + self.gauge / 2, self.plate / 2
        walls = joined_walls(self._sheets(), [((s * y, top), (s * y, low), k) for s in (-1.0, 1.0)])
        faces = self._faces()
        return openings.patched(openings.holed(walls, self, faces), self, faces["crown"])

    def outline(self) -> Outline | None:
        if self.hole is not None:
            return None  # the net section is two pieces
        hat, plate = self._sheets()
        patch = openings.patch_outlines(self, self._faces()["crown"])
        return fused([hat.outline(), plate.outline(), *self._fillers(hat), *patch])

    def _fillers(self, hat: Sheet) -> list[Array]:
        if self.inside_radius <= 0:
            return []
        return cusp_filler(bend_face(hat, self.plate), None, self.plate, self.gauge)
