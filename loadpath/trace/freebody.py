"""Every part cut free: all that acts on it, and how well that closes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.frame import Solution
from loadpath.model import BODY, weights
from loadpath.trace.connections import connections, reverse

Array = NDArray[np.float64]

LOAD, MASS = "load", "mass"
SMALL = 0.01


@dataclass(frozen=True, eq=False)
class Action:
    """A force and a moment on a part.

    Attributes
    ----------
    name : of the joint or strut, or what the load is. kind : the joint's kind, "strut", LOAD or MASS.
    on, source : the part it acts on and the part it comes from, "" where it comes from outside.
    point : name, "" for a mass. position : (3,) [mm].
    wrench : (6,) force [N] and moment about `position` [N·mm], case axes.
    sure : False where it is not determinate by itself.
    """

    name: str
    kind: str
    on: str
    source: str
    point: str
    position: Array
    wrench: Array
    sure: bool = True


def free_bodies(solution: Solution, c: int) -> Mapping[str, tuple[Action, ...]]:
    """All actions on each part, and on the body, in load case number c.

    Masses are worked out beside the load vectors that were solved; so a closing sum also says that no load and
    no mass got lost.
    """
    bodies: dict[str, list[Action]] = {part: [] for part in solution.system.model.parts}
    for action in (*_held(solution, c), *_given(solution, c), *_masses(solution, c)):
        bodies.setdefault(action.on, []).append(action)
    return {part: tuple(actions) for part, actions in bodies.items()}


def total(actions: Sequence[Action], about: Array) -> Array:
    """(6,) sum of actions: force, and moment about a point (3,)."""
    found = np.zeros(6)
    for action in actions:
        found += moved(action.wrench, action.position, about)
    return found


def moved(wrench: Array, position: Array, about: Array) -> Array:
    """A wrench (6,) or (6, nc) at a position (3,), with its moment about another point (3,)."""
    arm = np.cross(position - about, wrench[:3], axisb=0, axisc=0)
    return np.concatenate([wrench[:3], wrench[3:] + arm])


def closing_error(actions: Sequence[Action], least: float = 0.0) -> float:
    """What the actions leave over: largest component of the sum, relative to the largest force among them.

    Moments are taken about the mean of the positions and over the span of the positions; 0 without actions.
    least : [N] size below which forces are not worth being compared with, see `worth`.
    """
    if not actions:
        return 0.0
    positions = np.array([a.position for a in actions])
    middle = positions.mean(axis=0)
    span = max(float(np.abs(positions - middle).max()), 1.0)
    left, size = total(actions, middle), np.array([a.wrench for a in actions])
    largest = max(least, np.abs(size[:, :3]).max(), np.abs(size[:, 3:]).max() / span)
    return float(max(np.abs(left[:3]).max(), np.abs(left[3:]).max() / span) / (largest or 1.0))


def worth(bodies: Mapping[str, Sequence[Action]]) -> float:
    """SMALL of the largest force in a load case [N]: parts that carry less are measured against this."""
    largest = max((float(np.abs(a.wrench[:3]).max()) for own in bodies.values() for a in own), default=0.0)
    return SMALL * largest


def _held(solution: Solution, c: int) -> Iterator[Action]:
    for one in connections(solution):
        for end in (one, reverse(one)):
            yield Action(
                name=end.name,
                kind=end.kind,
                on=end.target,
                source=end.source,
                point=end.point,
                position=end.position,
                wrench=end.wrench[:, c],
                sure=end.sure,
            )


def _given(solution: Solution, c: int) -> Iterator[Action]:
    case, elements = solution.cases[c], solution.system.mesh.elements
    for load in case.loads:
        wrench = np.concatenate([load.force, load.moment])
        yield Action(load.what, LOAD, load.part, "", load.point, load.position, wrench)
    for line in case.line_loads:
        own = [
            e
            for e, key in enumerate(zip(elements.part, elements.member, strict=True))
            if key == (line.part, line.member)
        ]
        lengths, middles = elements.length[own], np.array([_middle(solution, e) for e in own])
        wrench = np.concatenate([line.force * lengths.sum(), np.zeros(3)])
        yield Action(line.what, LOAD, line.part, "", "", lengths @ middles / lengths.sum(), wrench)


def _middle(solution: Solution, e: int) -> Array:
    """(3,) middle of an element's centroid line."""
    mesh = solution.system.mesh
    local = np.array([mesh.elements.length[e] / 2, *mesh.elements.offset[e]])
    middle: Array = mesh.positions[mesh.elements.ends[e, 0]] + local @ mesh.elements.frame[e]
    return middle


def _masses(solution: Solution, c: int) -> Iterator[Action]:
    """One action for each part with mass: its mass in its field, at its centre of mass."""
    masses = weights(solution.system.model)
    owners = np.array(masses.parts)
    for part in dict.fromkeys(masses.parts):
        own = owners == part
        mass = masses.mass[own]
        if part == BODY or not mass.sum() > 0:
            continue
        centre = mass @ masses.centre[own] / mass.sum()
        force = mass.sum() * solution.cases[c].field_of(part)
        yield Action("own mass", MASS, part, "", "", centre, np.concatenate([force, np.zeros(3)]))
