"""Tables of a sweep: how the wheels stand at each travel, and about what they turn."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Vehicle, Wheel
from loadpath.pose import wheel_angles, wheel_places
from loadpath.report.motion.support import support, support_notes
from loadpath.report.table import Cell, Column, Table
from loadpath.sweep import Motion, Sweep, instants, roll_centres, steering

Array = NDArray[np.float64]

MOVES: Mapping[Motion, tuple[str, str]] = {
    "heave": ("travel", "all wheels up and down together"),
    "roll": ("left travel", "left wheels up, right wheels down"),
    "left": ("travel", "left wheels alone"),
    "right": ("travel", "right wheels alone"),
    "steer": ("rack", "steering rack to the left"),
}
"""Heading of the values of each motion, and what it is."""

ANGLE_SIGNS = (
    "Travel is up against the body. Camber: top outward. Toe: front inward. Caster: steering axis rearward at its "
    "top. Inclination: inward at its top. Scrub: contact patch outside the axis. Trail: patch behind it; both across "
    "and along the wheel as it is steered, the lowest point of its disc being the patch. Track and "
    "wheelbase change where they grow. Angles and changes are those of one wheel, against vehicle and design height."
)
_FAR = 1e5
_WIDTH = 12
_ALIKE = 1e-6


@dataclass(frozen=True, eq=False)
class Told:
    """A column of a sweep's table: heading, unit, digits, values (p,)."""

    heading: str
    unit: str
    digits: int
    values: Array


def told_wheels(sweep: Sweep) -> list[Wheel]:
    """Wheels to print: a right one that does all that the left one of its axle does is left out."""
    wheels, angles, places = _wheels(sweep), wheel_angles(sweep.poses), wheel_places(sweep.poses)
    left = [w for w in wheels if w.left]
    return [
        w
        for w in wheels
        if w.left
        or not any(
            alike(angles[w.name].camber, angles[o.name].camber)
            and alike(angles[w.name].toe, angles[o.name].toe)
            and alike(places[w.name].track_change, places[o.name].track_change)
            for o in left
            if o.axle == w.axle
        )
    ]


def alignment_table(sweep: Sweep, wheel: Wheel) -> Table:
    """Angles and places of one wheel."""
    angles, place = wheel_angles(sweep.poses)[wheel.name], wheel_places(sweep.poses)[wheel.name]
    axis = steering(sweep.poses).get(wheel.name)
    columns = [
        Told("camber", "deg", 3, np.degrees(angles.camber)),
        Told("toe", "deg", 3, np.degrees(angles.toe)),
    ]
    notes: tuple[str, ...] = (ANGLE_SIGNS,)
    if axis is None:
        notes = (
            *notes,
            "No steering axis: no rack turns this wheel, it names no steer_link, and its carrier does not hang on "
            "arms by two balls.",
        )
    else:
        columns += [
            Told("caster", "deg", 2, np.degrees(axis.caster)),
            Told("inclination", "deg", 2, np.degrees(axis.inclination)),
            Told("scrub", "mm", 1, axis.scrub),
            Told("trail", "mm", 1, axis.trail),
        ]
    columns += [
        Told("track change", "mm", 1, place.track_change),
        Told("wheelbase change", "mm", 1, place.wheelbase_change),
    ]
    return sweep_table(sweep, f"alignment_{wheel.name}", f"Alignment of {wheel.name}", columns, notes)


def centres_table(sweep: Sweep, wheel: Wheel, vehicle: Vehicle | None) -> Table:
    """Roll centre of the wheel's axle, the wheel's instant centres, and what of pitch its linkage holds up.

    In roll the body's lean takes the place of what concerns pitch.
    """
    instant, rolling = instants(sweep.poses)[wheel.name], roll_centres(sweep.poses).get(wheel.axle)
    columns, where = [], "Instant centres inward of the wheel centre; heights above the contact patches."
    if rolling is not None:
        columns += [
            Told("roll centre height", "mm", 1, rolling.height),
            Told("roll centre to the left", "mm", 1, rolling.left),
        ]
    columns += [
        Told("front-view inward", "mm", 0, instant.front[:, 0]),
        Told("front-view height", "mm", 0, instant.front[:, 1]),
    ]
    if sweep.motion == "roll":
        lean = np.degrees(_lean(sweep, wheel.axle))
        columns.append(Told("body leans to the left", "deg", 2, lean))
        notes: tuple[str, ...] = (where,)
    else:
        columns += [
            Told("side-view ahead", "mm", 0, instant.side[:, 0]),
            Told("side-view height", "mm", 0, instant.side[:, 1]),
        ]
        columns += [Told(what, unit, 1, values) for what, unit, values in support(instant, wheel, vehicle)]
        notes = (where.replace("inward", "inward and ahead"), *support_notes(wheel, vehicle))
    title = f"Instant centres of {wheel.name} and roll centre of its axle"
    return sweep_table(sweep, f"centres_{wheel.name}", title, columns, notes)


def _lean(sweep: Sweep, axle: str) -> Array:
    """(p,) [rad] by which the body leans against the line between an axle's outermost contact patches."""
    axes, places = sweep.poses.mechanism.model.axes, wheel_places(sweep.poses)
    own = sorted((w for w in _wheels(sweep) if w.axle == axle), key=lambda w: w.left)
    across = places[own[-1].name].patch - places[own[0].name].patch
    level = np.abs(across @ axes.left)
    lean: Array = np.where(level > 0, np.arctan2(across @ axes.up, np.where(level > 0, level, 1.0)), np.nan)
    return lean


def _wheels(sweep: Sweep) -> list[Wheel]:
    mechanism = sweep.poses.mechanism
    return [mechanism.model.wheels[w] for w in mechanism.wheels]


def alike(a: Array, b: Array | None) -> bool:
    return b is not None and bool(np.abs(a - b).max() < _ALIKE)


def sweep_table(sweep: Sweep, name: str, title: str, columns: Sequence[Told], notes: Sequence[str]) -> Table:
    """One row a pose; numbers too far to mean anything are left out."""
    heading, motion = MOVES[sweep.motion]
    rows: list[tuple[Cell, ...]] = []
    for k, value in enumerate(sweep.values):
        cells = (float(c.values[k]) for c in columns)
        rows.append((float(value), *(cell if abs(cell) < _FAR else None for cell in cells)))
    return Table(
        f"{name}_{sweep.motion}",
        f"{title}: {motion}",
        (Column(heading, "mm", 1), *(Column(c.heading, c.unit, c.digits, _WIDTH) for c in columns)),
        tuple(rows) if columns else (),
        tuple(notes),
    )
