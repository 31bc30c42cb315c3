"""`loadpath compliance`: how wheels give way in toe, camber and position, and what gives way."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from loadpath.case import Case, read_case
from loadpath.cli.common import check_picture, default_lines, head, print_tables, say, write_files
from loadpath.cli.failures import Failure, unknown
from loadpath.cli.places import check_places
from loadpath.compliance import (
    TOGETHER,
    Loaded,
    Ride,
    Shares,
    posed_at,
    reciprocity,
    shares_of,
    singles_of,
    standing_wheels,
)
from loadpath.frame import FrameError
from loadpath.pose import PoseError
from loadpath.report import BLIND, CAUTION, Table, axes_line, wrapped
from loadpath.report.giving import (
    SAME,
    answers_table,
    brought_table,
    compliance_lines,
    draw_brought,
    figures_table,
    single_table,
)

CLOSE = 1e-6
"""Relative difference of a movement and its reverse above which nothing is shown."""
FEW = 5
"""Single things shown for each figure; files have all."""


@dataclass(frozen=True)
class Wish:
    """What of the compliance is asked for: the options of `loadpath compliance`."""

    loaded: str = "together"
    jounce: float = 0.0
    rack: float = 0.0
    locked: bool = False
    each: bool = False
    picture: Path | None = None


def print_compliance(path: Path, wish: Wish, csv: Path | None, json: Path | None) -> None:
    """Print answers, figures and shares in one pose; write every loading and every single thing."""
    how = next((w for w in TOGETHER if w == wish.loaded), None)
    if how is None:
        raise unknown("way to load the wheels", wish.loaded, list(TOGETHER))
    if wish.picture is not None:
        check_picture(wish.picture)
    case = read_case(path)
    check_places(path, case.model, wish.jounce, wish.rack)
    try:
        model = posed_at(case.model, wish.jounce, wish.rack)
        ride = standing_wheels(model, case.model, locked=wish.locked)
        shares = shares_of(ride.model)
        singles = shares_of(ride.model, singles_of(ride.model)) if wish.each or csv or json else None
    except (FrameError, PoseError) as error:
        raise Failure(f"{path.name}: {error}") from error
    if not reciprocity(ride.model, shares.base) <= CLOSE:
        raise Failure(f"{path.name}: not shown, movements at one load for another and the reverse differ")
    pose = "design height" if model.pose is None else model.pose.words()
    known = [f"Pose: {pose}.", *(f"Note: {warning}." for warning in case.warnings)]
    shown = [*_tables(ride, shares, how), *_each(singles, how, wish)]
    _report(case, known, shown, _files(ride, shares, singles), _said(case, ride, shares), csv, json)
    if wish.picture is not None:
        _draw(shares, how, f"{case.title}, {pose}" if case.title else pose, wish.picture)


def _tables(ride: Ride, shares: Shares, how: Loaded, within: float = SAME) -> list[Table]:
    return [
        answers_table(ride.model, shares.base, how, within),
        figures_table(ride.model, shares.base, how, ride, within),
        brought_table(shares, how, within),
    ]


def _each(singles: Shares | None, how: Loaded, wish: Wish) -> list[Table]:
    return [single_table(singles, how, most=FEW)] if singles is not None and wish.each else []


def _files(ride: Ride, shares: Shares, singles: Shares | None) -> list[Table]:
    """Every way of loading, each wheel by itself, and every single thing."""
    files = [t for way in TOGETHER for t in _tables(ride, shares, way, within=0.0)]
    return files + [single_table(singles, way, within=0.0) for way in TOGETHER if singles is not None]


def _said(case: Case, ride: Ride, shares: Shares) -> list[str]:
    return [*compliance_lines(ride.model, ride, shares.base), *default_lines(case), BLIND, CAUTION]


def _report(
    case: Case,
    known: list[str],
    shown: list[Table],
    files: list[Table],
    said: list[str],
    csv: Path | None,
    json: Path | None,
) -> None:
    written = write_files(files, csv, json, [case.title, case.path.name, axes_line(case.axes), *known, *said])
    say(head(case, known))
    print_tables(shown)
    say(wrapped([*written, *said]))


def _draw(shares: Shares, how: Loaded, heading: str, picture: Path) -> None:
    try:
        draw_brought(shares, how, heading, picture)
    except OSError as error:
        raise Failure(f"cannot write {picture}: {error.strerror}") from error
    say(f"picture written to {picture}\n")
