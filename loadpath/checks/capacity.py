"""How far each load case may grow before the first check reaches its limit."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from loadpath.checks.analysis import Analysis
from loadpath.checks.row import CheckRow


@dataclass(frozen=True)
class Capacity:
    """Factor on a whole load case (loads, masses, roll) at which its first check reaches 1.0.

    first : the row that gets there first, None where the case has no judged row. size : what the case's own
    number becomes, such as ("g", 3.6).
    """

    case: str
    factor: float | None
    first: CheckRow | None
    size: tuple[str, float] | None


def capacities(analysis: Analysis, rows: Iterable[CheckRow]) -> list[Capacity]:
    """One record for each load case. Exact because the model is linear and utilisations are homogeneous."""
    worst: dict[str, CheckRow] = {}
    for row in rows:
        if row.case and row.utilisation and row.verdict in ("holds", "exceeds"):
            known = worst.get(row.case)
            if known is None or row.utilisation > (known.utilisation or 0.0):
                worst[row.case] = row
    found = []
    for case in analysis.cases:
        first = worst.get(case.name)
        factor = 1.0 / first.utilisation if first and first.utilisation else None
        size = (case.size[0], case.size[1] * factor) if case.size and factor else None
        found.append(Capacity(case.name, factor, first, size))
    return found
