"""`loadpath trace`: shares at the cuts, or all about one part."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from loadpath.checks import Analysis
from loadpath.cli.common import check_picture, load_case_number, read_and_analyse, report, say, some_shown
from loadpath.cli.failures import Failure
from loadpath.model import Model
from loadpath.report import Table
from loadpath.report.path import (
    Bodies,
    all_shares_table,
    bodies_of,
    by_part_table,
    closing_table,
    contribution_table,
    contributions_table,
    cut_balance_table,
    cut_table,
    draw_contributions,
    draw_flow,
    energies_of,
    energy_table,
    free_bodies_table,
    free_body_table,
    inside_table,
    through_notes,
    where_it_gives,
    where_it_goes_table,
)
from loadpath.trace import (
    Contributions,
    Cut,
    Measure,
    TraceError,
    contributions,
    cut_round,
    followable,
    forces_along,
    moments_about,
    pick,
    standard_cuts,
)

ROUNDING = 1e-9
LEAST = 1.0
"""Strain energy below this share [%] is not printed."""
MORE = (
    "One load case in full: --case NAME. One part with its free body, what comes in and which joint takes it: "
    "--part NAME. All rows: --csv DIR or --json DIR."
)


@dataclass(frozen=True)
class Question:
    """What of the load path is asked for: the options of `loadpath trace`."""

    load_case: str | None = None
    part: str | None = None
    along: str | None = None
    about: str | None = None
    toward: str | None = None
    around: Sequence[str] = ()
    picture: Path | None = None


@dataclass(frozen=True, eq=False)
class _Traced:
    """A case with what is counted, where, and the load case that is looked at."""

    analysis: Analysis
    bodies: Bodies
    cuts: Sequence[Cut]
    measures: Sequence[Measure]
    c: int | None


def print_trace(path: Path, asked: Question, csv: Path | None, json: Path | None) -> None:
    """Print the shares at every cut, or all about one part; write all rows and the picture where asked."""
    _check_picture(asked)
    case, analysis = read_and_analyse(path)
    some_shown(path, analysis)
    try:
        traced = _trace(analysis, asked)
        shown = _shares(traced) if asked.part is None else _one_part(traced, asked.part)
        more = _all_rows(traced) if csv or json else []
    except TraceError as error:
        raise Failure(f"{path.name}: {error}") from error
    said = "" if asked.picture is None else _drawn(traced, asked.part, asked.picture)
    report(case, analysis, shown, more, csv, json)
    say(said)


def _drawn(t: _Traced, part: str | None, picture: Path) -> str:
    """Draw, and say where."""
    try:
        return _draw(t, part, picture)
    except TraceError as error:
        raise Failure(f"no picture {picture}: {error}") from error
    except OSError as error:
        raise Failure(f"cannot write {picture}: {error.strerror}") from error


def _check_picture(asked: Question) -> None:
    if asked.picture is None:
        return
    check_picture(asked.picture)
    if asked.load_case is None and asked.part is None:
        raise Failure("a picture shows one load case: say which with --case NAME")


def _trace(analysis: Analysis, asked: Question) -> _Traced:
    model, bodies = analysis.model, bodies_of(analysis)
    cuts = [cut_round(model, asked.around)] if asked.around else standard_cuts(model)
    c = None if asked.load_case is None else load_case_number(analysis, asked.load_case)
    if c is None and asked.part in model.parts:
        c = max(bodies, key=lambda k: max((_size(a.wrench) for a in bodies[k][str(asked.part)]), default=0.0))
    return _Traced(analysis, bodies, cuts, _measures(model, asked), c)


def _size(wrench: np.ndarray) -> float:
    return float(np.linalg.norm(wrench[:3]))


def _measures(model: Model, asked: Question) -> tuple[Measure, ...]:
    if asked.about is not None:
        return pick(moments_about(model, asked.about, asked.toward), asked.along)
    if asked.toward is not None:
        raise Failure("--toward is the other end of a line: say with --about where the line begins")
    return pick(forces_along(model.axes), asked.along)


def _shares(t: _Traced) -> list[Table]:
    if t.c is not None:
        tables = [cut_table(t.analysis, t.bodies, cut, t.measures, t.c) for cut in t.cuts]
        return [*tables, where_it_gives(t.analysis, energies_of(t.analysis), [t.c], LEAST)]
    last = by_part_table(t.analysis, t.bodies, t.cuts[-1], t.measures)
    return [
        where_it_goes_table(t.analysis, t.bodies, t.cuts, t.measures),
        replace(last, notes=(*last.notes, MORE)),
    ]


def _one_part(t: _Traced, part: str) -> list[Table]:
    """Free body, contributions and inside of a part in the load case that was asked for, or that loads it most."""
    energies = energies_of(t.analysis)
    try:
        found = contributions(t.analysis.at(t.c or 0)[0].solution, part)
    except TraceError as error:
        if t.c is None:
            raise
        body = free_body_table(t.analysis, t.bodies, part, t.c)
        through = [replace(body, notes=(*body.notes, f"Not followed: {error}."))]
    else:
        through = [free_body_table(t.analysis, t.bodies, part, t.c or 0), *_through(t, found)]
    inside = inside_table(t.analysis, energies, part, t.c or 0)
    return [*through, *([inside] if inside.rows else [])]


def _through(t: _Traced, found: Contributions) -> list[Table]:
    told = [
        m for m in t.measures if _most(t, m, found.part) > ROUNDING * max(_most(t, m) for m in t.measures)
    ]
    tables = [contribution_table(t.analysis, found, m, t.c or 0) for m in told or t.measures]
    return [*tables[:-1], replace(tables[-1], notes=(*tables[-1].notes, *through_notes(found)))]


def _all_rows(t: _Traced) -> list[Table]:
    followed, not_followed = [], []
    pairs = [(s, part) for part in followable(t.analysis.model) for s in t.analysis.solved]
    for solved, part in pairs:
        try:
            followed.append((solved, contributions(solved.solution, part)))
        except TraceError as error:
            not_followed.append(f"Not followed: {error}.")
    through = contributions_table(t.analysis, followed)
    energies = energies_of(t.analysis)
    return [
        *(by_part_table(t.analysis, t.bodies, cut, t.measures) for cut in t.cuts if len(cut.inside) > 1),
        all_shares_table(t.analysis, t.bodies, t.cuts, t.measures),
        cut_balance_table(t.analysis, t.bodies, t.cuts, t.measures),
        free_bodies_table(t.analysis, t.bodies),
        closing_table(t.analysis, t.bodies),
        replace(through, notes=(*through.notes, *dict.fromkeys(not_followed))),
        energy_table(t.analysis, energies),
        where_it_gives(t.analysis, energies, t.analysis.shown),
    ]


def _draw(t: _Traced, part: str | None, path: Path) -> str:
    """Draw what was asked for, one panel for each measure that has something in it."""
    if t.c is None:
        raise TraceError("no load case to draw")
    if part is None:
        draw_flow({"": (t.analysis, t.bodies, t.c)}, t.measures, path)
    else:
        found = contributions(t.analysis.at(t.c)[0].solution, part)
        draw_contributions(t.analysis, found, t.measures, t.c, path)
    return f"picture written to {path}\n"


def _most(t: _Traced, measure: Measure, part: str | None = None) -> float:
    """Largest value of a measure on any part, or on one."""
    bodies = t.bodies[t.c or 0]
    own = [a for p, actions in bodies.items() if part in (None, p) for a in actions]
    return max((abs(float(measure.of(a.wrench, a.position))) for a in own), default=0.0)
