"""What comes into a part: unit load cases, and how much of each a solution has."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from dataclasses import field as declared

import numpy as np
from numpy.typing import NDArray

from loadpath.frame import Solution
from loadpath.model import LineLoad, LoadCase, PointLoad, Settlement
from loadpath.trace.connections import connections, reverse
from loadpath.trace.freebody import LOAD, MASS, moved

Array = NDArray[np.float64]

_NOTHING = np.zeros(3)


@dataclass(frozen=True, eq=False)
class Source:
    """One thing that comes into a part.

    Attributes
    ----------
    name : joint, strut, load, or what else it is. kind : the joint's kind, "strut", LOAD, MASS, or one of
        `beneath`.
    source : the part that it comes from, "" where it comes from outside.
    units : (k) unit load cases on the part alone. amounts : (k, nc) how much of each there is.
    direct : what a unit gives to an outgoing joint without moving the part, (6, k) by the joint's name.
    """

    name: str
    kind: str
    source: str
    units: tuple[LoadCase, ...]
    amounts: Array
    direct: Mapping[str, Array] = declared(default_factory=dict)


def sources_of(solution: Solution, part: str, outgoing: Sequence[str]) -> tuple[Source, ...]:
    """All that acts on a part but its outgoing joints and struts; what is nothing in every case is left out."""
    found = (
        *_incoming(solution, part, outgoing),
        *_loads(solution, part),
        *_line_loads(solution, part),
        *_mass(solution, part),
    )
    return tuple(source for source in found if source.amounts.any())


def unit_case(
    field: Array = _NOTHING,
    loads: tuple[PointLoad, ...] = (),
    lines: tuple[LineLoad, ...] = (),
    settlements: tuple[Settlement, ...] = (),
    strain: float = 0.0,
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
        strain=strain,
    )


def unit_wrenches(part: str, point: str, at: Array) -> tuple[LoadCase, ...]:
    """Six load cases: 1 N along, then 1 N·mm about, the axes of the case file, at a point of a part at (3,)."""
    return tuple(
        unit_case(loads=(PointLoad(part, point, at, one[:3], one[3:], "unit load"),)) for one in np.eye(6)
    )


def _incoming(solution: Solution, part: str, outgoing: Sequence[str]) -> Iterator[Source]:
    for one in connections(solution):
        if part not in (one.source, one.target) or one.name in outgoing:
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
