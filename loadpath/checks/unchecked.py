"""What no check covers, said aloud, so that silence does not pass for a pass."""

from __future__ import annotations

from collections.abc import Iterator

from loadpath.checks.analysis import Analysis
from loadpath.checks.row import CheckRow


def name_unchecked(analysis: Analysis) -> Iterator[CheckRow]:
    """Rows for brackets, joints, force elements and refused load cases."""
    model = analysis.model
    for part in model.parts.values():
        if part.brackets:
            names = ", ".join(b.point for b in part.brackets)
            yield _row("bracket", part.name, f"brackets {names}", "taken as rigid arms")
    kinds: dict[str, int] = {}
    for joint in model.joints.values():
        kinds[joint.kind] = kinds.get(joint.kind, 0) + 1
    for kind, count in kinds.items():
        yield _row("joint", f"{kind} joints", f"{count} of them", "forces are given, strength is not judged")
    if model.force_elements:
        place = ", ".join(model.force_elements)
        yield _row("strut", "springs, dampers, stops", place, "forces are given, strength is not judged")
    for check in analysis.checks:
        for reason in check.refusals:
            yield CheckRow(
                "self-check",
                check.case,
                "",
                check.case,
                None,
                None,
                "",
                None,
                "not valid",
                "self-check",
                reason,
            )


def _row(kind: str, subject: str, place: str, reason: str) -> CheckRow:
    return CheckRow(kind, subject, place, "", None, None, "", None, "not checked", "", reason)
