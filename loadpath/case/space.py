"""Axes and directions of the case file as vectors."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.case.declare import Direction
from loadpath.case.errors import Log, shown
from loadpath.case.tables import AxesTable
from loadpath.model import Axes

Array = NDArray[np.float64]

SHORTEST = 0.01
"""Length [mm] under which a segment counts as none."""
PARALLEL = 1e-3
"""Sine of the angle below which two directions count as parallel: 0.06°."""

_COMPONENTS = {"x": 0, "y": 1, "z": 2}
_NAMED = ("forward", "left", "up")
AXIS_WORDS = tuple(f"{s}{c}" for c in _COMPONENTS for s in "+-")
WORDS = (*_NAMED, *(f"-{n}" for n in _NAMED), *AXIS_WORDS)
"""Words for a direction."""


def axis_vector(word: str) -> Array:
    """(3,) unit vector of an axis word such as "-y"."""
    vector = np.zeros(3)
    vector[_COMPONENTS[word[1]]] = -1.0 if word[0] == "-" else 1.0
    return vector


def component(word: str) -> int:
    """0, 1 or 2 for the axis that an axis word names."""
    return _COMPONENTS[word[1]]


def make_axes(table: AxesTable) -> Axes | None:
    """Unit vectors of the vehicle; None where the set is left-handed or repeats an axis."""
    forward, left, up = (axis_vector(w) for w in (table.forward, table.left, table.up))
    if not np.array_equal(np.cross(forward, left), up):
        return None
    return Axes(forward, left, up)


def direction(value: Direction, axes: Axes, points: Mapping[str, Array], at: Array) -> Array | None:
    """(3,) unit vector of a direction seen from a position; None where it has no length."""
    if not isinstance(value, str):
        vector = np.array(value)
    elif value in points:
        vector = points[value] - at
    elif value.lstrip("-") in _NAMED:
        vector = getattr(axes, value.lstrip("-")) * (-1.0 if value[0] == "-" else 1.0)
    else:
        vector = axis_vector(value)
    length = float(np.linalg.norm(vector))
    return vector / length + 0.0 if length > 1e-9 else None  # + 0.0: no negative zeros


def square_to(vector: Array, axis: Array) -> Array | None:
    """The part of a unit vector square to a unit axis, as a unit vector; None where they are parallel."""
    part = vector - (vector @ axis) * axis
    length = float(np.linalg.norm(part))
    return part / length if length > PARALLEL else None


def least_parallel(axis: Array, axes: Axes) -> Array:
    """The one of forward, up and left that is most square to an axis, made square to it.

    A reflected axis gives the reflected answer up to its sign.
    """
    candidates = (axes.forward, axes.up, axes.left)
    best = min(candidates, key=lambda c: round(abs(float(c @ axis)), 9))
    part = best - (best @ axis) * axis
    return part / np.linalg.norm(part)


@dataclass(frozen=True, eq=False)
class Space:
    """What parts and joints are placed in.

    Attributes
    ----------
    points : positions [mm] of the good points. point_names : of all, the faulty included.
    """

    axes: Axes
    points: Mapping[str, Array]
    point_names: frozenset[str]
    log: Log

    def known(self, names: Iterable[str]) -> bool:
        """True where all of the points have a position; a faulty point has been told of."""
        return all(n in self.points for n in names)

    def looking(self, value: Direction, point: str, path: str) -> Array | None:
        """(3,) unit vector of a direction seen from a point; None, and a mistake, where it has no length."""
        if isinstance(value, str) and not self.known(self.point_names & {point, value}):
            return None
        found = direction(value, self.axes, self.points, self.points.get(point, np.zeros(3)))
        if found is None:
            self.log.mistake(path, f"{shown(value)} has no direction seen from {point}", "a direction")
        return found
