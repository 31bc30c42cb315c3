"""`loadpath room`: what wheels and half-shafts sweep, and the room that is left for sections."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from pathlib import Path

from loadpath.case import Case, read_case
from loadpath.cli.common import check_picture, default_lines, head, print_tables, say, write_files
from loadpath.cli.failures import Failure
from loadpath.pose import Mechanism, PoseError, make_mechanism
from loadpath.report import CAUTION, axes_line, wrapped
from loadpath.report.giving import (
    all_clearances_table,
    clearance_table,
    draw_room,
    free_table,
    free_ways_table,
    is_short,
    room_lines,
)
from loadpath.room import Clearance, FreeWidth, Mover, movers_of, room_of, silhouettes_of, unknown_of


@dataclass(frozen=True)
class Asked:
    """Clearances to keep [mm] from wheels and from half-shafts, and the picture: the options of `loadpath room`."""

    wheel: float
    shaft: float
    picture: Path | None = None

    def required(self) -> dict[str, float]:
        """By kind of mover."""
        return {"wheel": self.wheel, "half-shaft": self.shaft}


def print_room(path: Path, asked: Asked, csv: Path | None, json: Path | None) -> int:
    """Print least clearances and free widths; write every row; draw plan and rear view where asked.

    Returns
    -------
    int : exit code, 1 where a clearance is less than the one asked for.
    """
    for option, value in (("--clearance", asked.wheel), ("--shaft-clearance", asked.shaft)):
        if not 0 <= value < inf:
            raise Failure(f"{option} {value:g}: a clearance is 0 mm or more")
    if asked.picture is not None:
        check_picture(asked.picture)
    case = read_case(path)
    movers, unknown = movers_of(case.model), unknown_of(case.model)
    if not movers:
        wanted = '; expected such as tyre = { size = "235/55R19" } in [wheels.NAME]'
        raise Failure(f"{path.name}: {'; '.join(unknown) + wanted if unknown else 'the case has no wheels'}")
    try:
        mechanism = make_mechanism(case.model)
        found, free = room_of(mechanism, movers, asked.required())
        _report(case, found, free, asked, csv, json)
        if asked.picture is not None:
            _draw(case, mechanism, movers, found, asked.picture)
    except PoseError as error:
        raise Failure(f"{path.name}: {error}") from error
    return 1 if any(is_short(c, asked.required()) for c in found) else 0


def _report(
    case: Case,
    found: tuple[Clearance, ...],
    free: tuple[FreeWidth, ...],
    asked: Asked,
    csv: Path | None,
    json: Path | None,
) -> None:
    required = asked.required()
    known = [f"Note: {warning}." for warning in case.warnings]
    said = [*room_lines(case.model, unknown_of(case.model)), *default_lines(case, "wheels."), CAUTION]
    files = [
        all_clearances_table(found, required),
        free_table(free, merged=False),
        free_ways_table(free, case.axes),
    ]
    written = write_files(files, csv, json, [case.title, case.path.name, axes_line(case.axes), *known, *said])
    say(head(case, known))
    print_tables([clearance_table(found, required), free_table(free)])
    say(wrapped([*written, *said]))


def _draw(
    case: Case, mechanism: Mechanism, movers: tuple[Mover, ...], found: tuple[Clearance, ...], picture: Path
) -> None:
    try:
        draw_room(silhouettes_of(mechanism, movers), found, case.axes, case.title, picture)
    except OSError as error:
        raise Failure(f"cannot write {picture}: {error.strerror}") from error
    say(f"picture written to {picture}\n")
