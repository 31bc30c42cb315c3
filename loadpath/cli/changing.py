"""`loadpath whatif`: the same case with something taken out or made softer, or against another case."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from loadpath.case import Case
from loadpath.checks import Analysis, analyse
from loadpath.cli.common import (
    head,
    load_case_number,
    print_tables,
    read_and_analyse,
    say,
    some_shown,
    statements,
    write_files,
)
from loadpath.cli.failures import Failure
from loadpath.frame import FrameError
from loadpath.loads import LoadCaseError, build
from loadpath.report import (
    Table,
    axes_line,
    bodies_of,
    common_cases,
    joint_changes,
    member_changes,
    share_changes,
    warning_lines,
    wrapped,
)
from loadpath.trace import TraceError, forces_along, with_stiffness, without


@dataclass(frozen=True)
class Change:
    """What is different after: things taken out, things with another stiffness, or another case file."""

    without: Sequence[str] = ()
    stiffness: Sequence[str] = ()
    against: Path | None = None


def print_whatif(
    path: Path, change: Change, load_case: str | None, csv: Path | None, json: Path | None
) -> None:
    """Print what others gain or lose."""
    if (change.against is None) == (not change.without and not change.stiffness):
        raise Failure(
            "say what is different: --without NAME, --stiffness NAME=FACTOR (several of both allowed), "
            "or --against CASE"
        )
    case, before = read_and_analyse(path)
    some_shown(path, before)
    if change.against is None:
        said, after = _changed(case, change)
    else:
        other, after = read_and_analyse(change.against)
        said = f"against {other.path.name}: {other.title}"
        some_shown(change.against, after)
    _report(case, before, after, said, _cases(path, before, after, load_case), csv, json)


def _cases(path: Path, before: Analysis, after: Analysis, load_case: str | None) -> list[str]:
    both = common_cases(before, after)
    if load_case is not None:
        load_case_number(before, load_case)
        load_case_number(after, load_case)
        return [load_case]
    if not both:
        raise Failure(f"{path.name}: no load case may be shown on both sides")
    return both


def _changed(case: Case, change: Change) -> tuple[str, Analysis]:
    """What was changed, in words, and the analysis of the changed case under the same load cases."""
    model, said = case.model, []
    try:
        for name in change.without:
            model, words = without(model, name)
            said.append(words)
        for text in change.stiffness:
            name, factor = _factor(text)
            model, words = with_stiffness(model, name, factor)
            said.append(words)
        after = analyse(model, build(case.load_specs, case.vehicle, model), case.targets)
    except TraceError as error:
        raise Failure(f"{case.path.name}: {error}") from error
    except (FrameError, LoadCaseError) as error:
        raise Failure(f"{case.path.name}, {', '.join(said)}: {error}") from error
    return ", ".join(said), after


def _factor(text: str) -> tuple[str, float]:
    name, _, number = text.partition("=")
    try:
        return name.strip(), float(number)
    except ValueError:
        raise Failure(f"--stiffness {text}: expected NAME=FACTOR, such as cradle.front_beam=0.5") from None


def _report(
    case: Case,
    before: Analysis,
    after: Analysis,
    said: str,
    cases: list[str],
    csv: Path | None,
    json: Path | None,
) -> None:
    sides = [(a, bodies_of(a)) for a in (before, after)]
    measures = forces_along(case.axes)
    joints, members = joint_changes(before, after, cases), member_changes(before, after, cases)
    shares = [share_changes(sides, cases, measures, every) for every in (len(cases) == 1, True)]
    shown: list[Table] = [shares[0], joints[0], members[0]]
    known = [
        f"Before: {case.title}.",
        f"After: {said}.",
        *warning_lines(before),
        *(f"After: {line}" for line in warning_lines(after) if line not in warning_lines(before)),
    ]
    told = statements(case, before)
    files = [shares[1], joints[1], members[1]]
    written = write_files(files, csv, json, [case.title, axes_line(case.axes), *known, *told])
    say(head(case, known))
    print_tables(shown)
    say(wrapped([*written, *told]))
