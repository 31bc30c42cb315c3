"""A table of one axle at design height: where it stands and how that changes with the travel."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from loadpath.model import Vehicle, Wheel
from loadpath.pose import Mechanism, Poses, pose_many, wheel_angles, wheel_gains
from loadpath.report.motion.support import support
from loadpath.report.motion.travelparts import ends_of
from loadpath.report.table import Cell, Column, Table
from loadpath.sweep import instants, roll_centres, steering, struts, wheel_springs

_STEP = 1.0
"""[mm] of travel either way over which the roll centre's change is taken."""
NOTES = (
    "Changes are those with the wheel's own travel upward, that of the roll centre with the travel of all wheels.",
)
_Row = tuple[str, str, float | None]


def design_table(mechanism: Mechanism, wheels: Sequence[Wheel], vehicle: Vehicle | None) -> Table:
    """Alignment, steering axis, roll centre, support in pitch and motion ratios at design height."""
    targets = [mechanism.targets(dict.fromkeys(mechanism.wheels, z)) for z in (0.0, _STEP, -_STEP)]
    poses = pose_many(mechanism, np.array(targets))
    told = [list(_rows(poses, wheel, vehicle)) for wheel in wheels]
    names = list(dict.fromkeys((name, unit) for rows in told for name, unit, _ in rows))
    values = [{(name, unit): value for name, unit, value in rows} for rows in told]
    rows: list[tuple[Cell, ...]] = [(*name, *(own.get(name) for own in values)) for name in names]
    return Table(
        "design_height",
        "At design height",
        (Column("what"), Column("unit"), *(Column(w.name, digits=3) for w in wheels)),
        tuple(rows),
        NOTES,
    )


def _rows(poses: Poses, wheel: Wheel, vehicle: Vehicle | None) -> Iterator[_Row]:
    """What, unit and value at design height; of the three poses the first is that."""
    angles, gains = wheel_angles(poses)[wheel.name], wheel_gains(poses)[wheel.name]
    yield "camber", "deg", _deg(angles.camber[0])
    yield "camber change", "deg/m", 1e3 * _deg(gains.camber[0])
    yield "toe", "deg", _deg(angles.toe[0])
    yield "toe change", "deg/m", 1e3 * _deg(gains.toe[0])
    axis = steering(poses).get(wheel.name)
    if axis is not None:
        yield "caster", "deg", _deg(axis.caster[0])
        yield "steering axis inclination", "deg", _deg(axis.inclination[0])
        yield "scrub", "mm", float(axis.scrub[0])
        yield "trail", "mm", float(axis.trail[0])
    centre = roll_centres(poses).get(wheel.axle)
    if centre is not None:
        yield "roll centre height", "mm", float(centre.height[0])
        yield "roll centre height change", "mm/mm", float(centre.height[1] - centre.height[2]) / (2 * _STEP)
    instant = instants(poses)[wheel.name]
    for what, unit, value in support(instant, wheel, vehicle):
        yield what, unit, float(value[0])
    told = set()
    for name, strut in struts(poses).items():
        element = poses.mechanism.model.force_elements[name]
        if element.wheel == wheel.name and ends_of(element) not in told:
            told.add(ends_of(element))
            yield f"motion ratio of {name.removesuffix('_l').removesuffix('_r')}", "", float(strut.ratio[0])
    springs = wheel_springs(poses).get(wheel.name)
    if springs is not None:
        yield "wheel rate of the springs", "N/mm", float(springs.rate[0])
        yield "wheel force of the springs", "N", float(springs.force[0])


def _deg(angle: float) -> float:
    return float(np.degrees(angle))
