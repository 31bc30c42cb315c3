"""Joints between parts, as frozen data."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from loadpath.model.curve import Curve

Array = NDArray[np.float64]

JointKind = Literal["welded", "bolted", "ball", "hinge", "slider", "bushing"]
Kinematics = Literal["ball", "hinge", "sliding ball", "fixed", "free"]
"""What a bushing is to the kinematics: a ball at its centre, a hinge about its axis, a ball that slides along
its axis, a joint that holds everything, or no joint at all."""


@dataclass(frozen=True)
class BushingRates:
    """Rates in the bushing's own axes: axial, two radial [N/mm]; torsional, two conical [N·mm/rad].

    curves : force or moment over movement for each of the six where it is no straight line, else None; the rate
        is then the curve's slope at rest.
    """

    axial: float
    radial: tuple[float, float]
    torsional: float
    conical: tuple[float, float]
    curves: tuple[Curve | None, ...] = (None,) * 6

    def diagonal(self) -> Array:
        """(6,) rates along and about own axes 1 (axial), 2, 3."""
        return np.array([self.axial, *self.radial, self.torsional, *self.conical])


@dataclass(frozen=True, eq=False)
class Joint:
    """Connects two parts at a point.

    Attributes
    ----------
    between : the two part names; forces are reported as acting on the second.
    axes : (3, 3) rows are the joint's own axes 1 (the hinge, slide or bushing axis), 2, 3; in a pose they have
        turned with the first part.
    rates : of a bushing, else None.
    moves_as : of a bushing, what it is to the kinematics.
    clamped_at : of a bushing, jounce of the wheels [mm] at which it was bolted tight: there it is not wound up.
    rack : a slider that the steering moves: held where it stands. travel : [mm] of a rack to each side; None where
        not given.
    stud : (3,) direction of a ball joint's stud at design height, None where it is not known. swing_limit : [rad] by
        which it may swing from there, None where not given.
    """

    name: str
    kind: JointKind
    between: tuple[str, str]
    point: str
    axes: Array
    rates: BushingRates | None = None
    moves_as: Kinematics = "ball"
    clamped_at: float = 0.0
    rack: bool = False
    stud: Array | None = None
    swing_limit: float | None = None
    travel: float | None = None
