"""Before and after: joints and members of two analyses side by side, matched by name, load case by load case."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from loadpath.checks import Analysis
from loadpath.model import LoadCase
from loadpath.report.table import Cell, Column, Table
from loadpath.trace import connections

Array = NDArray[np.float64]
Values = Mapping[tuple[str, str], Array]
"""(3,) force or (1,) stress of a subject in a load case, by both names."""

MOST = 12
SAME = 1e-6


def common_cases(before: Analysis, after: Analysis) -> list[str]:
    """Load cases that may be shown of both."""
    known = {after.cases[c].name for c in after.shown}
    return [before.cases[c].name for c in before.shown if before.cases[c].name in known]


def other_loads(before: Analysis, after: Analysis, cases: Sequence[str]) -> list[str]:
    """Load cases with another field after than before, or into which other forces or moments enter."""
    sides = [{case.name: _entering(case) for case in a.cases} for a in (before, after)]
    return [c for c in cases if not np.allclose(sides[0][c], sides[1][c], rtol=SAME, atol=SAME)]


def _entering(case: LoadCase) -> Array:
    """(9,) force and moment about the origin [N, N·m] of the loads at points, and the field [N/kg]."""
    force = sum((load.force for load in case.loads), np.zeros(3))
    moments = (load.moment + np.cross(load.position, load.force) for load in case.loads)
    return np.concatenate([force, sum(moments, np.zeros(3)) / 1e3, case.field / 1e3])


def joint_changes(before: Analysis, after: Analysis, cases: Sequence[str]) -> list[Table]:
    """Size of the force at every joint and strut; one table of those that change most, one of all for files."""
    places = [{one.name: one for one in connections(a.solved[0].solution)} for a in (before, after)]
    names = list(dict.fromkeys([*places[0], *places[1]]))
    where = {n: _where([f"{p[n].source} on {p[n].target}" for p in places if n in p]) for n in names}
    values = [_forces(a, cases) for a in (before, after)]
    return _tables(
        "joint_changes", "Joints and struts: size of the force", "kN", 2, names, where, cases, values
    )


def _where(said: Sequence[str]) -> str:
    return " / ".join(dict.fromkeys(said))


def _forces(analysis: Analysis, cases: Sequence[str]) -> Values:
    return {
        (one.name, case.name): one.wrench[:3, k] / 1e3
        for solved in analysis.solved
        for one in connections(solved.solution)
        for k, case in enumerate(solved.solution.cases)
        if case.name in cases
    }


def member_changes(before: Analysis, after: Analysis, cases: Sequence[str]) -> list[Table]:
    """Largest von Mises stress of every member."""
    names = list(dict.fromkeys(m.name for a in (before, after) for m in a.members))
    values = [dict(_stresses(a, cases)) for a in (before, after)]
    return _tables("member_changes", "Members: largest von Mises stress", "MPa", 0, names, {}, cases, values)


def _stresses(analysis: Analysis, cases: Sequence[str]) -> Iterator[tuple[tuple[str, str], Array]]:
    index = {analysis.cases[c].name: c for c in analysis.shown}
    for stretch in analysis.members:
        for case in cases:
            own = analysis.peaks.von_mises[stretch.elements, index[case]]
            if not np.isnan(own).all():
                yield (stretch.name, case), np.array([np.nanmax(own)])


def _tables(
    name: str,
    title: str,
    unit: str,
    digits: int,
    names: Sequence[str],
    where: Mapping[str, str],
    cases: Sequence[str],
    values: Sequence[Values],
) -> list[Table]:
    pairs = {(n, c): [v.get((n, c)) for v in values] for n in names for c in cases}
    pairs = {key: pair for key, pair in pairs.items() if any(side is not None for side in pair)}
    sizes = {key: _apart(*pair) for key, pair in pairs.items()}
    largest = {n: max((k for k in pairs if k[0] == n), key=sizes.__getitem__, default=None) for n in names}
    least = SAME * max((float(np.linalg.norm(v)) for side in values for v in side.values()), default=0.0)
    changed = [k for k in largest.values() if k and sizes[k] > least]
    ranked = sorted(changed, key=sizes.__getitem__, reverse=True)
    rows = {key: _row(*key, where.get(key[0]), *pair) for key, pair in pairs.items()}
    columns = (
        Column("what"),
        *((Column("of / on", width=40),) if where else ()),
        Column("load case"),
        Column("before", unit, digits),
        Column("after", unit, digits),
        Column("change", unit, digits),
        Column("relative", "%", 0),
        *((Column("vector change", unit, digits),) if where else ()),
    )
    notes = [
        "One line each: the load case in which it changes most. Change: of the size; relative to before."
    ]
    if where:
        notes.append("Vector change: size of the force after less the force before, its turning included.")
    if len(ranked) < len(largest):
        notes.append(f"{len(largest) - len(ranked)} do not change.")
    if len(ranked) > MOST:
        notes.append(f"{len(ranked) - MOST} more that change less are in the files.")
    first = tuple(rows[key] for key in ranked[:MOST])
    return [
        Table(f"{name}_largest", f"{title}, what changes most", columns, first, tuple(notes)),
        Table(name, f"{title}, all load cases", columns, tuple(rows.values())),
    ]


def _apart(before: Array | None, after: Array | None) -> float:
    """Size of the difference; all of it where there is only one side."""
    sides = [side for side in (before, after) if side is not None]
    return float(np.linalg.norm(sides[0] if len(sides) == 1 else sides[1] - sides[0]))


def _row(
    name: str, case: str, where: str | None, before: Array | None, after: Array | None
) -> tuple[Cell, ...]:
    sizes = [None if side is None else float(np.linalg.norm(side)) for side in (before, after)]
    change = relative = vectors = None
    if sizes[0] is not None and sizes[1] is not None:
        change, vectors = sizes[1] - sizes[0], _apart(before, after)
        relative = 100 * change / sizes[0] if sizes[0] else None
    told = (*sizes, change, relative)
    return (name, case, *told) if where is None else (name, where, case, *told, vectors)
