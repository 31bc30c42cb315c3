"""What no check covers, said aloud, so that silence does not pass for a pass."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from loadpath.checks.analysis import Analysis
from loadpath.checks.buckling import pinned_link
from loadpath.checks.row import CheckRow

FORCES_ONLY = "forces are given, strength is not judged"


def name_unchecked(analysis: Analysis) -> Iterator[CheckRow]:
    """Rows for brackets, joints, force elements, buckling of what is no link, and refused load cases."""
    model = analysis.model
    for part in model.parts.values():
        if part.brackets:
            names = ", ".join(b.point for b in part.brackets)
            yield _row("bracket", part.name, f"brackets {names}", "taken as rigid arms")
    kinds: dict[str, int] = {}
    for joint in model.joints.values():
        kinds[joint.kind] = kinds.get(joint.kind, 0) + 1
    for kind, count in kinds.items():
        yield _row("joint", f"{kind} joints", f"{count} of them", FORCES_ONLY)
    if model.force_elements:
        yield _row("strut", "springs, dampers, stops", ", ".join(model.force_elements), FORCES_ONLY)
    others = dict.fromkeys(s.part.name for s in analysis.members if not pinned_link(analysis, s))
    if others:
        reason = (
            "of parts that are no pinned link as columns; of thin walls by distortion and by shear anywhere"
        )
        yield _row("buckling", "buckling", f"members of {', '.join(others)}", reason)
    for check in analysis.checks:
        for reason in check.refusals:
            refused = _row("self-check", check.case, "", reason)
            yield replace(refused, case=check.case, verdict="not valid", basis="self-check")


def _row(kind: str, subject: str, place: str, reason: str) -> CheckRow:
    return CheckRow(
        kind=kind,
        subject=subject,
        place=place,
        case="",
        demand=None,
        allowable=None,
        unit="",
        utilisation=None,
        verdict="not checked",
        basis="",
        reason=reason,
    )
