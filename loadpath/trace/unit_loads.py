"""Forces of joints and mounts for unit loads at the wheels, so that measured loads can be run through.

Everything is linear: the matrix times the amounts of a load case is what the solution gives, masses included
where their field is among the amounts. Locked struts keep their length; what springs and dampers push with by
themselves and what the pose has wound up stands beside the loads as an input of its own. Bushings with force tables
act with their rate at rest: a solution in which they leave it is not met.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from loadpath.frame import FrameError, Solution, solve_system
from loadpath.model import LoadCase, Model, PointLoad, contact_patch
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
    """One input: where it acts, along or about which direction, and the amount that counts as one.

    unit : "" of what stands once, whatever the loads.
    """

    where: str
    direction: str
    unit: str
    case: LoadCase


@dataclass(frozen=True, eq=False)
class UnitLoads:
    """Answers of every joint and strut to every input.

    outputs : n connections whose wrench (6, k) holds the answers [N, N·mm] to the k inputs, one unit each.
    at_rest : joints whose force table was taken as its rate at rest.
    """

    inputs: tuple[Input, ...]
    outputs: tuple[Connection, ...]
    at_rest: tuple[str, ...]


def unit_loads(solution: Solution) -> UnitLoads:
    """Answers of a solution's system, in its pose.

    Inputs, along or about forward, left and up: 1 kN at each wheel's patch and centre, 1 kN·m at each wheel and
    at each part that takes torque from a wheel, 1 g on every mass; and, where the solution has any, 1 degree of body
    roll, and once what acts without a load.

    Raises
    ------
    TraceError : where the model cannot be solved for them.
    """
    springs = solution.system.springs
    system = replace(solution.system, springs=replace(springs, curves=()))
    inputs = (*_inputs(system.model), *_roll(solution))
    free = {
        name: element if element.locked else replace(element, force=0.0)
        for name, element in system.model.force_elements.items()
    }
    unloaded = replace(system, model=replace(system.model, force_elements=free))
    by_itself = tuple(_by_itself(solution))
    try:
        answers = [solve_system(unloaded, [one.case for one in inputs])]
        answers += [solve_system(system, [one.case]) for one in by_itself]
    except FrameError as error:
        raise TraceError(f"no unit loads: {error}") from error
    pairs = zip(*(connections(answer) for answer in answers), strict=True)
    outputs = (
        replace(same[0], wrench=np.concatenate([one.wrench for one in same], axis=1)) for same in pairs
    )
    at_rest = dict.fromkeys(springs.names[k] for k, _, _ in springs.curves)
    return UnitLoads((*inputs, *by_itself), tuple(outputs), tuple(at_rest))


def _by_itself(solution: Solution) -> Iterator[Input]:
    """What the solution has without any load: pushes of struts that are not locked, wind-up of the pose."""
    pushes = any(e.force and not e.locked for e in solution.system.model.force_elements.values())
    posed = solution.system.model.pose is not None
    strain = float(posed and any(case.strain for case in solution.cases))
    if pushes or strain:
        yield Input("without load", "given pushes and wind-up", "", unit_case(strain=strain))


def _inputs(model: Model) -> Iterator[Input]:
    axes = {word: getattr(model.axes, word) for word in DIRECTIONS}
    nothing = np.zeros(3)
    for wheel in model.wheels.values():
        centre = model.at(wheel.part, wheel.centre)
        places = {"contact patch": contact_patch(model, wheel), "wheel centre": centre}
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
