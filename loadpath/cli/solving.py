"""`loadpath solve`."""

from __future__ import annotations

from pathlib import Path

from loadpath.checks import Analysis
from loadpath.cli.common import load_case_number, read_and_analyse, report, some_shown
from loadpath.cli.failures import unknown
from loadpath.report import (
    Table,
    balance_table,
    joint_envelope,
    joint_table,
    member_envelope,
    member_table,
    mount_envelope,
    other_load_table,
    point_tables,
    pose_table,
    strut_table,
    wheel_load_table,
)


def print_solve(
    path: Path, load_case: str | None, at: str | None, csv: Path | None, json: Path | None
) -> None:
    """Print envelopes, or one load case in full, or everything at one point."""
    case, analysis = read_and_analyse(path, load_case)
    some_shown(path, analysis)
    if at is not None:
        report(case, analysis, _at_point(analysis, at, load_case), [], csv, json)
    elif load_case is not None:
        report(case, analysis, _one_case(analysis, load_case), [], csv, json)
    else:
        every = [joint_table(analysis, c) for c in analysis.shown]
        more = [*every, member_table(analysis, analysis.shown, "members")]
        report(case, analysis, _envelopes(analysis), more, csv, json)


def _envelopes(analysis: Analysis) -> list[Table]:
    return [
        wheel_load_table(analysis),
        other_load_table(analysis),
        balance_table(analysis),
        pose_table(analysis, analysis.shown),
        joint_envelope(analysis),
        mount_envelope(analysis),
        strut_table(analysis, analysis.shown),
        member_envelope(analysis),
    ]


def _one_case(analysis: Analysis, load_case: str) -> list[Table]:
    c = load_case_number(analysis, load_case)
    return [
        wheel_load_table(analysis),
        other_load_table(analysis),
        balance_table(analysis),
        *([pose_table(analysis, [c])] if analysis.at(c)[0].model.pose is not None else []),
        joint_table(analysis, c),
        strut_table(analysis, [c]),
        member_table(analysis, [c], f"members_{load_case}"),
    ]


def _at_point(analysis: Analysis, point: str, load_case: str | None) -> list[Table]:
    known = list(dict.fromkeys(p for _, p in analysis.solved[0].solution.system.mesh.places if p))
    if point not in known:
        raise unknown("point", point, known)
    cases = analysis.shown if load_case is None else [load_case_number(analysis, load_case)]
    return point_tables(analysis, point, cases)
