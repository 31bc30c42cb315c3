"""How far each load case may grow before the first check reaches its limit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from loadpath.checks.analysis import Analysis, Solved, gathered
from loadpath.checks.kinds import IN_LOAD_CASES
from loadpath.checks.row import CheckRow
from loadpath.frame import solve_system
from loadpath.model import LoadCase

CLOSE = 1e-3
"""How close to 1 the utilisation at a capacity that was solved for is."""
LARGEST = 100.0
_ROUNDS = 6


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


def capacities(analysis: Analysis, rows: Sequence[CheckRow]) -> list[Capacity]:
    """One record for each load case.

    Where everything in the case grows with the factor, utilisations grow in proportion: column buckling too. Where
    something does not (wind-up and twist of the pose, the push of a stop or damper, a force table, a settlement), the
    case is solved again with more of its loads until the first check is at its limit, the pose staying as it is.
    Where the pose follows from the load (a bar twists with the roll), the smaller of this and growth in proportion
    stands.
    Rows that are not valid cannot be counted; `reason` names them.
    """
    judged, invalid = _by_case(rows)
    found = {
        case.name: _in_proportion(case, judged.get(case.name, []), invalid.get(case.name, []))
        for case in analysis.cases
    }
    fixed = {c: _fixed(*analysis.at(c)) for c in analysis.shown}
    again = {c: what for c, what in fixed.items() if what and found[analysis.cases[c].name].first}
    for c, capacity in _solved_again(analysis, again, rows).items():
        follows = _pose_follows(analysis.cases[c])
        found[capacity.case] = _smaller(found[capacity.case], capacity) if follows else capacity
    return list(found.values())


def _by_case(rows: Iterable[CheckRow]) -> tuple[dict[str, list[CheckRow]], dict[str, list[str]]]:
    """Judged rows, and subjects that are not valid, by load case."""
    judged: dict[str, list[CheckRow]] = {}
    invalid: dict[str, list[str]] = {}
    for row in rows:
        if row.case and row.utilisation and row.verdict in ("holds", "exceeds"):
            judged.setdefault(row.case, []).append(row)
        elif row.case and row.verdict == "not valid":
            invalid.setdefault(row.case, []).append(row.subject)
    return judged, invalid


def _in_proportion(case: LoadCase, judged: Sequence[CheckRow], invalid: Sequence[str]) -> Capacity:
    first = max(judged, key=_utilisation, default=None)
    return _capacity(case, 1.0 / _utilisation(first) if first else None, first, _without(invalid))


def _pose_follows(case: LoadCase) -> bool:
    """Whether more of the load would put the wheels elsewhere."""
    return case.pose is not None and case.pose.by in ("from load", "from roll")


def _smaller(in_proportion: Capacity, again: Capacity) -> Capacity:
    """The smaller of two capacities of a load case; the one that was solved again where only that tells why."""
    if again.factor is None or in_proportion.factor is None or again.factor <= in_proportion.factor:
        return again
    reason = f"everything growing with it, pose included; {again.factor:.2f} with the pose staying"
    return replace(in_proportion, reason="; ".join(t for t in (in_proportion.reason, reason) if t))


def _without(invalid: Sequence[str]) -> str:
    """What a capacity leaves out, in words."""
    return f"without {', '.join(dict.fromkeys(invalid))}, not valid" if invalid else ""


def _capacity(case: LoadCase, factor: float | None, first: CheckRow | None, reason: str) -> Capacity:
    size = (case.size[0], case.size[1] * factor) if case.size and factor else None
    return Capacity(case.name, factor, first, size, reason)


def _utilisation(row: CheckRow | None) -> float:
    return 0.0 if row is None else row.utilisation or 0.0


def _fixed(solved: Solved, k: int) -> str:
    """What in a load case does not grow with it, in words; "" where all does."""
    model, case, pose = solved.model, solved.solution.cases[k], solved.model.pose
    pushes = [e.name for e in model.force_elements.values() if not e.locked and e.force]
    strained = pose is not None and any(w.any() for w in (*pose.windup.values(), *pose.twist.values()))
    words = [f"the push of {', '.join(pushes)}"] if pushes else []
    words += ["wind-up and twist of the pose"] if strained and case.strain else []
    words += ["a settlement"] if case.settlements else []
    words += ["force tables"] if solved.solution.system.springs.curves else []
    return " and ".join(words)


@dataclass(frozen=True)
class _Try:
    """A load case under factor times its loads: its worst row of each judged kind and subject, what is not valid."""

    factor: float
    rows: Mapping[tuple[str, str], CheckRow]
    invalid: tuple[str, ...]

    @property
    def worst(self) -> CheckRow | None:
        return max(self.rows.values(), key=_utilisation, default=None)

    @property
    def done(self) -> bool:
        return abs(_utilisation(self.worst) - 1) <= CLOSE


def _solved_again(
    analysis: Analysis, fixed: Mapping[int, str], rows: Iterable[CheckRow]
) -> dict[int, Capacity]:
    """Capacities of load cases in which something does not grow: all of them solved at once, a few times over."""
    names = {c: analysis.cases[c].name for c in fixed}
    as_given = _tries(dict.fromkeys(names.values(), 1.0), rows)
    bare = _tries(*_grown(analysis, dict.fromkeys(fixed, 0.0))) if fixed else {}
    tried = {c: [bare[name], as_given[name]] for c, name in names.items()}
    for _ in range(_ROUNDS):
        open_ = {c: _next(*tried[c][-2:]) for c in fixed if not tried[c][-1].done}
        open_ = {c: factor for c, factor in open_.items() if 0 < factor < LARGEST}
        if not open_:
            break
        more = _tries(*_grown(analysis, open_))
        for c in open_:
            if not tried[c][-1].rows:
                tried[c].pop()  # nothing can be drawn through a try that was refused
            tried[c].append(more[names[c]])
    return {c: _told(analysis.cases[c], what, tried[c][-1]) for c, what in fixed.items()}


def _told(case: LoadCase, what: str, last: _Try) -> Capacity:
    if not last.done:
        reason = f"no factor on its loads was found that brings the first check to 1.00, {what} staying"
        return _capacity(case, None, None, reason)
    reason = f"solved again with more of its loads, {what} staying"
    return _capacity(
        case, last.factor, last.worst, "; ".join(t for t in (_without(last.invalid), reason) if t)
    )


def _tries(factors: Mapping[str, float], rows: Iterable[CheckRow]) -> dict[str, _Try]:
    """What came out under the factor on each load case, by its name."""
    judged, invalid = _by_case(rows)
    made: dict[str, _Try] = {}
    for name, factor in factors.items():
        worst: dict[tuple[str, str], CheckRow] = {}
        for row in judged.get(name, []):
            worst[row.kind, row.subject] = max(row, worst.get((row.kind, row.subject), row), key=_utilisation)
        made[name] = _Try(factor, worst, tuple(invalid.get(name, ())))
    return made


def _next(before: _Try, last: _Try) -> float:
    """The least factor that a straight line through two tries takes one of the subjects to 1."""
    if not last.rows:
        return (before.factor + last.factor) / 2
    roots = [LARGEST]
    for key, row in last.rows.items():
        u0, u1 = _utilisation(before.rows.get(key)), _utilisation(row)
        rise = (u1 - u0) / (last.factor - before.factor)
        if rise > 0:
            roots.append(last.factor + (1 - u1) / rise)
    return min(roots)


def _grown(analysis: Analysis, factors: Mapping[int, float]) -> tuple[dict[str, float], Iterator[CheckRow]]:
    """Factors by name, and rows of some load cases with their loads times a factor each, the pose as it is."""
    parts = []
    for solved in analysis.solved:
        own = [(k, c) for k, c in enumerate(solved.numbers) if c in factors]
        if own:
            cases = [_times(solved.solution.cases[k], factors[c]) for k, c in own]
            parts.append(([c for _, c in own], solve_system(solved.solution.system, cases)))
    grown = gathered(analysis.model, parts, ())
    names = {analysis.cases[c].name: factor for c, factor in factors.items()}
    return names, (row for check in IN_LOAD_CASES for row in check(grown))


def _times(case: LoadCase, factor: float) -> LoadCase:
    """A load case with factor times its loads, masses and roll."""
    return replace(
        case,
        field=case.field * factor,
        loads=tuple(replace(p, force=p.force * factor, moment=p.moment * factor) for p in case.loads),
        line_loads=tuple(replace(p, force=p.force * factor) for p in case.line_loads),
        part_fields={part: field * factor for part, field in case.part_fields.items()},
        roll=case.roll * factor,
    )
