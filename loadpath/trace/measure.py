"""What is counted at a cut: a force along a direction, or a moment about an axis through a point."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Axes, Model
from loadpath.trace.errors import TraceError, unknown
from loadpath.trace.freebody import moved

Array = NDArray[np.float64]

DIRECTIONS = ("forward", "left", "up")


@dataclass(frozen=True, eq=False)
class Measure:
    """One number of a wrench.

    Attributes
    ----------
    name : "forward", "left", "up", or the line that moments are taken about. title : the same for headings.
    axis : (3,) unit vector, case axes. through : (3,) point of the axis for a moment; None for a force.
    """

    name: str
    title: str
    axis: Array
    through: Array | None = None

    @property
    def unit(self) -> str:
        """Unit in which it is shown: "kN" or "N·m"; both are a thousand of the internal one."""
        return "kN" if self.through is None else "N·m"

    def of(self, wrench: Array, position: Array) -> Array:
        """The force component [N], or the moment [N·mm], of a wrench (6,) or (6, nc) at a position (3,)."""
        if self.through is None:
            force: Array = self.axis @ wrench[:3]
            return force
        moment: Array = self.axis @ moved(wrench, position, self.through)[3:]
        return moment

    def size(self, wrench: Array, position: Array) -> float:
        """Size of the force, or of the moment about the point, of a wrench (6,), whatever its direction."""
        whole = wrench[:3] if self.through is None else moved(wrench, position, self.through)[3:]
        return float(np.linalg.norm(whole))


def forces_along(axes: Axes) -> tuple[Measure, ...]:
    """Force forward, left and up."""
    return tuple(Measure(d, f"force {d}", getattr(axes, d)) for d in DIRECTIONS)


def moments_about(model: Model, point: str, toward: str | None = None) -> tuple[Measure, ...]:
    """Moments about the forward, left and up axes through a point, or about the line to another point.

    Raises
    ------
    TraceError : a point that is not there, or two points at one place.
    """
    for name in (point, toward):
        if name is not None and name not in model.points:
            raise unknown("point", name, model.points)
    at = model.points[point]
    if toward is None:
        return tuple(
            Measure(d, f"moment about the {d} axis through {point}", getattr(model.axes, d), at)
            for d in DIRECTIONS
        )
    line = model.points[toward] - at
    length = float(np.linalg.norm(line))
    if not length > 0:
        raise TraceError(f"{point} and {toward} lie at one place: there is no line to take moments about")
    return (
        Measure(f"{point}-{toward}", f"moment about the line from {point} to {toward}", line / length, at),
    )


def pick(measures: Sequence[Measure], name: str | None) -> tuple[Measure, ...]:
    """The measure of that name, or all of them.

    Raises
    ------
    TraceError : a name that is none of them.
    """
    if name is None:
        return tuple(measures)
    found = tuple(m for m in measures if m.name == name)
    if not found:
        raise unknown("direction", name, [m.name for m in measures])
    return found
