"""Tables of a sweep: struts, springs at the wheels, half-shafts and sensors at each travel."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from loadpath.model import ForceElement, Wheel
from loadpath.report.motion.travel import Told, alike, sweep_table
from loadpath.report.table import Table
from loadpath.sweep import Sweep, levers, shafts, struts, wheel_springs

Ends = tuple[tuple[str, str], tuple[str, str]]


def strut_travel_table(sweep: Sweep, wheels: Sequence[Wheel]) -> Table:
    """Length, motion ratio and push of the struts of some wheels; the first two once for the same points."""
    names, elements = {w.name for w in wheels}, sweep.poses.mechanism.model.force_elements
    columns: list[Told] = []
    between: dict[Ends, list[str]] = {}
    for name, strut in struts(sweep.poses).items():
        if elements[name].wheel in names:
            same = between.setdefault(ends_of(elements[name]), [])
            same.append(name)
            if same == [name]:
                columns.append(Told(f"{name} length", "mm", 1, strut.length))
                columns.append(Told(f"{name} motion ratio", "", 4, strut.ratio))
            if strut.push is not None:
                columns.append(Told(f"{name} push", "kN", 2, strut.push / 1e3))
    notes = [
        "Motion ratio: by how much the strut shortens for a unit travel of its own wheel; its push holds the wheel "
        "force divided by it.",
        *(f"{', '.join(same)} act between the same points." for same in between.values() if len(same) > 1),
    ]
    return sweep_table(sweep, "struts", "Struts", columns, notes if columns else ())


def ends_of(element: ForceElement) -> Ends:
    """What a force element acts between."""
    return element.between, element.ends


def wheel_spring_table(sweep: Sweep, wheels: Sequence[Wheel]) -> Table:
    """What springs, stops and dampers do at some wheels."""
    found, columns = wheel_springs(sweep.poses), []
    for wheel in wheels:
        if wheel.name in found:
            columns += [
                Told(f"{wheel.name} force", "kN", 2, found[wheel.name].force / 1e3),
                Told(f"{wheel.name} rate", "N/mm", 1, found[wheel.name].rate),
            ]
    notes = (
        "Force at the wheel centre by the laws of its springs, stops and dampers, and its rate with the wheel's own "
        "travel, with what the load makes of a changing motion ratio. What bushings and the "
        "anti-roll bar add is not in it.",
    )
    return sweep_table(sweep, "wheel_springs", "Springs at the wheels", columns, notes if columns else ())


def shaft_table(sweep: Sweep, wheels: Sequence[Wheel]) -> Table:
    """Angles and plunge of the half-shafts of some wheels."""
    columns = []
    for name, shaft in shafts(sweep.poses).items():
        if name in {w.name for w in wheels}:
            columns += [
                Told(f"{name} inner joint", "deg", 2, np.degrees(shaft.inner)),
                Told("outer joint", "deg", 2, np.degrees(shaft.outer)),
                Told("plunge", "mm", 1, shaft.plunge),
            ]
    notes = (
        "Angles between shaft and output, and shaft and wheel axis. Plunge: pulled out of its design length.",
    )
    return sweep_table(sweep, "half_shafts", "Half-shafts", columns, notes if columns else ())


def sensor_table(sweep: Sweep, all_of_them: bool = True) -> Table:
    """Lever angles of the ride-height sensors; without those on the right that do what their twins do."""
    found = levers(sweep.poses)
    columns = [
        Told(f"{name} lever", "deg", 2, np.degrees(angle))
        for name, angle in found.items()
        if all_of_them or not (name.endswith("_r") and alike(angle, found.get(f"{name[:-2]}_l")))
    ]
    notes = ("Lever angle against design height, its end upward positive.",) if columns else ()
    return sweep_table(sweep, "sensors", "Ride-height sensors", columns, notes)
