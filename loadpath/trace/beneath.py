"""What comes into a part by what it stands on: movements, lengths, the pose, and force tables.

None of it brings a force from outside; it shifts load between the joints and struts that hold the part.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from loadpath.frame import Solution
from loadpath.model import BODY, LoadCase, PointLoad, Settlement
from loadpath.trace.connections import Connection, connections, reverse
from loadpath.trace.sources import Source, unit_case, unit_wrenches

Array = NDArray[np.float64]

MOVEMENT, BESIDE, LENGTH, POSE, TABLE = "movement", "beside", "length", "pose", "table"
"""Kinds: movement of what the part stands on; forces of other parts on the same point of an elastic body; given
length of a locked strut; wind-up and twist that the pose has put in; force of a bushing beyond its rate at rest."""


def sources_beneath(solution: Solution, part: str, held: Sequence[Connection]) -> tuple[Source, ...]:
    """All of it for a part held by its outgoing connections, told with the part as their source."""
    found = (
        *_movements(solution, held),
        *_lengths(solution, held),
        *_beside(solution, part, held),
        *_pose(solution),
        *_tables(solution, part, held),
    )
    return tuple(source for source in found if source.amounts.any())


def _movements(solution: Solution, held: Sequence[Connection]) -> Iterator[Source]:
    """Movement of the parts, or of the ground behind the body's points, that the part stands on."""
    below: dict[str, dict[str, Array]] = {}
    for one in held:
        moved = _ground(solution, one.point) if one.target == BODY else _moved(solution, one.target, one)
        below.setdefault(one.target, {})[one.point] = moved
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


def _moved(solution: Solution, part: str, one: Connection) -> Array:
    """(6, nc) movement of the source or the target of a connection, where the connection acts on it."""
    end = (one.source, one.target).index(part)
    mesh = solution.system.mesh
    block = mesh.places[part, one.points[end]].block
    u, lever = solution.movement[block], one.positions[end] - mesh.positions[block]
    return np.concatenate([u[:3] + np.cross(u[3:], lever, axisa=0, axisc=0), u[3:]])


def _lengths(solution: Solution, held: Sequence[Connection]) -> Iterator[Source]:
    """Locked struts whose length a load case sets: as if the ground at their far end were moved."""
    if not any(case.roll for case in solution.cases):
        return
    for one in held:
        if one.kind == "strut":
            line = one.axes[0]
            apart = _moved(solution, one.target, one)[:3] - _moved(solution, one.source, one)[:3]
            unit = unit_case(settlements=(Settlement(one.point, -line, np.zeros(3)),))
            yield Source(f"length of {one.name}", LENGTH, one.target, (unit,), (line @ apart)[None])


def _beside(solution: Solution, part: str, held: Sequence[Connection]) -> Iterator[Source]:
    """Other forces on the elastic body points that the part stands on."""
    model = solution.system.model
    names = {one.name for one in held}
    ends = [end for one in connections(solution) for end in (one, reverse(one)) if end.target == BODY]
    for point in dict.fromkeys(one.point for one in held if one.target == BODY):
        if model.body_mounts[point].rates is None:
            continue
        amount = _given_on_body(solution, point)
        for end in ends:
            if end.point == point and not (end.source == part and end.name in names):
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


def _pose(solution: Solution) -> Iterator[Source]:
    strain = np.array([case.strain for case in solution.cases])
    yield Source("wind-up and twist of the pose", POSE, "", (unit_case(strain=1.0),), strain[None])


def _tables(solution: Solution, part: str, held: Sequence[Connection]) -> Iterator[Source]:
    """For each outgoing bushing with tables: its force beyond rate × movement, as a pair on both its ends."""
    curves = solution.system.springs.curves
    for one in held:
        freedoms = [(k, i) for k, i, _ in curves if solution.system.springs.names[k] == one.name]
        if not freedoms:
            continue
        numbers = [i for _, i in freedoms]
        directions = np.zeros((6, len(numbers)))
        for n, i in enumerate(numbers):
            half = 3 * (i // 3)
            directions[half : half + 3, n] = one.axes[i % 3]
        units = tuple(_pair(solution, part, one, wrench) for wrench in directions.T)
        amounts = _excess(solution, one, freedoms[0][0])[numbers]
        name = f"{one.name} beyond its rate at rest"
        yield Source(name, TABLE, one.target, units, amounts, {one.name: directions})


def _pair(solution: Solution, part: str, one: Connection, wrench: Array) -> LoadCase:
    """A wrench on what a joint stands on and its reaction on the part."""
    at = solution.system.model.points[one.point]
    pair = ((BODY, wrench), (part, -wrench))
    return unit_case(
        loads=tuple(PointLoad(on, one.point, at, w[:3], w[3:], "beyond the rate") for on, w in pair)
    )


def _excess(solution: Solution, one: Connection, k: int) -> Array:
    """(6, nc) of bushing number k: force on the target beyond rate × movement, own axes."""
    first = solution.system.model.joints[one.name].between[0]
    sign = -1.0 if one.source == first else 1.0  # the force on the second part is against the movement
    own = np.concatenate([one.axes @ half for half in np.split(one.wrench, 2)])
    straight = solution.system.springs.rates[k][:, None] * bushing_movement(solution, k)
    excess: Array = own - sign * straight
    return excess


def bushing_movement(solution: Solution, k: int) -> Array:
    """(6, nc) movement of the second part of bushing number k against the first, wind-up included, own axes."""
    springs = solution.system.springs
    strain = np.array([case.strain for case in solution.cases])
    pair = np.concatenate([solution.movement[block] for block in springs.blocks[k]])
    moved: Array = springs.relative[k] @ pair + np.outer(springs.windup[k], strain)
    return moved
