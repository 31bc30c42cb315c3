"""Traced section: measured points from a CSV file, or given directly."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import ClassVar, Literal

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Outline, Walls
from sections.geometry.placing import Mirrored, Placing
from sections.geometry.trace import Trace
from sections.geometry.traced_midline import read_midline
from sections.geometry.traced_outline import read_outline
from sections.shapes.base import Engine

_COARSE = 0.2
"""Error of a point over the distance to the next from which first-order figures are too low."""


_THICK = 1 / 6
"""Thickness over the smaller outside size from which second moments of thin walls are over 5 % off, see `compare`."""


@dataclass(frozen=True, kw_only=True)
class Traced:
    """A section traced from a part: its mid-line with thickness, or its outline with holes.

    A mid-line is served by the wall engine and an outline by the outline engine; a trace has only its own geometry,
    so there is nothing to compare it with. In Python, `geometry` may be given instead of a file.
    """

    name: ClassVar[str] = "traced"

    file: str = parameter("CSV file with the points; see `kind`", "", "", refers="file", tell=False)
    kind: Literal["midline", "outline"] = parameter(
        '"midline": columns y, z, thickness, strength where walls are weaker than the grade, E_ratio, G_ratio and '
        "density_ratio where they are of another material (over the member's), path where there are several; "
        '"outline": columns ring, y, z, where ring 0 is the outer one',
        "",
        "midline",
    )
    closed: bool = parameter(
        "whether the last point of each path of a mid-line is joined to its first", "", False
    )
    sort: bool = parameter("put the points in order, nearest to nearest", "", False, tell=False)
    merge: float = parameter("points nearer to each other than this are taken for one", "mm", 0.0, tell=False)
    mirrored: Mirrored = parameter(
        'complete a half: "left-right" about y = mirror_at, "top-bottom" about z = mirror_at',
        "",
        "no",
        tell=False,
    )
    mirror_at: float = parameter("place of the mirror line, before scale and rotation", "mm", 0.0, tell=False)
    scale: float = parameter("factor on all coordinates, not on thickness", "", 1.0, tell=False)
    rotate: float = parameter("turn about the origin after that, from y to z", "deg", 0.0, tell=False)
    point_error: float | None = parameter(
        "half-width at 95 % of each measured coordinate, independent of each other, before the scale",
        "mm",
        None,
    )
    thickness_error: float | None = parameter("the same of each measured thickness of a mid-line", "mm", None)
    thickness_tied: bool = parameter("one and the same error in all thicknesses", "", False, tell=False)
    geometry: Walls | Outline | None = field(default=None, repr=False)
    trace: Trace | None = field(default=None, init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        if self.geometry is not None:
            return
        faults = FaultList(self.name)
        if not self.file:
            faults.add("file", "", "a file with the points is needed")
        if self.kind not in ("midline", "outline"):
            faults.add("kind", repr(self.kind), 'must be "midline" or "outline"')
        self._check_placing(faults)
        self._check_errors(faults)
        faults.raise_any()
        placing = Placing(self.sort, self.merge, self.mirrored, self.mirror_at, self.scale, self.rotate)
        midline = self.kind == "midline"
        read = read_midline(self.file, self.closed, placing) if midline else read_outline(self.file, placing)
        object.__setattr__(self, "trace", read)
        object.__setattr__(self, "geometry", read.geometry)

    def _check_placing(self, faults: FaultList) -> None:
        if self.mirrored not in ("no", "left-right", "top-bottom"):
            faults.add("mirrored", repr(self.mirrored), 'must be "no", "left-right" or "top-bottom"')
        if self.closed and self.mirrored != "no":
            faults.add("closed", "true", "must be false for a half: its mirror image closes it")
        faults.inside("merge", self.merge, 0.0)
        faults.inside("mirror_at", self.mirror_at)
        if self.mirror_at and self.mirrored == "no":
            faults.add("mirror_at", f"{self.mirror_at:g} mm", "must be given with mirrored")
        faults.inside("scale", self.scale, 0.0, open_low=True, unit="")
        faults.inside("rotate", self.rotate, unit="rad")

    def _check_errors(self, faults: FaultList) -> None:
        for name, value in (("point_error", self.point_error), ("thickness_error", self.thickness_error)):
            if value is not None:
                faults.inside(name, value, 0.0)
        if self.thickness_error is not None and self.kind == "outline":
            words = "must not be given for an outline, which has no thickness but its points"
            faults.add("thickness_error", f"{self.thickness_error:g} mm", words)

    @property
    def serves(self) -> Engine:
        return "walls" if isinstance(self.geometry, Walls) else "outline"

    def walls(self) -> Walls | None:
        return self.geometry if isinstance(self.geometry, Walls) else None

    def outline(self) -> Outline | None:
        return self.geometry if isinstance(self.geometry, Outline) else None

    def scatter(self) -> Mapping[str, float]:
        """Half-widths at 95 % of A, Iyy, Izz and J by the stated measuring errors, as parts of their values; empty
        where none are stated."""
        if self.trace is None or (self.point_error is None and self.thickness_error is None):
            return {}
        from sections.scatter import scatter

        return scatter(self.trace, self.point_error or 0.0, self.thickness_error or 0.0, self.thickness_tied)

    def notes(self) -> list[str]:
        told = [] if self.trace is None else list(self.trace.notes)
        told += self._thick()
        moved = self.scatter()
        if not moved:
            return told
        shown = ", ".join(f"{name} ± {100 * part:.2g} %" for name, part in moved.items())
        thickness = (
            "one error in all thicknesses" if self.thickness_tied else "each independent of the others"
        )
        errors = f"± {self.point_error or 0:g} mm in points"
        if self.kind == "midline":
            errors += f" and ± {self.thickness_error or 0:g} mm in thickness ({thickness})"
        told.append(f"measuring errors of {errors} move, at 95 % and to first order, {shown}")
        nearest = self._nearest()
        if (self.point_error or 0.0) * self.scale > _COARSE * nearest:
            told.append(
                f"points are as near to each other as {nearest:.3g} mm, not far above their error: length, area and "
                "the figures above come out wrong; leave points out with merge"
            )
        return told

    def _thick(self) -> list[str]:
        """Walls too thick for thin-wall theory."""
        if not isinstance(self.geometry, Walls):
            return []
        thickness = float(self.geometry.thickness.max())
        size = float(np.ptp(self.geometry.nodes, axis=0).min()) + thickness
        if thickness <= _THICK * size:
            return []
        return [
            f"walls up to {thickness:.3g} mm thick in a section {size:.3g} mm across: thin-wall theory is over 5 % "
            "off there; trace the outline"
        ]

    def _nearest(self) -> float:
        """Shortest distance between neighbouring points [mm]."""
        if isinstance(self.geometry, Walls):
            run = np.diff(self.geometry.nodes[self.geometry.ends], axis=1)[:, 0]
        else:
            rings = () if self.geometry is None else self.geometry.rings
            run = np.vstack([np.roll(ring, -1, axis=0) - ring for ring in rings])
        return float(np.linalg.norm(run, axis=1).min())
