"""From a shape to its section, by the engine that serves it or by both."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from sections.errors import Fault, ShapeError
from sections.geometry import Walls
from sections.midline import Midline
from sections.result import Array, Section
from sections.shapes.base import Shape
from sections.solid import outline_section
from sections.walls import walls_section


def section(shape: Shape, nu: float = 0.3) -> Section:
    """Properties and stresses of a shape by the engine that serves it.

    Parameters
    ----------
    nu : Poisson's ratio, used by the outline engine only; thin-wall theory does not depend on it.

    Raises
    ------
    ShapeError : a shape that its engine cannot solve.
    """
    if shape.serves == "walls":
        made = shape.walls()
        if made is not None:
            return walls_section(made)
    outline = shape.outline()
    if outline is None:
        raise ShapeError(shape.name, [Fault("", "", "has no geometry for the engine that serves it")])
    return _with_walls(outline_section(outline, nu), shape.walls())


def _with_walls(solved: Section, known: Walls | None) -> Section:
    """A section by its outline that knows its walls, where there are any."""
    if known is None:
        return solved
    return replace(
        solved,
        midline=Midline(known.nodes, known.ends, known.thickness, known.strength, known.E_ratio, known.seams),
    )


@dataclass(frozen=True, eq=False)
class Comparison:
    """One shape by both engines; None where it has no such geometry."""

    walls: Section | None
    outline: Section | None

    def rows(self) -> dict[str, tuple[float, float, float]]:
        """Walls, outline, and walls/outline − 1 of each property; empty where one engine is missing.

        Positions [mm] are compared in parts of the larger outside dimension.
        """
        if self.walls is None or self.outline is None:
            return {}
        size = float(np.ptp(self.outline.box, axis=0).max())
        thin, true = _figures(self.walls), _figures(self.outline)
        return {
            name: (thin[name], true[name], _difference(name, thin[name], true[name], size)) for name in thin
        }


def compare(shape: Shape, nu: float = 0.3) -> Comparison:
    """Both engines on one shape, for judging what thin-wall theory or a fused outline does to it.

    Up to which gauge over smaller outside size thin walls stay within 2 % and within 5 % of the outline, measured on
    15 shapes from 1/50 to 1/5 (tests/sections/test_thickness_ratios.py holds them to it):

    ============================== ============== ============ ============= ===================
    shapes                         second moments J            shear areas   Cw of open ones
    ============================== ============== ============ ============= ===================
    tubes and bent sheet           1/10, 1/6      1/10, 1/5    1/15, 1/8     1/20, 1/15
    two layers, welded             1/10, 1/5      1/50, 1/20   1/50, 1/20
    extrusions, boxes of plates    1/8, 1/5       1/30, 1/10   1/30, 1/15
    castings with fillets          1/20, 1/8      none, 1/50   none, 1/30
    ============================== ============== ============ ============= ===================

    Areas are exact but for what layers, fillets and corners add (2 %, castings up to 1/20). Beyond those ratios thin
    walls err towards soft, up to 29 % in J of a stocky cast I, but for J of open bent sheet, up to 4 % too stiff. In
    the second row it is the joint that counts, not the theory. Cw of closed sections, where it is small, may be off
    by any amount.
    """
    walls, outline = shape.walls(), shape.outline()
    return Comparison(
        None if walls is None else walls_section(walls),
        None if outline is None else _with_walls(outline_section(outline, nu), walls),
    )


def _figures(made: Section) -> dict[str, float]:
    area_y, area_z = 1 / np.diag(made.shear_tensor)
    return {
        "area": made.area,
        "Iyy": made.Iyy,
        "Izz": made.Izz,
        "J": made.J,
        "Cw": made.Cw,
        "shear area y": float(area_y),
        "shear area z": float(area_z),
        "Wpl_y": made.Wpl_y,
        "Wpl_z": made.Wpl_z,
        **_positions("centroid", made.centroid),
        **_positions("shear centre", made.shear_centre),
    }


def _positions(name: str, place: Array) -> dict[str, float]:
    return {f"{name} y": float(place[0]), f"{name} z": float(place[1])}


def _difference(name: str, thin: float, true: float, size: float) -> float:
    if name.startswith(("centroid", "shear centre")):
        return (thin - true) / size
    return thin / true - 1 if true else 0.0
