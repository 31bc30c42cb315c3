"""Tables of one section: both engines beside each other, before and after a change, over a range of a dimension."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from loadpath.report.section.properties import Property, Use, properties
from loadpath.report.table import Cell, Column, Table
from sections import Comparison, Section, Shape

_AXES = (
    "y to the right, z up, seen against x; centroid and shear centre in drawing coordinates (z = 0 at the lowest "
    "face); Iyy = ∫z² dA about the centroid; I1 about the stiffer principal axis, its angle turning from y to z."
)
_OPEN = "Open section: warping rules its torsion; J alone makes it far too soft where ends are held."
_SMALL = 1e-6
"""Cw under this part of polar moment times size² is nothing to compare."""


def section_table(name: str, shape: Shape, both: Comparison, used: Sequence[Use]) -> Table:
    """Properties of a shape by the engine that serves it and by the other one, and their difference."""
    by_walls = shape.serves == "walls"
    stands, other = (both.walls, both.outline) if by_walls else (both.outline, both.walls)
    if stands is None:
        raise ValueError(f"{shape.name} has no geometry for the engine that serves it")
    others: Sequence[Property | None] = [None] * len(properties(stands, used))
    if other is not None:
        others = properties(other, used)
    rows: list[tuple[Cell, ...]] = []
    for own, beside in zip(properties(stands, used), others, strict=True):
        thin, true = (own, beside) if by_walls else (beside, own)
        difference = None if thin is None or true is None else _difference(thin, true, stands)
        rows.append((own.name, own.unit, own.value, None if beside is None else beside.value, difference))
    names = ("thin walls", "outline") if by_walls else ("outline", "thin walls")
    notes = [_AXES]
    if other is None:
        notes.append(
            f"This shape has no geometry for {names[1]}: one theory only, nothing to compare it with."
        )
    else:
        notes.append("Difference: thin-wall theory less the finite-element outline.")
        walls = shape.walls()
        if walls is not None and len(walls.seams):
            notes[-1] += " The outline fuses sheets on each other: an upper bound for J and the shear areas."
    return Table(
        f"section_{name}",
        f"Section {name}: {shape.name}",
        (
            Column("property"),
            Column("unit"),
            Column(f"by {names[0]} (used)", significant=4),
            Column(f"by {names[1]}", significant=4),
            Column("walls less outline"),
        ),
        tuple(rows),
        (*notes, *_notes(stands, used)),
    )


def change_table(name: str, said: str, before: Section, after: Section, used: Sequence[Use]) -> Table:
    """Properties before and after a change, each by the engine that serves the shape."""
    rows: list[tuple[Cell, ...]] = []
    for old, new in zip(properties(before, used), properties(after, used), strict=True):
        ratio = new.value / old.value if old.scales and old.value and new.value is not None else None
        rows.append((old.name, old.unit, old.value, new.value, ratio))
    notes = [
        _AXES,
        "Ratios of the section alone: what the frame makes of it, `loadpath check` tells once the case file has it.",
    ]
    return Table(
        f"section_{name}_changed",
        f"Section {name} with {said}",
        (
            Column("property"),
            Column("unit"),
            Column("before", significant=4),
            Column("after", significant=4),
            Column("after / before", digits=3),
        ),
        tuple(rows),
        (*notes, *_notes(after, used)),
    )


def range_table(
    name: str, key: str, unit: str, values: Sequence[float], made: Sequence[Section], used: Sequence[Use]
) -> Table:
    """Mass and every property of `RANGED` over the values of a dimension, by the engine that serves the shape."""
    found = [{p.name: p for p in properties(section, used)} for section in made]
    shown = [p for p in found[0].values() if p.name.startswith("mass ")]
    shown += [found[0][word] for word in RANGED]
    rows = [(value, *(f[p.name].value for p in shown)) for value, f in zip(values, found, strict=True)]
    return Table(
        f"section_{name}_over_{key.replace(',', '_')}",
        f"Section {name} over {key}",
        (Column(key, unit, significant=4), *(Column(p.name, p.unit, significant=4) for p in shown)),
        tuple(rows),
        tuple(_notes(made[0], used)),
    )


def in_short(table: Table) -> Table:
    """A table over a range for print: without what repeats, as the left modulus of a symmetric shape does, and
    without plastic moduli."""
    kept: dict[tuple[Cell, ...], int] = {}
    for k, column in enumerate(table.columns):
        if column.heading not in ("area", "Wpl y", "Wpl z"):
            kept.setdefault((column.unit, *(column.show(row[k]) for row in table.rows)), k)
    columns = list(kept.values())
    return replace(
        table,
        columns=tuple(table.columns[k] for k in columns),
        rows=tuple(tuple(row[k] for k in columns) for row in table.rows),
    )


RANGED = (
    "area",
    "Iyy",
    "Izz",
    "J",
    "Cw",
    "shear area y",
    "shear area z",
    "Wel y, top",
    "Wel y, bottom",
    "Wel z, right",
    "Wel z, left",
    "Wpl y",
    "Wpl z",
)
"""Properties over a range: those that mass may be plotted against."""


def _notes(section: Section, used: Sequence[Use]) -> list[str]:
    notes = [] if section.closed else [_OPEN]
    for use in used:
        grade = use.material
        if not use.members:
            notes.append(
                f"No member of the case uses this section: mass and stiffness are those of an assumed steel, "
                f"{grade.density * 1e12:.0f} kg/m³, E {grade.E:.0f} MPa, G {grade.G:.0f} MPa ({grade.source})."
            )
            continue
        left_out = ", stretches that taper to another section left out" if use.tapered else ""
        length = f"{use.length / 1e3:.2f} m in all{left_out}"
        notes.append(f"Members in {use.name}: {', '.join(use.members)}; {length}.")
    return notes


def _difference(thin: Property, true: Property, section: Section) -> str | None:
    """Thin walls less outline: a length for places, else per cent."""
    if thin.value is None or true.value is None:
        return None
    if thin.unit == "mm":
        return f"{_signed(thin.value - true.value, 2)} mm"
    size = float(np.ptp(section.box, axis=0).max())
    nothing = _SMALL * (section.Iyy + section.Izz) * (size**2 if thin.name == "Cw" else 1.0)
    if not thin.scales or (thin.name == "Cw" and abs(true.value) < nothing):
        return None
    return f"{_signed(100 * (thin.value / true.value - 1), 1)} %" if true.value else None


def _signed(value: float, digits: int) -> str:
    text = f"{value:+.{digits}f}"
    return text[1:] if float(text) == 0 else text
