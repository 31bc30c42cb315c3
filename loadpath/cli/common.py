"""What several commands do: read, analyse, print tables, write files, close with the statements."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

from loadpath.case import Case, read_case
from loadpath.checks import Analysis, analyse_stands, locked_pushes
from loadpath.cli.failures import Failure, unknown
from loadpath.frame import FrameError
from loadpath.loads import build, with_parts
from loadpath.model import Stand, design_stand
from loadpath.report import (
    BLIND,
    CAUTION,
    SIGNS,
    Table,
    as_text,
    axes_line,
    refusals_once,
    self_check_lines,
    warning_lines,
    wrapped,
    write,
)

ENDINGS = (".png", ".svg")


def say(text: str) -> None:
    """Print text as it is."""
    sys.stdout.write(text)


def read_and_analyse(path: Path, only: str | None = None) -> tuple[Case, Analysis]:
    """The case and its analysis under all its load cases, or under one, whatever becomes of the others."""
    case = read_case(path)
    try:
        return case, analyse_stands(case.model, stands_of(case, only), case.targets)
    except FrameError as error:
        raise Failure(f"{path.name}: {error}") from error


def stands_of(case: Case, only: str | None = None) -> tuple[Stand, ...]:
    """The poses in which the load cases act; kinematics are brought in only where one acts in a pose.

    only : the one load case that is wanted; None for all.
    """
    load_cases = build(case.load_specs, case.vehicle, case.model)
    if only is not None:
        load_cases = {known_load_case(only, list(load_cases)): load_cases[only]}
    if not load_cases:
        raise Failure(f"{case.path.name}: no load cases; write at least one [load_cases.NAME] table")
    alone = design_stand(case.model, load_cases)
    if alone is not None:
        return (alone,)
    from loadpath.pose.errors import PoseError
    from loadpath.pose.stands import stands

    try:
        return stands(
            case.model,
            load_cases,
            lambda model, names: build(with_parts(case.load_specs, names), case.vehicle, model),
            locked_pushes,
        )
    except PoseError as error:
        raise Failure(f"{case.path.name}: {error}") from error


MOST_REASONS = 2


def some_shown(path: Path, analysis: Analysis, changed: str = "") -> None:
    """Nothing to show is told with the reasons.

    changed : what is not as in the case file, to stand behind its name.
    """
    if not analysis.shown:
        reasons = "\n  ".join(refusals_once(analysis))
        raise Failure(f"{path.name}{changed}: no load case passed its self-checks:\n  {reasons}")


def known_load_case(name: str, names: list[str]) -> str:
    """The name, where it is one of these."""
    if name not in names:
        raise unknown("load case", name, names)
    return name


def load_case_number(analysis: Analysis, name: str) -> int:
    """Number of a load case that may be shown."""
    names = [case.name for case in analysis.cases]
    known_load_case(name, names)
    if name in analysis.refused:
        reasons = [r for check in analysis.checks if check.case == name for r in check.refusals]
        raise Failure(f"{name} is not shown, its self-check failed: " + "; ".join(reasons))
    return names.index(name)


def check_picture(file: Path) -> None:
    """A file that cannot become a picture is refused before anything is worked out, printed or written."""
    if file.suffix.lower() not in ENDINGS:
        raise Failure(f"{file}: a picture ends in {' or '.join(ENDINGS)}")
    if not file.absolute().parent.is_dir():
        raise Failure(f"cannot write {file}: there is no folder {file.parent}")
    if file.is_dir():
        raise Failure(f"cannot write {file}: it is a folder")


def head(case: Case, known: Sequence[str] = ()) -> str:
    """Title, file, axes, and lines that must be known before the numbers."""
    return f"{case.title}\n{case.path.name}\n{wrapped([axes_line(case.axes), *known])}\n"


def print_tables(tables: Sequence[Table]) -> None:
    """Tables one after another; those without rows and notes are left out."""
    for table in tables:
        if table.rows or table.notes:
            say(as_text(table) + "\n")


def statements(case: Case, analysis: Analysis) -> list[str]:
    """Self-checks, signs, what was assumed, limits and the caution."""
    lines = [*self_check_lines(analysis), SIGNS, *default_lines(case)]
    if case.overrides:
        lines.append("Written over a generated twin: " + ", ".join(case.overrides) + ".")
    if case.tolerances:
        lines.append(f"{len(case.tolerances)} tolerances were read; nothing here is worked out from them.")
    return [*lines, BLIND, CAUTION]


def report(
    case: Case,
    analysis: Analysis,
    shown: Sequence[Table],
    more: Sequence[Table],
    csv: Path | None,
    json: Path | None,
) -> None:
    """Write the files that were asked for, then print: a folder that cannot be written leaves nothing behind.

    shown : tables to print and to write. more : tables only to write.
    """
    known = [*warning_lines(analysis), *(f"Note: {warning}." for warning in case.warnings)]
    said = statements(case, analysis)
    told = [case.title, case.path.name, axes_line(case.axes), *known, *said]
    written = write_files([*shown, *more], csv, json, told)
    say(head(case, known))
    print_tables(shown)
    say(wrapped([*written, *said]))


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
        listed = ", ".join(names) if len(names) <= 3 else f"{len(names)} entries"
        shown.append(f"{pattern} = {value} ({listed})")
    return ["Defaults used: " + "; ".join(shown) + "."] if shown else []


def write_files(
    tables: Sequence[Table], csv: Path | None, json: Path | None, told: Sequence[str] = ()
) -> list[str]:
    """Write the tables where asked; sentences that say where."""
    folders = {kind: folder for kind, folder in (("csv", csv), ("json", json)) if folder is not None}
    try:
        files = write(tables, folders, told)
    except OSError as error:
        raise Failure(f"cannot write {error.filename or 'the tables'}: {error.strerror}") from error
    counts = {folder: sum(file.parent == folder for file in files) for folder in folders.values()}
    return [f"{n} file{'s' * (n != 1)} written to {folder}." for folder, n in counts.items()]
