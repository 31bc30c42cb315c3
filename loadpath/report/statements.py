"""What every output says beside its numbers: signs, defaults, self-checks, limits and the caution."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from loadpath.checks import Analysis
from loadpath.model import Axes

CAUTION = (
    "CAUTION: a screening result for chassis parts whose failure can kill. Not a release for manufacture or "
    "road use: confirm by detailed analysis and physical test, follow the codes where the vehicle is used, and "
    "have it signed off by a qualified (where required, licensed) engineer."
)
BLIND = (
    "A beam model does not see brackets, local weld toes, casting nodes, sheet that gives locally, or contact. "
    "Load-case factors are quasi-static; fatigue, welds, bolts, bushings and ball joints are not judged here."
)
SIGNS = (
    "Forces at joints act on the second part named; forces at mounts act on the body. Section forces act on the "
    "face that looks along the member's path: N tension positive; y, z are the section's axes, z towards "
    "the member's up, y = z × x; moments are right-handed about x, y, z."
)


def axes_line(axes: Axes) -> str:
    """Which way the axes of the case file point."""
    words = (("forward", axes.forward), ("left", axes.left), ("up", axes.up))
    parts = []
    for word, vector in words:
        k = int(np.abs(vector).argmax())
        parts.append(f"{word} {'+' if vector[k] > 0 else '-'}{'xyz'[k]}")
    return (
        "Axes of the case file: "
        + ", ".join(parts)
        + ". Units: mm, N, MPa, kg unless a heading says otherwise."
    )


def self_check_lines(analysis: Analysis) -> list[str]:
    """Self-checks of all load cases in a few lines."""
    checks = analysis.checks
    if not checks:
        return []
    worst = max(checks, key=lambda c: c.equilibrium)
    balance = max(checks, key=lambda c: c.balance)
    turn = max(checks, key=lambda c: c.rotation)
    lines = [
        f"Self-checks: recovered forces close on every part to {worst.equilibrium:.0e} ({worst.worst_part}, "
        f"{worst.case}); wheels, masses and mounts balance to {balance.balance:.0e}; condition "
        f"{analysis.solution.system.condition:.0e}; largest rotation {np.degrees(turn.rotation):.1f} degrees "
        f"({turn.rotating_part}, {turn.case})."
    ]
    spins = analysis.solution.system.spins
    if spins:
        lines.append("Idle spins held, no load on them: " + ", ".join(s.part for s in spins) + ".")
    if analysis.solution.redundant:
        names = ", ".join(sorted(analysis.solution.redundant))
        lines.append(f"Not determinate one by one, only their sum: forces at {names}.")
    lines += [f"Warning: {w}." for w in merged_warnings(analysis)]
    lines += [f"REFUSED, not shown as a result: {c.case}: {r}." for c in checks for r in c.refusals]
    return lines


def merged_warnings(analysis: Analysis) -> list[str]:
    """Warnings of all load cases, those of one kind together."""
    merged: dict[str, list[str]] = {}
    for check in analysis.checks:
        for warning in check.warnings:
            merged.setdefault(warning, []).append(check.case)
    return [f"{warning} ({', '.join(cases)})" for warning, cases in merged.items()]


def wrapped(lines: Sequence[str], width: int = 108) -> str:
    """Lines broken at spaces, continued with two spaces."""
    import textwrap

    return "\n".join(textwrap.fill(line, width, subsequent_indent="  ") for line in lines) + "\n"
