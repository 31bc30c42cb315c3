"""`loadpath solve`."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from loadpath.checks import Analysis
from loadpath.cli.common import close, head, print_tables, read_and_analyse, say, write_files
from loadpath.cli.failures import Failure, unknown
from loadpath.report import (
    Table,
    balance_table,
    joint_envelope,
    joint_table,
    member_envelope,
    member_table,
    mount_envelope,
    point_tables,
    shown_cases,
    strut_table,
    wheel_load_table,
)


def print_solve(
    path: Path, load_case: str | None, at: str | None, csv: Path | None, json: Path | None
) -> None:
    """Print envelopes, or one load case in full, or everything at one point."""
    case, analysis = read_and_analyse(path)
    if at is not None:
        tables = _at_point(analysis, at, load_case)
    elif load_case is not None:
        tables = _one_case(analysis, load_case)
    else:
        tables = _envelopes(analysis)
    say(head(case))
    print_tables(tables)
    everything = [joint_table(analysis, c) for c in shown_cases(analysis)]
    members = member_table(analysis, shown_cases(analysis), "members")
    write_files(tables if at or load_case else [*tables, *everything, members], csv, json)
    close(case, analysis)


def _envelopes(analysis: Analysis) -> list[Table]:
    return [
        wheel_load_table(analysis),
        balance_table(analysis),
        joint_envelope(analysis),
        mount_envelope(analysis),
        strut_table(analysis, shown_cases(analysis)),
        member_envelope(analysis),
    ]


def _index(analysis: Analysis, load_case: str) -> int:
    names = [case.name for case in analysis.cases]
    if load_case not in names:
        raise unknown("load case", load_case, names)
    if load_case in analysis.refused:
        reasons = [r for check in analysis.checks if check.case == load_case for r in check.refusals]
        raise Failure("not shown, its self-check failed: " + "; ".join(reasons))
    return names.index(load_case)


def _one_case(analysis: Analysis, load_case: str) -> list[Table]:
    c = _index(analysis, load_case)
    loads = wheel_load_table(analysis)
    loads = replace(loads, rows=tuple(r for r in loads.rows if r[0] == load_case))
    notes = analysis.cases[c].notes
    return [
        replace(loads, notes=notes),
        joint_table(analysis, c),
        strut_table(analysis, [c]),
        member_table(analysis, [c], f"members_{load_case}"),
    ]


def _at_point(analysis: Analysis, point: str, load_case: str | None) -> list[Table]:
    known = list(dict.fromkeys(p for _, p in analysis.solution.system.mesh.places if p))
    if point not in known:
        raise unknown("point", point, known)
    tables = point_tables(analysis, point)
    if load_case is None:
        return tables
    _index(analysis, load_case)
    return [replace(t, rows=tuple(r for r in t.rows if load_case in r)) for t in tables]
