"""Tables of section forces and stress in members: one load case, or the governing one."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from loadpath.checks import Analysis
from loadpath.frame import section_forces
from loadpath.report.table import Cell, Column, Table

_ACTIONS = (
    Column("N", "kN", 2),
    Column("Vy", "kN", 2),
    Column("Vz", "kN", 2),
    Column("T", "N·m", 0),
    Column("My", "N·m", 0),
    Column("Mz", "N·m", 0),
)
_FINE = np.linspace(0.0, 1.0, 21)


def member_table(analysis: Analysis, cases: Sequence[int], name: str) -> Table:
    """Largest section forces of each member with their place, and the stress peak, for each given case."""
    forces = analysis.together(lambda s: section_forces(s.solution, _FINE))
    elements, peaks = analysis.elements, analysis.peaks
    rows: list[tuple[Cell, ...]] = []
    for stretch in analysis.members:
        index = stretch.elements
        for c in cases:
            own = forces[index][:, :, :, c]
            cells: list[Cell] = []
            for a in range(6):
                e, s = np.unravel_index(int(np.abs(own[:, :, a]).argmax()), own.shape[:2])
                at = elements.start[index[e]] + _FINE[s] * elements.length[index[e]]
                cells += [float(own[e, s, a]) / 1e3, round(float(at))]
            worst = index[int(np.nan_to_num(peaks.von_mises[index, c]).argmax())]
            stress = float(peaks.von_mises[worst, c])
            place = elements.start[worst] + peaks.fraction[worst, c] * elements.length[worst]
            shown: list[Cell] = [None if np.isnan(stress) else stress, round(float(place))]
            rows.append((stretch.name, analysis.cases[c].name, *cells, *shown))
    columns = [x for a in _ACTIONS for x in (a, Column(f"{a.heading} at", "mm"))]
    return Table(
        name,
        "Members: largest section forces with their distance from the member's first point",
        (
            Column("member"),
            Column("load case"),
            *columns,
            Column("von Mises", "MPa", 0),
            Column("vM at", "mm"),
        ),
        tuple(rows),
    )


def member_envelope(analysis: Analysis) -> Table:
    """The load case and place of the largest stress of each member, with the forces there."""
    cases = analysis.shown
    elements, peaks = analysis.elements, analysis.peaks
    rows: list[tuple[Cell, ...]] = []
    for stretch in analysis.members:
        stress = peaks.von_mises[stretch.elements][:, cases]
        if np.isnan(stress).all():
            continue
        k, j = np.unravel_index(int(np.nan_to_num(stress).argmax()), stress.shape)
        e, c = stretch.elements[k], cases[j]
        fraction = peaks.fraction[e, c]
        at = elements.start[e] + fraction * elements.length[e]
        solved, own = analysis.at(c)
        forces = section_forces(solved.solution, np.array([fraction]))[e, 0, :, own] / 1e3
        name = analysis.cases[c].name
        rows.append((stretch.name, float(stress[k, j]), name, round(float(at)), *map(float, forces)))
    return Table(
        "member_envelope",
        "Members: largest von Mises stress over all load cases, and the section forces there",
        (
            Column("member"),
            Column("von Mises", "MPa", 0),
            Column("governing case"),
            Column("at", "mm"),
            *_ACTIONS,
        ),
        tuple(rows),
    )
