"""Masses of parts, and their budgets."""

from __future__ import annotations

from collections.abc import Iterator

from loadpath.checks.analysis import Analysis
from loadpath.checks.row import CheckRow, judge
from loadpath.model import MassTarget, weights


def part_masses(analysis: Analysis) -> dict[str, float]:
    """Mass [t] of every part: its members and lumped masses; brackets, welds and fixings weigh nothing."""
    masses = dict.fromkeys(analysis.model.parts, 0.0)
    found = weights(analysis.model)
    for part, mass in zip(found.parts, found.mass, strict=True):
        masses[part] = masses.get(part, 0.0) + float(mass)
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
