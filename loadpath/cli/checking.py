"""`loadpath check`."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from loadpath.checks import capacities, run_checks, unjudged
from loadpath.cli.common import load_case_number, read_and_analyse, report, say
from loadpath.report import (
    all_checks_table,
    balance_table,
    load_case_table,
    mass_table,
    other_load_table,
    pose_table,
    stiffness_table,
    verdict_table,
    wheel_load_table,
    wrapped,
)

EXCEEDS, UNJUDGED = 1, 3


def print_check(path: Path, load_case: str | None, csv: Path | None, json: Path | None) -> int:
    """Print the verdicts. The exit code is 1 when anything exceeds, else 3 when something could not be judged.

    load_case : the only one to be judged; stiffness and mass, which have none, are judged all the same.
    """
    case, analysis = read_and_analyse(path, load_case)
    rows = run_checks(analysis)
    verdicts = verdict_table(rows)
    cases = load_case_table(analysis, capacities(analysis, rows))
    poses = pose_table(analysis, range(len(analysis.cases)))
    if load_case is None:
        shown = [verdicts, cases, poses, stiffness_table(analysis), mass_table(analysis)]
    else:
        load_case_number(analysis, load_case)
        only = f"Load case {load_case} alone: the {len(case.load_specs) - 1} others are not judged here."
        shown = [replace(verdicts, notes=(only, *verdicts.notes)), cases, poses]
    more = [
        all_checks_table(rows),
        wheel_load_table(analysis),
        other_load_table(analysis),
        balance_table(analysis),
    ]
    report(case, analysis, shown, more, csv, json)
    if any(r.verdict == "exceeds" for r in rows):
        return EXCEEDS
    missing = unjudged(rows)
    if missing:
        say(wrapped([f"Nothing exceeds, but this could not be judged: {', '.join(missing)}."]))
        return UNJUDGED
    return 0
