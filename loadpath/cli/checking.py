"""`loadpath check`."""

from __future__ import annotations

from pathlib import Path

from loadpath.checks import capacities, run_checks
from loadpath.cli.common import close, head, print_tables, read_and_analyse, say, write_files
from loadpath.report import (
    all_checks_table,
    balance_table,
    load_case_table,
    mass_table,
    stiffness_table,
    verdict_table,
    wheel_load_table,
)


def print_check(path: Path, csv: Path | None, json: Path | None) -> int:
    """Print the verdicts; the exit code is 1 when anything exceeds."""
    case, analysis = read_and_analyse(path)
    rows = run_checks(analysis)
    cases = load_case_table(analysis, capacities(analysis, rows))
    stiffness, masses = stiffness_table(analysis), mass_table(analysis)
    say(head(case))
    print_tables([verdict_table(rows), cases, stiffness, masses])
    files = [all_checks_table(rows), cases, stiffness, masses]
    write_files([*files, wheel_load_table(analysis), balance_table(analysis)], csv, json)
    close(case, analysis)
    return int(any(r.verdict == "exceeds" for r in rows))
