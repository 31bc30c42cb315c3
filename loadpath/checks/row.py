"""The one row of every check."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Verdict = Literal["exceeds", "not valid", "not checked", "holds"]


@dataclass(frozen=True)
class CheckRow:
    """What was checked, where, against what, and how it came out.

    Attributes
    ----------
    kind : which check made it, such as "member stress".
    subject : what is judged, such as "cradle.rail_l".
    place : where on it, in words.
    case : load case, "" where there is none.
    demand, allowable : in `unit`; None where nothing could be worked out.
    utilisation : 1.0 is the limit; None where nothing could be worked out.
    verdict : "holds" up to 1.0, "exceeds" above; "not valid" where the method does not apply to the subject;
        "not checked" where nothing was worked out.
    basis : where the allowable is from.
    reason : why it is not valid or not checked, or what was assumed.
    """

    kind: str
    subject: str
    place: str
    case: str
    demand: float | None
    allowable: float | None
    unit: str
    utilisation: float | None
    verdict: Verdict
    basis: str
    reason: str = ""


_ORDER: dict[Verdict, int] = {"exceeds": 0, "not valid": 1, "holds": 2, "not checked": 3}


def judge(utilisation: float) -> Verdict:
    """Verdict of a utilisation; anything that is not a number fails."""
    return "holds" if utilisation <= 1.0 else "exceeds"


def worst_first(rows: list[CheckRow]) -> list[CheckRow]:
    """Rows by verdict, then by falling utilisation."""
    return sorted(rows, key=lambda r: (_ORDER[r.verdict], -(r.utilisation or 0.0)))


def governing(rows: list[CheckRow]) -> list[CheckRow]:
    """The worst row of each kind and subject, worst first."""
    best: dict[tuple[str, str], CheckRow] = {}
    for row in worst_first(rows):
        best.setdefault((row.kind, row.subject), row)
    return worst_first(list(best.values()))
