"""Half-shafts and sensors, and the model moved to design height where it was measured elsewhere."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np

from loadpath.case.carriers import Carriers
from loadpath.case.errors import Log
from loadpath.case.space import SHORTEST, Space
from loadpath.case.tables import CaseTable, HalfShaftTable, SensorTable
from loadpath.case.words import join
from loadpath.model import HalfShaft, HeightSensor, Model


def make_half_shaft(
    table: HalfShaftTable, part: str, unit: str, path: str, carriers: Carriers
) -> HalfShaft | None:
    """The shaft from a unit to a wheel's carrying part, or None where it cannot be made."""
    space = carriers.space
    fits = [carriers.carries(unit, table.inner, join(path, "inner"))]
    fits += [carriers.carries(part, table.outer, join(path, "outer"))]
    if not all(fits) or not space.known((table.inner, table.outer)):
        return None
    line = space.points[table.outer] - space.points[table.inner]
    axis = space.looking(table.axis, table.inner, join(path, "axis"))
    if np.linalg.norm(line) < SHORTEST:
        space.log.mistake(join(path, "outer"), "is where inner is", "points apart from each other")
        return None
    if axis is None:
        return None
    limits = table.inner_limit, table.outer_limit, table.plunge_limit
    return HalfShaft(table.inner, table.outer, axis if axis @ line >= 0 else -axis, *limits, table.diameter)


def make_sensor(name: str, table: SensorTable, space: Space) -> HeightSensor | None:
    """A sensor, or None where it cannot be made. Its points need not be on members: it carries nothing."""
    path = join("sensors", name)
    if table.between[0] == table.between[1]:
        space.log.mistake(join(path, "between"), "one part stands twice", "two different parts")
    if not space.known((table.pivot, table.lever, table.rod)):
        return None
    pivot, lever, rod = (space.points[p] for p in (table.pivot, table.lever, table.rod))
    for key, a, b in (("lever", pivot, lever), ("rod", lever, rod)):
        if np.linalg.norm(b - a) < SHORTEST:
            space.log.mistake(join(path, key), "has no length", "points apart from each other")
            return None
    axis = np.cross(lever - pivot, rod - lever)
    if table.axis is not None:
        given = space.looking(table.axis, table.pivot, join(path, "axis"))
        axis = np.zeros(3) if given is None else given
    elif np.linalg.norm(axis) < 1e-3 * np.linalg.norm(lever - pivot) * np.linalg.norm(rod - lever):
        space.log.mistake(
            join(path, "axis"), "is missing where lever and rod are in line", "the axis of the pivot"
        )
    if not space.log.clean(path):
        return None
    rising = np.cross(axis, lever - pivot) @ space.axes.up
    axis = axis / np.linalg.norm(axis) * (-1.0 if rising < 0 else 1.0)
    return HeightSensor(name, table.between, table.pivot, axis, table.lever, table.rod)


def moved_to_design(model: Model, table: CaseTable, log: Log) -> Model:
    """The model at design height; a mistake where it cannot be moved there from where it was measured."""
    if table.measured_at == 0:
        return model
    from loadpath.pose import PoseError, to_design_height

    log.warnings.append(
        f"measured_at: the points of the file are those at a travel of {table.measured_at:g} mm; all that is told "
        "here is of the model moved to design height"
    )
    try:
        return to_design_height(model, table.measured_at, set(_places(table.load_cases)))
    except PoseError as error:
        log.mistake("measured_at", f"cannot be moved to design height: {error}", "a travel within reach")
        return model


def _places(value: Any) -> Iterator[tuple[str, str]]:
    """(part, point) of everything in load cases that acts on a point of a part."""
    if isinstance(value, Mapping):
        value = tuple(value.values())
    if isinstance(value, tuple):
        for one in value:
            yield from _places(one)
    elif dataclasses.is_dataclass(value):
        part, point = getattr(value, "part", None), getattr(value, "point", None)
        if isinstance(part, str) and isinstance(point, str):
            yield part, point
        yield from _places(tuple(getattr(value, f.name) for f in dataclasses.fields(value)))
