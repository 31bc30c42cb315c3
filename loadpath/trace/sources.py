"""What comes into a part: unit load cases, and how much of each a solution has."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.frame import Solution
from loadpath.model import BODY, LineLoad, LoadCase, PointLoad, Settlement
from loadpath.trace.connections import connections, reverse
from loadpath.trace.freebody import LOAD, MASS, moved

Array = NDArray[np.float64]

MOVEMENT, BESIDE = "movement", "beside"
_NOTHING = np.zeros(3)


@dataclass(frozen=True, eq=False)
class Source:
    """One thing that comes into a part.

    Attributes
    ----------
    name : joint, strut, load, or what else it is. kind : the joint's kind, "strut", LOAD, MASS, MOVEMENT of what
        the part stands on, or BESIDE: forces of other parts on the same point of an elastic body.
    source : the part that it comes from, "" where it comes from outside.
    units : (k) unit load cases on the part alone. amounts : (k, nc) how much of each there is.
    """

    name: str
    kind: str
    source: str
    units: tuple[LoadCase, ...]
    amounts: Array


def sources_of(solution: Solution, part: str, outgoing: Sequence[str]) -> tuple[Source, ...]:
    """All that comes into a part which its outgoing joints hold; what is nothing in every case is left out."""
    found = (
        *_incoming(solution, part, outgoing),
        *_loads(solution, part),
        *_line_loads(solution, part),
        *_mass(solution, part),
        *_movements(solution, part, outgoing),
        *_beside(solution, part, outgoing),
    )
    return tuple(source for source in found if source.amounts.any())


def unit_case(
    field: Array = _NOTHING,
    loads: tuple[PointLoad, ...] = (),
    lines: tuple[LineLoad, ...] = (),
    settlements: tuple[Settlement, ...] = (),
) -> LoadCase:
    """A load case of one unit and nothing else."""
    return LoadCase(
        name="unit",
        kind="unit",
        cls="rare",
        field=field,
        loads=loads,
        line_loads=lines,
        settlements=settlements,
    )


def unit_wrenches(part: str, point: str, at: Array) -> tuple[LoadCase, ...]:
    """Six load cases: 1 N along, then 1 N·mm about, the axes of the case file, at a point of a part at (3,)."""
    return tuple(
        unit_case(loads=(PointLoad(part, point, at, one[:3], one[3:], "unit load"),)) for one in np.eye(6)
    )


def _incoming(solution: Solution, part: str, outgoing: Sequence[str]) -> Iterator[Source]:
    for one in connections(solution):
        if part not in (one.source, one.target) or (one.kind != "strut" and one.name in outgoing):
            continue
        on = one if one.target == part else reverse(one)
        units = unit_wrenches(part, on.point, on.position)
        yield Source(on.name, on.kind, on.source, units, on.wrench)


def _loads(solution: Solution, part: str) -> Iterator[Source]:
    """Given loads of the same name at the same point are one source."""
    model, nc = solution.system.model, len(solution.cases)
    amounts: dict[tuple[str, str], Array] = {}
    for c, case in enumerate(solution.cases):
        for load in case.loads:
            if load.part == part:
                wrench = np.concatenate([load.force, load.moment])
                own = amounts.setdefault((load.what, load.point), np.zeros((6, nc)))
                own[:, c] += moved(wrench, load.position, model.at(part, load.point))
    for (what, point), amount in amounts.items():
        yield Source(what, LOAD, "", unit_wrenches(part, point, model.at(part, point)), amount)


def _line_loads(solution: Solution, part: str) -> Iterator[Source]:
    amounts: dict[tuple[str, str], Array] = {}
    for c, case in enumerate(solution.cases):
        for load in case.line_loads:
            if load.part == part:
                own = amounts.setdefault((load.what, load.member), np.zeros((3, len(solution.cases))))
                own[:, c] += load.force
    for (what, member), amount in amounts.items():
        units = tuple(unit_case(lines=(LineLoad(part, member, one, what),)) for one in np.eye(3))
        yield Source(what, LOAD, "", units, amount)


def _mass(solution: Solution, part: str) -> Iterator[Source]:
    fields = np.array([case.field_of(part) for case in solution.cases]).T
    if solution.system.model.parts[part].members or any(
        mass.part == part for mass in solution.system.model.masses.values()
    ):
        yield Source("own mass", MASS, "", tuple(unit_case(field=one) for one in np.eye(3)), fields)


def _movements(solution: Solution, part: str, outgoing: Sequence[str]) -> Iterator[Source]:
    """Movement of the parts, or of the ground behind the body's points, that the outgoing joints stand on."""
    model = solution.system.model
    below: dict[str, dict[str, Array]] = {}
    for name in outgoing:
        joint = model.joints[name]
        other = next(p for p in joint.between if p != part)
        movement = _ground(solution, joint.point) if other == BODY else _far(solution, other, joint.point)
        below.setdefault(other, {})[joint.point] = movement
    for other, points in below.items():
        name = "movement of the ground" if other == BODY else f"movement of {other}"
        units = tuple(
            unit_case(settlements=(Settlement(point, one[:3], one[3:]),))
            for point in points
            for one in np.eye(6)
        )
        yield Source(name, MOVEMENT, other, units, np.concatenate(list(points.values())))


def _ground(solution: Solution, point: str) -> Array:
    """(6, nc) given movement of the ground behind a body point."""
    found = np.zeros((6, len(solution.cases)))
    for c, case in enumerate(solution.cases):
        for s in case.settlements:
            if s.point == point:
                found[:, c] += np.concatenate([s.displacement, s.rotation])
    return found


def _far(solution: Solution, part: str, point: str) -> Array:
    """(6, nc) movement of another part where the joint at a point acts."""
    mesh, model = solution.system.mesh, solution.system.model
    block = mesh.places[part, point].block
    u, lever = solution.movement[block], model.points[point] - mesh.positions[block]
    return np.concatenate([u[:3] + np.cross(u[3:], lever, axisa=0, axisc=0), u[3:]])


def _beside(solution: Solution, part: str, outgoing: Sequence[str]) -> Iterator[Source]:
    """Other forces on the elastic body points that the part stands on."""
    model = solution.system.model
    ends = [end for one in connections(solution) for end in (one, reverse(one)) if end.target == BODY]
    for point in dict.fromkeys(model.joints[n].point for n in outgoing if BODY in model.joints[n].between):
        if model.body_mounts[point].rates is None:
            continue
        amount = _given_on_body(solution, point)
        for end in ends:
            if end.point == point and not (end.source == part and end.name in outgoing):
                amount = amount + end.wrench[:3]
        units = unit_wrenches(BODY, point, model.at(BODY, point))[:3]
        yield Source(f"other forces on the body at {point}", BESIDE, BODY, units, amount)


def _given_on_body(solution: Solution, point: str) -> Array:
    """(3, nc) loads of the load cases on a point of the body."""
    found = np.zeros((3, len(solution.cases)))
    for c, case in enumerate(solution.cases):
        for load in case.loads:
            if (load.part, load.point) == (BODY, point):
                found[:, c] += load.force
    return found
