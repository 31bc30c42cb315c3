"""What every output says beside its numbers: signs, warnings, self-checks, limits and the caution."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from loadpath.checks import Analysis
from loadpath.frame import WILD, SelfCheck
from loadpath.model import Axes, in_short
from loadpath.report.overview import case_notes
from loadpath.report.posewarnings import pose_warnings

CAUTION = (
    "CAUTION: a screening result for chassis parts whose failure can kill. Not a release for manufacture or "
    "road use: confirm by detailed analysis and physical test, follow the codes where the vehicle is used, and "
    "have it signed off by a qualified (where required, licensed) engineer."
)
BLIND = (
    "A beam model does not see brackets, local weld toes, casting nodes, sheet that gives or buckles locally, or "
    "contact. Load-case factors are quasi-static; fatigue, welds, bolts, bushings and ball joints are not judged "
    "here."
)
RIGID = (
    "Kinematics of rigid parts: bushings are balls at their centres unless the case says otherwise; nothing gives, "
    "so that toe and camber by load, tyre deflection and play are not in it. Joints and "
    "half-shafts are judged only where the case gives their limits."
)
SIGNS = (
    "Forces at joints act on the second part named; forces at mounts act on the body. Section forces act on the "
    "face that looks along the member's path: N tension positive; y, z are the section's axes, z towards "
    "the member's up, y = z × x; moments are right-handed about x, y, z. A push is compression."
)


def axes_line(axes: Axes) -> str:
    """Which way the axes of the case file point."""
    words = (("forward", axes.forward), ("left", axes.left), ("up", axes.up))
    parts = []
    for word, vector in words:
        k = int(np.abs(vector).argmax())
        parts.append(f"{word} {'+' if vector[k] > 0 else '-'}{'xyz'[k]}")
    return "Axes of the case file: " + ", ".join(parts) + ". Units stand in the headings."


def warning_lines(analysis: Analysis) -> list[str]:
    """What the reader must know before the numbers: refusals, warnings, notes of the load cases."""
    warned: dict[str, list[str]] = {}
    for check in analysis.checks:
        for text in check.warnings:
            warned.setdefault(text, []).append(check.case)
    lines = [f"REFUSED, not shown as a result: {line}." for line in refusals_once(analysis)]
    lines += [f"Warning: {in_short(cases)}: {text}." for text, cases in warned.items()]
    turns = [f"{check.case} {_turns(check)}" for check in analysis.checks if check.turning]
    if turns:
        lines.append(
            "Warning: beyond 5 degrees of rotation the geometry of the undeformed pose no longer holds: "
            + ", ".join(turns)
            + "."
        )
    lines += pose_warnings(analysis)
    return lines + [f"Note: {note}." for note in case_notes(analysis)]


def refusals_once(analysis: Analysis) -> list[str]:
    """Each reason for which load cases are not shown, once, with their names.

    Of parts that turn wildly only the angles differ: they are told of the load case in which they are largest.
    """
    same: dict[str, list[str]] = {}
    wild: dict[str, SelfCheck] = {}
    for check in analysis.checks:
        for text in check.refusals:
            if text.endswith(WILD):
                wild[check.case] = check
            else:
                same.setdefault(text, []).append(check.case)
    lines = [f"{in_short(cases)}: {text}" for text, cases in same.items()]
    if wild:
        worst = max(wild.values(), key=lambda check: check.rotation)
        text = next(text for text in worst.refusals if text.endswith(WILD))
        where = f", in {worst.case}" if len(wild) > 1 else ""
        lines.append(f"{in_short(wild)}: {text.removesuffix(f': {WILD}')}{where}: {WILD}")
    return lines


def _turns(check: SelfCheck) -> str:
    """The largest angle and the part that turns by it."""
    part, angle = check.turning[0]
    more = f" and {len(check.turning) - 1} more" if len(check.turning) > 1 else ""
    return f"{np.degrees(angle):.1f} ({part}{more})"


def self_check_lines(analysis: Analysis) -> list[str]:
    """Self-checks of all load cases in a few lines."""
    checks = analysis.checks
    if not checks:
        return []
    worst = max(checks, key=lambda c: c.equilibrium)
    balance = max(c.balance for c in checks)
    systems = [solved.solution.system for solved in analysis.solved]
    lines = [
        f"Self-checks: recovered forces close on every part to {worst.equilibrium:.0e} ({worst.worst_part}, "
        f"{worst.case}); loads, masses and mounts balance to {balance:.0e}; {_power_words(checks)}condition "
        f"{max(s.condition for s in systems):.0e}; largest rotation "
        f"{np.degrees(max(c.rotation for c in checks)):.1f} degrees."
    ]
    turned = {part for check in checks for part in check.idle}
    spins = [s.part for s in systems[0].spins if s.part not in turned]
    if spins:
        lines.append("Idle spins held, no load on them: " + ", ".join(spins) + ".")
    return lines


def _power_words(checks: Sequence[SelfCheck]) -> str:
    """The identity that ties poses and solutions; nothing where all load cases act at design height."""
    powers = [check.power for check in checks if check.power is not None]
    return f"power on the motion of the linkage vanishes to {max(powers):.0e}; " if powers else ""
