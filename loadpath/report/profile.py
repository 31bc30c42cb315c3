"""Table of one section: every property by the engine that serves it and by the other one."""

from __future__ import annotations

import numpy as np

from loadpath.report.table import Cell, Column, Table
from sections import Comparison, Section, Shape


def section_table(name: str, shape: Shape, both: Comparison) -> Table:
    """Properties of a shape by walls and by outline, and what thin-wall theory makes of them."""
    by_walls = shape.serves == "walls"
    used, other = (both.walls, both.outline) if by_walls else (both.outline, both.walls)
    if used is None:
        raise ValueError(f"{shape.name} has no geometry for the engine that serves it")
    values, others = _figures(used), _figures(other) if other else {}
    thin = {key: row[2] for key, row in both.rows().items()}
    rows: list[tuple[Cell, ...]] = [
        (
            key,
            unit,
            _shown(value),
            _shown(others[key][1]) if key in others else None,
            f"{100 * thin[key]:+.1f} %" if key in thin else None,
        )
        for key, (unit, value) in values.items()
    ]
    names = ("thin walls", "outline") if by_walls else ("outline", "thin walls")
    notes = [
        "y to the right, z up, drawing coordinates for centroid and shear centre; Iyy = ∫z² dA about the centroid.",
        "Walls against outline: thin-wall theory over the finite-element outline, positions in parts of the width "
        "or height; the outline fuses sheets that lie on each other.",
    ]
    if not used.closed:
        notes.append(
            "Open section: warping rules its torsion; J alone makes it far too soft where ends are held."
        )
    return Table(
        f"section_{name}",
        f"Section {name}: {shape.name}",
        (
            Column("property"),
            Column("unit"),
            Column(f"by {names[0]} (used)"),
            Column(f"by {names[1]}"),
            Column("walls against outline"),
        ),
        tuple(rows),
        tuple(notes),
    )


def _figures(section: Section) -> dict[str, tuple[str, float]]:
    """Property -> unit and value."""
    largest, smallest, angle = section.principal
    moduli = section.elastic_moduli
    area_y, area_z = 1 / np.diag(section.shear_tensor)
    return {
        "area": ("mm²", section.area),
        "mass in steel": ("kg/m", section.mass_per_metre(7850.0)),
        "centroid y": ("mm", float(section.centroid[0])),
        "centroid z": ("mm", float(section.centroid[1])),
        "shear centre y": ("mm", float(section.shear_centre[0])),
        "shear centre z": ("mm", float(section.shear_centre[1])),
        "Iyy": ("mm⁴", section.Iyy),
        "Izz": ("mm⁴", section.Izz),
        "Iyz": ("mm⁴", section.Iyz),
        "I1": ("mm⁴", largest),
        "I2": ("mm⁴", smallest),
        "angle of I1 from y": ("deg", float(np.degrees(angle))),
        "J": ("mm⁴", section.J),
        "Cw": ("mm⁶", section.Cw),
        "shear area y": ("mm²", float(area_y)),
        "shear area z": ("mm²", float(area_z)),
        "Wel y, top": ("mm³", moduli["Wy_top"]),
        "Wel y, bottom": ("mm³", moduli["Wy_bottom"]),
        "Wel z, right": ("mm³", moduli["Wz_right"]),
        "Wel z, left": ("mm³", moduli["Wz_left"]),
        "Wpl_y": ("mm³", section.Wpl_y),
        "Wpl_z": ("mm³", section.Wpl_z),
    }


def _shown(value: float) -> str:
    """Four significant digits; large numbers by powers of ten in threes."""
    if abs(value) < 1e-6:
        return "0"
    if abs(value) < 1e4:
        return f"{value:.4g}"
    power = 3 * int(np.log10(abs(value)) // 3)
    return f"{value / 10.0**power:.4g} e{power}"
