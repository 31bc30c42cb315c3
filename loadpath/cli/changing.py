"""`loadpath whatif` and `loadpath compare`: a load path before and after."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from loadpath.case import Case
from loadpath.checks import Analysis, analyse_stands
from loadpath.cli.common import (
    check_picture,
    head,
    load_case_number,
    print_tables,
    read_and_analyse,
    say,
    some_shown,
    stands_of,
    statements,
    write_files,
)
from loadpath.cli.failures import Failure
from loadpath.frame import FrameError, Mechanism
from loadpath.model import Model
from loadpath.report import axes_line, self_check_lines, warning_lines, wrapped
from loadpath.report.path import (
    bodies_of,
    common_cases,
    draw_flow,
    joint_changes,
    member_changes,
    other_loads,
    share_changes,
)
from loadpath.trace import Measure, TraceError, dangling, forces_along, pick, with_stiffness, without


@dataclass(frozen=True)
class Show:
    """What of a comparison is asked for: one load case, one direction, a picture, files."""

    load_case: str | None = None
    along: str | None = None
    picture: Path | None = None
    csv: Path | None = None
    json: Path | None = None


@dataclass(frozen=True, eq=False)
class _Sides:
    """A case before, its analysis before and after, and how the two are named."""

    case: Case
    before: Analysis
    after: Analysis
    said: Sequence[str]
    measures: Sequence[Measure]


def print_whatif(path: Path, taken_out: Sequence[str], stiffness: Sequence[str], show: Show) -> None:
    """Print what others gain or lose when something is taken out or made softer."""
    if not taken_out and not stiffness:
        raise Failure("say what is different: --without NAME or --stiffness NAME=FACTOR; several allowed")
    _check_picture(show)
    case, before = read_and_analyse(path)
    some_shown(path, before)
    said, after = _changed(case, taken_out, stiffness)
    some_shown(path, after, f", {said}")
    _report(_Sides(case, before, after, ("as the case file has it", said), _measures(path, case, show)), show)


def print_compare(path: Path, other: Path, show: Show) -> None:
    """Print two cases side by side."""
    _check_picture(show)
    case, before = read_and_analyse(path)
    some_shown(path, before)
    second, after = read_and_analyse(other)
    some_shown(other, after)
    said = [f"{c.path.name}: {c.title}" for c in (case, second)]
    _report(_Sides(case, before, after, said, _measures(path, case, show)), show)


def _check_picture(show: Show) -> None:
    if show.picture is None:
        return
    check_picture(show.picture)
    if show.load_case is None:
        raise Failure("a picture shows one load case: say which with --case NAME")


def _measures(path: Path, case: Case, show: Show) -> tuple[Measure, ...]:
    try:
        return pick(forces_along(case.axes), show.along)
    except TraceError as error:
        raise Failure(f"{path.name}: {error}") from error


def _changed(case: Case, taken_out: Sequence[str], stiffness: Sequence[str]) -> tuple[str, Analysis]:
    """What was changed, in words, and the analysis of the changed case under the same load cases and poses."""
    said: list[str] = []
    try:
        model, said = _change(case.model, taken_out, stiffness)
        stands = [replace(s, model=_change(s.model, taken_out, stiffness)[0]) for s in stands_of(case)]
        after = analyse_stands(model, stands, case.targets)
    except TraceError as error:
        raise Failure(f"{case.path.name}: {error}") from error
    except FrameError as error:
        hint = _dangling_words(case.model, model) if isinstance(error, Mechanism) else ""
        raise Failure(f"{case.path.name}, {', '.join(said)}: {error}{hint}") from error
    kept = ", in the poses of the case before" if any(s.model.pose is not None for s in stands) else ""
    return ", ".join(said) + kept, after


def _dangling_words(before: Model, after: Model) -> str:
    """What to take out as well, or ""."""
    more = " ".join(f"--without {name}" for name in dangling(before, after))
    return f"\n  on one joint alone now, to be taken out as well: {more}" if more else ""


def _change(model: Model, taken_out: Sequence[str], stiffness: Sequence[str]) -> tuple[Model, list[str]]:
    """The changed model, and what was changed in words."""
    said = []
    for name in taken_out:
        model, words = without(model, name)
        said.append(words)
    for text in stiffness:
        name, factor = _factor(text)
        model, words = with_stiffness(model, name, factor)
        said.append(words)
    return model, said


def _factor(text: str) -> tuple[str, float]:
    name, _, number = text.partition("=")
    try:
        return name.strip(), float(number)
    except ValueError:
        raise Failure(f"--stiffness {text}: expected NAME=FACTOR, such as cradle.front_beam=0.5") from None


def _report(s: _Sides, show: Show) -> None:
    cases = _cases(s, show.load_case)
    sides = [(a, bodies_of(a)) for a in (s.before, s.after)]
    joints, members = joint_changes(s.before, s.after, cases), member_changes(s.before, s.after, cases)
    shares = [share_changes(sides, cases, s.measures, every) for every in (len(cases) == 1, True)]
    before = warning_lines(s.before)
    known = [
        f"Before: {s.said[0]}.",
        f"After: {s.said[1]}.",
        *_only_in("before", s.before, s.after),
        *_only_in("after", s.after, s.before),
        *_other_loads(s, cases),
        *before,
        *(f"After: {line}" for line in warning_lines(s.after) if line not in before),
    ]
    told = [*(f"After: {line}" for line in self_check_lines(s.after)), *statements(s.case, s.before)]
    drawn = [] if show.picture is None else [_draw(s, show, show.picture)]
    files = [shares[1], joints[1], members[1]]
    first = [s.case.title, axes_line(s.case.axes), *known, *told]
    written = write_files(files, show.csv, show.json, first)
    say(head(s.case, known))
    print_tables([shares[0], joints[0], members[0]])
    say(wrapped([*drawn, *written, *told]))


def _only_in(when: str, here: Analysis, there: Analysis) -> list[str]:
    """Load cases that only one side may show: they are not compared."""
    both = common_cases(here, there)
    names = [here.cases[c].name for c in here.shown if here.cases[c].name not in both]
    return [f"Not compared, only {when}: {', '.join(names)}."] if names else []


def _other_loads(s: _Sides, cases: Sequence[str]) -> list[str]:
    names = other_loads(s.before, s.after, cases)
    return (
        [f"Warning: loads or field are not the same before and after: {', '.join(names)}."] if names else []
    )


def _cases(s: _Sides, load_case: str | None) -> list[str]:
    if load_case is not None:
        load_case_number(s.before, load_case)
        load_case_number(s.after, load_case)
        return [load_case]
    both = common_cases(s.before, s.after)
    if not both:
        before, after = (", ".join(c.name for c in side.cases) for side in (s.before, s.after))
        raise Failure(
            f"no load case of one name to be shown before and after; before: {before}; after: {after}"
        )
    return both


def _draw(s: _Sides, show: Show, picture: Path) -> str:
    sides = {
        f"{when}. ": (a, bodies_of(a), load_case_number(a, str(show.load_case)))
        for when, a in (("Before", s.before), ("After", s.after))
    }
    try:
        draw_flow(sides, s.measures, picture)
    except TraceError as error:
        raise Failure(f"no picture {picture}: {error}") from error
    except OSError as error:
        raise Failure(f"cannot write {picture}: {error.strerror}") from error
    return f"Picture written to {picture}."
