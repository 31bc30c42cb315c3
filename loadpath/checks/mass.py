"""Masses of parts, and their budgets."""

from __future__ import annotations

from collections.abc import Iterator

from loadpath.checks.analysis import Analysis
from loadpath.checks.row import CheckRow, judge
from loadpath.model import MassTarget


def part_masses(analysis: Analysis) -> dict[str, float]:
    """Mass [t] of every part: its members and lumped masses; brackets, welds and fixings weigh nothing."""
    masses = dict.fromkeys(analysis.model.parts, 0.0)
    elements = analysis.solution.system.mesh.elements
    for part, mass in zip(elements.part, elements.line_mass.mean(axis=1) * elements.length, strict=True):
        masses[part] += float(mass)
    for lump in analysis.model.masses.values():
        masses[lump.part] = masses.get(lump.part, 0.0) + lump.mass
    return masses


def check_mass(analysis: Analysis) -> Iterator[CheckRow]:
    """One row for each mass budget."""
    masses = part_masses(analysis)
    for target in analysis.targets:
        if not isinstance(target, MassTarget):
            continue
        total = sum(masses[p] for p in target.parts)
        utilisation = total / target.most
        yield CheckRow(
            kind="mass",
            subject=target.name,
            place=", ".join(target.parts),
            case="",
            demand=total * 1e3,
            allowable=target.most * 1e3,
            unit="kg",
            utilisation=utilisation,
            verdict=judge(utilisation),
            basis=target.basis,
            reason="members and lumped masses; brackets, welds and fixings only where they are lumped masses",
        )
