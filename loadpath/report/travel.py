"""Tables of a sweep: how wheels, struts, joints, half-shafts and sensors stand at each travel."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Vehicle, Wheel
from loadpath.pose import (
    Motion,
    Sweep,
    instants,
    levers,
    roll_centres,
    shafts,
    steering,
    struts,
    wheel_angles,
    wheel_places,
    wheel_springs,
)
from loadpath.report.support import support, support_notes
from loadpath.report.table import Cell, Column, Table

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
    "top. Inclination: inward at its top. Scrub: contact patch outside the axis. Trail: patch behind it. Track and "
    "wheelbase change where they grow. Angles and changes are those of one wheel, against vehicle and design height."
)
_FAR = 1e5
_WIDTH = 12
_ALIKE = 1e-6


@dataclass(frozen=True, eq=False)
class _Told:
    """A column of a table: heading, unit, digits, values (p,)."""

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
            _alike(angles[w.name].camber, angles[o.name].camber)
            and _alike(angles[w.name].toe, angles[o.name].toe)
            and _alike(places[w.name].track_change, places[o.name].track_change)
            for o in left
            if o.axle == w.axle
        )
    ]


def alignment_table(sweep: Sweep, wheel: Wheel) -> Table:
    """Angles and places of one wheel."""
    angles, place = wheel_angles(sweep.poses)[wheel.name], wheel_places(sweep.poses)[wheel.name]
    axis = steering(sweep.poses).get(wheel.name)
    columns = [
        _Told("camber", "deg", 3, np.degrees(angles.camber)),
        _Told("toe", "deg", 3, np.degrees(angles.toe)),
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
            _Told("caster", "deg", 2, np.degrees(axis.caster)),
            _Told("inclination", "deg", 2, np.degrees(axis.inclination)),
            _Told("scrub", "mm", 1, axis.scrub),
            _Told("trail", "mm", 1, axis.trail),
        ]
    columns += [
        _Told("track change", "mm", 1, place.track_change),
        _Told("wheelbase change", "mm", 1, place.wheelbase_change),
    ]
    return _table(sweep, f"alignment_{wheel.name}", f"Alignment of {wheel.name}", columns, notes)


def centres_table(sweep: Sweep, wheel: Wheel, vehicle: Vehicle | None) -> Table:
    """Roll centre of the wheel's axle, the wheel's instant centres, and what of pitch its linkage holds up.

    In roll the body's lean takes the place of what concerns pitch.
    """
    instant, rolling = instants(sweep.poses)[wheel.name], roll_centres(sweep.poses).get(wheel.axle)
    columns, where = [], "Instant centres inward of the wheel centre; heights above the contact patches."
    if rolling is not None:
        columns += [
            _Told("roll centre height", "mm", 1, rolling.height),
            _Told("roll centre to the left", "mm", 1, rolling.left),
        ]
    columns += [
        _Told("front-view inward", "mm", 0, instant.front[:, 0]),
        _Told("front-view height", "mm", 0, instant.front[:, 1]),
    ]
    if sweep.motion == "roll":
        lean = np.degrees(_lean(sweep, wheel.axle))
        columns.append(_Told("body leans to the left", "deg", 2, lean))
        notes: tuple[str, ...] = (where,)
    else:
        columns += [
            _Told("side-view ahead", "mm", 0, instant.side[:, 0]),
            _Told("side-view height", "mm", 0, instant.side[:, 1]),
        ]
        columns += [_Told(what, unit, 1, values) for what, unit, values in support(instant, wheel, vehicle)]
        notes = (where.replace("inward", "inward and ahead"), *support_notes(wheel, vehicle))
    title = f"Instant centres of {wheel.name} and roll centre of its axle"
    return _table(sweep, f"centres_{wheel.name}", title, columns, notes)


def _lean(sweep: Sweep, axle: str) -> Array:
    """(p,) [rad] by which the body leans against the line between an axle's outermost contact patches."""
    axes, places = sweep.poses.mechanism.model.axes, wheel_places(sweep.poses)
    own = sorted((w for w in _wheels(sweep) if w.axle == axle), key=lambda w: w.left)
    across = places[own[-1].name].patch - places[own[0].name].patch
    level = np.abs(across @ axes.left)
    lean: Array = np.where(level > 0, np.arctan2(across @ axes.up, np.where(level > 0, level, 1.0)), np.nan)
    return lean


def strut_travel_table(sweep: Sweep, wheels: Sequence[Wheel]) -> Table:
    """Length, motion ratio and push of the struts of some wheels."""
    names = {w.name for w in wheels}
    columns = []
    for name, strut in struts(sweep.poses).items():
        if sweep.poses.mechanism.model.force_elements[name].wheel in names:
            columns += [
                _Told(f"{name} length", "mm", 1, strut.length),
                _Told(f"{name} motion ratio", "", 4, strut.ratio),
            ]
            columns += [] if strut.push is None else [_Told(f"{name} push", "kN", 2, strut.push / 1e3)]
    notes = (
        "Motion ratio: by how much the strut shortens for a unit travel of its own wheel; its push holds the wheel "
        "force divided by it.",
    )
    return _table(sweep, "struts", "Struts", columns, notes if columns else ())


def wheel_spring_table(sweep: Sweep, wheels: Sequence[Wheel]) -> Table:
    """What springs, stops and dampers do at some wheels."""
    found, columns = wheel_springs(sweep.poses), []
    for wheel in wheels:
        if wheel.name in found:
            columns += [
                _Told(f"{wheel.name} force", "kN", 2, found[wheel.name].force / 1e3),
                _Told(f"{wheel.name} rate", "N/mm", 1, found[wheel.name].rate),
            ]
    notes = (
        "Force at the wheel centre by the laws of its springs, stops and dampers, and its rate with the wheel's own "
        "travel. What bushings and the anti-roll bar add is not in it.",
    )
    return _table(sweep, "wheel_springs", "Springs at the wheels", columns, notes if columns else ())


def shaft_table(sweep: Sweep, wheels: Sequence[Wheel]) -> Table:
    """Angles and plunge of the half-shafts of some wheels."""
    columns = []
    for name, shaft in shafts(sweep.poses).items():
        if name in {w.name for w in wheels}:
            columns += [
                _Told(f"{name} inner joint", "deg", 2, np.degrees(shaft.inner)),
                _Told("outer joint", "deg", 2, np.degrees(shaft.outer)),
                _Told("plunge", "mm", 1, shaft.plunge),
            ]
    notes = (
        "Angles between shaft and output, and shaft and wheel axis. Plunge: pulled out of its design length.",
    )
    return _table(sweep, "half_shafts", "Half-shafts", columns, notes if columns else ())


def sensor_table(sweep: Sweep, all_of_them: bool = True) -> Table:
    """Lever angles of the ride-height sensors; without those on the right that do what their twins do."""
    found = levers(sweep.poses)
    columns = [
        _Told(f"{name} lever", "deg", 2, np.degrees(angle))
        for name, angle in found.items()
        if all_of_them or not (name.endswith("_r") and _alike(angle, found.get(f"{name[:-2]}_l")))
    ]
    notes = ("Lever angle against design height, its end upward positive.",) if columns else ()
    return _table(sweep, "sensors", "Ride-height sensors", columns, notes)


def _wheels(sweep: Sweep) -> list[Wheel]:
    mechanism = sweep.poses.mechanism
    return [mechanism.model.wheels[w] for w in mechanism.wheels]


def _alike(a: Array, b: Array | None) -> bool:
    return b is not None and bool(np.abs(a - b).max() < _ALIKE)


def _table(sweep: Sweep, name: str, title: str, columns: Sequence[_Told], notes: Sequence[str]) -> Table:
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
