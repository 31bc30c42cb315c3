"""`loadpath compliance`: how wheels give way in toe, camber and position, and what gives way."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from loadpath.case import Case, read_case
from loadpath.cli.common import check_picture, default_lines, head, print_tables, say, write_files
from loadpath.cli.failures import Failure, unknown
from loadpath.compliance import (
    TOGETHER,
    Loaded,
    Ride,
    Shares,
    reciprocity,
    shares_of,
    singles_of,
    standing_wheels,
)
from loadpath.frame import FrameError
from loadpath.report import (
    BLIND,
    CAUTION,
    SAME,
    Table,
    answers_table,
    axes_line,
    brought_table,
    compliance_lines,
    draw_brought,
    figures_table,
    single_table,
    wrapped,
)

CLOSE = 1e-6
"""Relative difference of a movement and its reverse above which nothing is shown."""
FEW = 5
"""Single things shown for each figure; files have all."""


@dataclass(frozen=True)
class Wish:
    """What of the compliance is asked for: the options of `loadpath compliance`."""

    loaded: str = "together"
    locked: bool = False
    each: bool = False
    picture: Path | None = None


def print_compliance(path: Path, wish: Wish, csv: Path | None, json: Path | None) -> None:
    """Print answers, figures and shares of the design pose; write every loading and every single thing."""
    how = next((w for w in TOGETHER if w == wish.loaded), None)
    if how is None:
        raise unknown("way to load the wheels", wish.loaded, list(TOGETHER))
    if wish.picture is not None:
        check_picture(wish.picture)
    case = read_case(path)
    ride = standing_wheels(case.model, locked=wish.locked)
    try:
        shares = shares_of(ride.model)
        singles = shares_of(ride.model, singles_of(ride.model)) if wish.each or csv or json else None
    except FrameError as error:
        raise Failure(f"{path.name}: {error}") from error
    if not reciprocity(ride.model, shares.base) <= CLOSE:
        raise Failure(f"{path.name}: not shown, movements at one load for another and the reverse differ")
    _report(case, ride, _tables(ride, shares, how), _each(singles, how, wish), csv, json, shares, singles)
    if wish.picture is not None:
        _draw(shares, how, wish.picture)


def _tables(ride: Ride, shares: Shares, how: Loaded, within: float = SAME) -> list[Table]:
    return [
        answers_table(ride.model, shares.base, how, within),
        figures_table(ride.model, shares.base, how, ride, within),
        brought_table(shares, how, within),
    ]


def _each(singles: Shares | None, how: Loaded, wish: Wish) -> list[Table]:
    return [single_table(singles, how, most=FEW)] if singles is not None and wish.each else []


def _report(
    case: Case,
    ride: Ride,
    shown: list[Table],
    each: list[Table],
    csv: Path | None,
    json: Path | None,
    shares: Shares,
    singles: Shares | None,
) -> None:
    known = [f"Note: {warning}." for warning in case.warnings]
    said = [*compliance_lines(ride.model, ride, shares.base), *default_lines(case), BLIND, CAUTION]
    files = [t for way in TOGETHER for t in _tables(ride, shares, way, within=0.0)]
    files += [single_table(singles, way, within=0.0) for way in TOGETHER] if singles is not None else []
    written = write_files(files, csv, json, [case.title, case.path.name, axes_line(case.axes), *known, *said])
    say(head(case, known))
    print_tables([*shown, *each])
    say(wrapped([*written, *said]))


def _draw(shares: Shares, how: Loaded, picture: Path) -> None:
    try:
        draw_brought(shares, how, picture)
    except OSError as error:
        raise Failure(f"cannot write {picture}: {error.strerror}") from error
    say(f"picture written to {picture}\n")
