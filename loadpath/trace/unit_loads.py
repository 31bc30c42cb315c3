"""Forces of joints and mounts for unit loads at the wheels, so that measured loads can be run through.

Everything is linear: the matrix times the amounts of a load case is what the solution gives, masses included
where their field is among the amounts. Springs and dampers that act with a given force are no part of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from loadpath.frame import FrameError, Solution, solve_system
from loadpath.model import LoadCase, Model, PointLoad
from loadpath.trace.connections import Connection, connections
from loadpath.trace.errors import TraceError
from loadpath.trace.measure import DIRECTIONS
from loadpath.trace.sources import unit_case

Array = NDArray[np.float64]

KILO = 1000.0
STANDARD_GRAVITY = 9806.65
"""[mm/s²], that is N/t."""


@dataclass(frozen=True)
class Input:
    """One input: where it acts, along or about which direction, and the amount that counts as one."""

    where: str
    direction: str
    unit: str
    case: LoadCase


@dataclass(frozen=True, eq=False)
class UnitLoads:
    """Answers of every joint and strut to every input.

    outputs : n connections whose wrench (6, k) holds the answers [N, N·mm] to the k inputs, one unit each.
    """

    inputs: tuple[Input, ...]
    outputs: tuple[Connection, ...]


def unit_loads(solution: Solution) -> UnitLoads:
    """Answers of a solution's system, in its pose.

    Inputs, along or about forward, left and up: 1 kN at each wheel's patch and centre, 1 kN·m at each wheel and
    at each part that takes torque from a wheel, 1 g on every mass; and 1 degree of body roll where a load case
    of the solution has any.

    Raises
    ------
    TraceError : where the model cannot be solved for them.
    """
    system = solution.system
    inputs = (*_inputs(system.model), *_roll(solution))
    free = {
        name: element if element.locked else replace(element, force=0.0)
        for name, element in system.model.force_elements.items()
    }
    unloaded = replace(system, model=replace(system.model, force_elements=free))
    try:
        answers = solve_system(unloaded, [one.case for one in inputs])
    except FrameError as error:
        raise TraceError(f"no unit loads: {error}") from error
    return UnitLoads(inputs, connections(answers))


def _inputs(model: Model) -> Iterator[Input]:
    axes = {word: getattr(model.axes, word) for word in DIRECTIONS}
    nothing = np.zeros(3)
    for wheel in model.wheels.values():
        centre = model.points[wheel.centre]
        places = {"contact patch": centre - wheel.radius * model.axes.up, "wheel centre": centre}
        for place, at in places.items():
            for word, axis in axes.items():
                load = PointLoad(wheel.part, wheel.centre, at, KILO * axis, nothing, place)
                yield Input(f"{wheel.name} {place}", f"force {word}", "kN", unit_case(loads=(load,)))
        for word, axis in axes.items():
            load = PointLoad(wheel.part, wheel.centre, centre, nothing, KILO**2 * axis, "moment")
            yield Input(f"{wheel.name}", f"moment about {word}", "kN·m", unit_case(loads=(load,)))
    for part in dict.fromkeys(p for w in model.wheels.values() for p in (w.unit, w.brake_part) if p):
        point = next((j.point for j in model.joints.values() if part in j.between), None)
        if point is None:
            continue
        for word, axis in axes.items():
            load = PointLoad(part, point, model.points[point], nothing, KILO**2 * axis, "torque")
            yield Input(part, f"moment about {word}", "kN·m", unit_case(loads=(load,)))
    for word, axis in axes.items():
        yield Input("all masses", f"field {word}", "g", unit_case(field=STANDARD_GRAVITY * axis))


def _roll(solution: Solution) -> Iterator[Input]:
    if any(case.roll for case in solution.cases):
        yield Input("body", "roll", "deg", replace(unit_case(), roll=float(np.radians(1.0))))
