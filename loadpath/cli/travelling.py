"""`loadpath travel`: the kinematics along one motion."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import radians
from pathlib import Path

from loadpath.case import Case, read_case
from loadpath.cli.common import check_picture, default_lines, head, print_tables, say, write_files
from loadpath.cli.failures import Failure, unknown
from loadpath.cli.places import check_places
from loadpath.model import FULL_TRAVEL
from loadpath.pose import PoseError, make_mechanism
from loadpath.report import CAUTION, RIGID, Table, axes_line, wrapped
from loadpath.report.motion import (
    alignment_table,
    articulation_table,
    centres_table,
    design_table,
    draw_travel,
    exceeded,
    instant_axes_table,
    joint_angles_table,
    limit_table,
    points_table,
    sensor_table,
    shaft_table,
    strut_travel_table,
    told_wheels,
    wheel_spring_table,
)
from loadpath.sweep import MOTIONS, Sweep, sweep

FINEST = 0.1
"""[mm] least step."""
CONCERNING = ("measured_at", "points", "parts", "joints", "wheels", "struts", "sensors")
"""What a warning of the case begins with that concerns the kinematics."""
SMOOTH = 5.0
"""[mm] coarsest step of a picture."""


@dataclass(frozen=True)
class Asked:
    """The options of `loadpath travel`: motion, step [mm], and where wheels and racks stand that do not move [mm]."""

    motion: str = "heave"
    step: float = 20.0
    jounce: float = 0.0
    rack: float = 0.0
    picture: Path | None = None


def print_travel(path: Path, asked: Asked, csv: Path | None, json: Path | None) -> int:
    """Print how all stands along the motion; write all rows and the picture where asked.

    Returns
    -------
    int : exit code, 1 where a limit of the case is exceeded.
    """
    if asked.picture is not None:
        check_picture(asked.picture)
    case = read_case(path)
    moved = _swept(case, asked)
    try:
        shown, every = (_tables(case, moved, printed) for printed in (True, False))
    except PoseError as error:
        raise Failure(f"{path.name}: {error}") from error
    notes = _notes(case, moved)
    known = [f"Note: {warning}." for warning in case.warnings if warning.startswith(CONCERNING)]
    told = [case.title, case.path.name, axes_line(case.axes), *known, *notes]
    written = write_files([*every, *_more(moved)], csv, json, told)
    say(head(case, known))
    print_tables(shown)
    say(wrapped([*written, *notes]))
    if asked.picture is not None:
        try:
            draw_travel(_swept(case, replace(asked, step=min(asked.step, SMOOTH))), case.title, asked.picture)
        except OSError as error:
            raise Failure(f"cannot write {asked.picture}: {error.strerror}") from error
        say(f"picture written to {asked.picture}\n")
    return 1 if exceeded(moved) else 0


def _swept(case: Case, asked: Asked) -> Sweep:
    motion = next((m for m in MOTIONS if m == asked.motion), None)
    if motion is None:
        raise unknown("motion", asked.motion, list(MOTIONS))
    if not asked.step >= FINEST:
        raise Failure(f"--step {asked.step:g}: a step of {FINEST:g} mm or more")
    if not case.model.wheels:
        raise Failure(f"{case.path.name}: no wheels, so that nothing travels")
    if asked.jounce and motion in ("heave", "roll"):
        raise Failure(
            f"--jounce {asked.jounce:g}: the motion {motion} moves all wheels; with left, right or steer"
        )
    if asked.rack and motion == "steer":
        raise Failure(
            f"--rack {asked.rack:g}: the motion steer moves all racks; with heave, roll, left or right"
        )
    check_places(case.path, case.model, asked.jounce, asked.rack)
    try:
        return sweep(make_mechanism(case.model), motion, asked.step, asked.jounce, asked.rack)
    except PoseError as error:
        raise Failure(f"{case.path.name}: {error}") from error


def _tables(case: Case, moved: Sweep, printed: bool) -> list[Table]:
    """All tables of a sweep; printed ones without wheels and joints on the right that do what the left ones do."""
    mechanism = moved.poses.mechanism
    wheels = told_wheels(moved) if printed else [mechanism.model.wheels[w] for w in mechanism.wheels]
    alignment = [alignment_table(moved, wheel) for wheel in wheels]
    centres = [centres_table(moved, wheel, case.vehicle) for wheel in wheels]
    return [
        design_table(mechanism, wheels, case.vehicle),
        *(_notes_once(alignment) if printed else alignment),
        *(_notes_once(centres) if printed else centres),
        strut_travel_table(moved, wheels),
        wheel_spring_table(moved, wheels),
        limit_table(moved),
        articulation_table(moved, not printed),
        shaft_table(moved, wheels),
        sensor_table(moved, not printed),
    ]


def _more(moved: Sweep) -> list[Table]:
    """Tables for files only."""
    return [joint_angles_table(moved), points_table(moved), instant_axes_table(moved)]


def _notes_once(tables: list[Table]) -> list[Table]:
    """Tables of which only the last of those with the same notes has them."""
    later = [[t.notes for t in tables[k + 1 :]] for k in range(len(tables))]
    return [replace(t, notes=()) if t.notes in after else t for t, after in zip(tables, later, strict=True)]


def _notes(case: Case, moved: Sweep) -> list[str]:
    notes = [f"Self-check: the joints close to {moved.gap:.0e} mm in all {len(moved.values)} poses.", RIGID]
    guessed = [w.name for w in case.model.wheels.values() if w.jounce is None or w.rebound is None]
    if guessed:
        notes.append(
            f"Full travel of {', '.join(guessed)} is not given (jounce, rebound): {FULL_TRAVEL:g} mm is taken where "
            "it is missing (common practice, no source)."
        )
    hidden = set(moved.poses.mechanism.wheels) - {w.name for w in told_wheels(moved)}
    if hidden:
        notes.append(f"Not printed, the same as on the left: {', '.join(sorted(hidden))}. Files hold all.")
    return [*notes, *_roll_notes(case, moved), *default_lines(case, "wheels."), CAUTION]


def _roll_notes(case: Case, moved: Sweep) -> list[str]:
    """Roll stiffness of each axle by its springs and bar, beside what the vehicle's data say."""
    from loadpath.checks import locked_pushes
    from loadpath.frame import FrameError
    from loadpath.sweep.rolling import roll_rates

    try:
        rates = roll_rates(moved.poses.mechanism, locked_pushes)
    except (FrameError, PoseError) as error:
        return [f"Roll stiffness by springs and bar is not known here: {error}"]
    lines, vehicle = [], case.vehicle
    for axle, rate in rates.items():
        springs, bar = (value * radians(1) / 1e6 for value in rate)
        line = f"Roll stiffness of the {axle} axle at design height: springs {springs:.2f}, anti-roll bar {bar:.2f}, "
        line += f"together {springs + bar:.2f} kN·m/deg"
        if vehicle is not None and vehicle.roll_stiffness is not None:
            given = vehicle.roll_stiffness * vehicle.axle(axle).roll_share * radians(1) / 1e6
            line += f"; vehicle.roll_stiffness gives it {given:.2f}"
        lines.append(f"{line}.")
    return lines
