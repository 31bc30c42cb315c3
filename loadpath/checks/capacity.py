"""How far each load case may grow before the first check reaches its limit."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from loadpath.checks.analysis import Analysis
from loadpath.checks.row import CheckRow
from loadpath.model import LoadCase


@dataclass(frozen=True)
class Capacity:
    """Factor on a whole load case (loads, masses, roll) at which its first check reaches 1.0.

    factor : None where the case has no judged row, or where `reason` says why there is none.
    first : the row that gets there first. size : what the case's own number becomes, such as ("g", 3.6).
    """

    case: str
    factor: float | None
    first: CheckRow | None
    size: tuple[str, float] | None
    reason: str


def capacities(analysis: Analysis, rows: Iterable[CheckRow]) -> list[Capacity]:
    """One record for each load case.

    Exact where everything in the case grows with the factor, because the model is linear and utilisations grow
    in proportion. Where something does not, a given push of a damper or a settlement, no factor is given.
    Column buckling is in proportion as well. Rows that are not valid cannot be counted; `reason` names them.
    """
    judged: dict[str, list[CheckRow]] = {}
    invalid: dict[str, list[str]] = {}
    for row in rows:
        if row.case and row.utilisation and row.verdict in ("holds", "exceeds"):
            judged.setdefault(row.case, []).append(row)
        elif row.case and row.verdict == "not valid":
            invalid.setdefault(row.case, []).append(row.subject)
    return [
        _capacity(analysis, case, judged.get(case.name, []), invalid.get(case.name, []))
        for case in analysis.cases
    ]


def _capacity(analysis: Analysis, case: LoadCase, judged: list[CheckRow], invalid: list[str]) -> Capacity:
    first = max(judged, key=lambda r: r.utilisation or 0.0, default=None)
    fixed = [e.name for e in analysis.model.force_elements.values() if not e.locked and e.force]
    if fixed or case.settlements:
        what = f"the push of {', '.join(fixed)}" if fixed else "a settlement"
        return Capacity(case.name, None, first, None, f"{what} does not grow with the case")
    reason = f"without {', '.join(dict.fromkeys(invalid))}, not valid" if invalid else ""
    factor = 1.0 / first.utilisation if first and first.utilisation else None
    size = (case.size[0], case.size[1] * factor) if case.size and factor else None
    return Capacity(case.name, factor, first, size, reason)
