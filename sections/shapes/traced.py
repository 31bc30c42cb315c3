"""Traced section: measured points from a CSV file, or given directly."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import ClassVar, Literal

from sections.errors import Fault, ShapeError
from sections.fields import parameter
from sections.geometry import Outline, Walls
from sections.geometry.trace import read_midline, read_outline
from sections.shapes.base import Engine


@dataclass(frozen=True, kw_only=True)
class Traced:
    """A section traced from a part: its mid-line with thickness, or its outline with holes.

    A mid-line is served by the wall engine and an outline by the outline engine; a trace has only its own geometry,
    so there is nothing to compare it with. In Python, `geometry` may be given instead of a file.
    """

    name: ClassVar[str] = "traced"

    file: str = parameter("CSV file with the points; see `kind`", "", "", refers="file", tell=False)
    kind: Literal["midline", "outline"] = parameter(
        '"midline": columns y, z, thickness; "outline": columns ring, y, z, where ring 0 is the outer one',
        "",
        "midline",
    )
    closed: bool = parameter("whether the last point of a mid-line is joined to the first", "", False)
    geometry: Walls | Outline | None = field(default=None, repr=False)

    def __post_init__(self) -> None:
        if self.geometry is not None:
            return
        if not self.file:
            raise ShapeError(self.name, [Fault("file", "", "a file with the points is needed")])
        if self.kind not in ("midline", "outline"):
            raise ShapeError(self.name, [Fault("kind", repr(self.kind), 'must be "midline" or "outline"')])
        read = read_midline(self.file, self.closed) if self.kind == "midline" else read_outline(self.file)
        object.__setattr__(self, "geometry", read)

    @property
    def serves(self) -> Engine:
        return "walls" if isinstance(self.geometry, Walls) else "outline"

    def walls(self) -> Walls | None:
        return self.geometry if isinstance(self.geometry, Walls) else None

    def outline(self) -> Outline | None:
        return self.geometry if isinstance(self.geometry, Outline) else None
