"""What a section carries in the material of its members, one action at a time, with its walls judged as plates."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from loadpath.checks import LEAST_ELONGATION, describe_wall, plastic_demand, plate_rules
from loadpath.model import Material
from loadpath.report.section.properties import Use
from loadpath.report.table import Cell, Column, Table
from sections import Section
from sections.plates import effective_section

Array = NDArray[np.float64]

_ACTIONS = (
    ("N, compression", 0, -1.0),
    ("My, bottom pressed", 4, 1.0),
    ("My, top pressed", 4, -1.0),
    ("Mz, right pressed", 5, 1.0),
    ("Mz, left pressed", 5, -1.0),
)
_BASIS = {
    "steel": "classes by EN 1993-1-1 table 5.2, class 4 by the effective section of EN 1993-1-5 4.3 and 4.4 (from "
    "memory), flats net of bend radii",
    "aluminium": "classes by EN 1999-1-1 table 6.2, the smaller limits of buckling classes A and B with welds "
    "(from memory)",
}


def resistance_table(name: str, section: Section, used: Sequence[Use], changes: str = "") -> Table | None:
    """Resistance to each action alone in the first material, γM = 1; None where that has no proof stress.

    used : the section's uses; a note names the materials that the table is not for.
    changes : what was changed of the section of that name, in words.
    """
    material = used[0].material
    if material.proof is None:
        return None
    rows = tuple(_row(section, material, *action) for action in _ACTIONS)
    notes = [
        f"For proof stress {material.proof:g} MPa of {material.name}, no partial factor; one action at a time, "
        "moments about the centroid and compression at the centroid of what counts.",
        f"Basis: {_BASIS[plate_rules(material)]}."
        if section.plates
        else "No walls are known: if there are any, they are taken as class 1 or 2.",
    ]
    others = [grade for use in used for grade in use.materials if grade != material.name]
    if others:
        notes.append(f"Not for members in {', '.join(dict.fromkeys(others))}.")
    if any(part.lip for part in section.plates):
        notes.append(
            "Narrow flanges and lips are taken to hold the edges beside them: distortional buckling is out."
        )
    if section.plates:
        notes.append("Shear buckling and column buckling are out.")
    columns = (
        Column("action"),
        Column("class", digits=0),
        Column("decided by", width=46),
        Column("by"),
        Column("resistance", significant=4),
        Column("unit"),
    )
    subject = f"{name} with {changes}" if changes else name
    title = f"Section {subject}: resistance in {material.name}"
    return Table(f"resistance_{name}", title, columns, rows, tuple(notes))


def _row(section: Section, material: Material, action: str, place: int, sign: float) -> tuple[Cell, ...]:
    forces = np.zeros((6, 1))
    forces[place] = sign
    demand = plastic_demand(section, material, forces, np.zeros(1))
    number, part = int(demand.number[0]), int(demand.plate[0])
    wall = describe_wall(section, section.plates[part]) if section.plates and number > 1 else ""
    value, method = _resistance(section, material, forces, number, float(demand.stress[0]))
    unit, scale = ("kN", 1e-3) if place == 0 else ("kN·m", 1e-6)
    return (
        action,
        number if section.plates else None,
        wall or "-",
        method,
        None if value is None else value * scale,
        unit,
    )


def _resistance(
    section: Section, material: Material, forces: Array, number: int, plastic: float
) -> tuple[float | None, str]:
    """Factor on a unit action [N or N·mm], and the method; `plastic` is the yield stress that the action asks for."""
    proof = material.proof or 0.0
    form = section.von_mises_form
    a, b = np.triu_indices(6)
    elastic = proof / float(np.sqrt((form @ (forces[a] * forces[b])).max()))
    if number <= 2:
        if (material.elongation or 0.0) < LEAST_ELONGATION:
            return elastic, "first yield"
        return max(elastic, proof / plastic), "plastic"
    if number == 3:
        return elastic, "first yield"
    if plate_rules(material) != "steel" or section.midline is None:
        return None, "not worked out"
    try:
        found = effective_section(
            section.midline, forces[[0, 4, 5], 0].tolist(), proof, material.E, material.nu
        )
    except ValueError:
        return None, "not worked out"
    return min(elastic, found.factor), "effective section"
