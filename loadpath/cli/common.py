"""What several commands do: read, analyse, print tables, write files, close with the statements."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from loadpath.case import Case, read_case
from loadpath.checks import Analysis, analyse
from loadpath.cli.failures import Failure
from loadpath.loads import build
from loadpath.report import (
    BLIND,
    CAUTION,
    SIGNS,
    Table,
    as_text,
    axes_line,
    self_check_lines,
    wrapped,
    write,
)


def say(text: str) -> None:
    """Print text as it is."""
    sys.stdout.write(text)


def read_and_analyse(path: Path) -> tuple[Case, Analysis]:
    """The case and its analysis under all its load cases."""
    case = read_case(path)
    load_cases = build(case.load_specs, case.vehicle, case.model)
    if not load_cases:
        raise Failure(f"{path.name}: no load cases; write at least one [load_cases.NAME] table")
    return case, analyse(case.model, load_cases, case.targets)


def head(case: Case) -> str:
    """Title, file and axes."""
    return f"{case.title}\n{case.path.name}\n" + wrapped([axes_line(case.axes)]) + "\n"


def print_tables(tables: Sequence[Table]) -> None:
    """Tables one after another; empty ones are left out."""
    for table in tables:
        if not table.rows:
            continue
        say(as_text(table) + "\n")


def close(case: Case, analysis: Analysis) -> None:
    """Self-checks, signs, what was assumed, limits and the caution."""
    lines = [*self_check_lines(analysis), SIGNS, *default_lines(case)]
    if case.overrides:
        lines.append("Written over a generated twin: " + ", ".join(case.overrides) + ".")
    lines += [f"Note: {warning}" for warning in case.warnings]
    say(wrapped([*lines, BLIND, CAUTION]))


def default_lines(case: Case, of: str = "") -> list[str]:
    """Defaults that were used, of keys that begin with `of`; those with the same key and value together."""
    groups: dict[tuple[str, str], list[str]] = {}
    for path, value in case.defaults:
        if not path.startswith(of):
            continue
        keys = path.split(".")
        pattern = ".".join([keys[0], "*", *keys[2:]]) if len(keys) > 2 else path
        groups.setdefault((pattern, value), []).append(keys[1] if len(keys) > 2 else "")
    shown = []
    for (pattern, value), names in groups.items():
        if names == [""]:
            shown.append(f"{pattern} = {value}")
            continue
        of = ", ".join(names) if len(names) <= 3 else f"{len(names)} entries"
        shown.append(f"{pattern} = {value} ({of})")
    return ["Defaults used: " + "; ".join(shown) + "."] if shown else []


def write_files(tables: Sequence[Table], csv: Path | None, json: Path | None) -> None:
    """Write the tables where asked, and say where."""
    for folder, kind in ((csv, "csv"), (json, "json")):
        if folder is None:
            continue
        try:
            written = write(tables, folder, kind)
        except OSError as error:
            raise Failure(f"cannot write into {folder}: {error.strerror}") from error
        say(f"{len(written)} {kind} files written to {folder}\n")
