"""Joints of the model with their axes and rates."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from loadpath.case.bushings import make_rates, tells_radials_apart
from loadpath.case.carriers import Carriers
from loadpath.case.errors import shown
from loadpath.case.space import Space, least_parallel, square_to
from loadpath.case.tables import JOINTS, BallJoint, BushingJoint, HingeJoint, JointTable, SliderJoint
from loadpath.case.words import join
from loadpath.model import Joint

Array = NDArray[np.float64]

_ACROSS = 0.5
"""Cosine to the left that the axis of a rack has at least: its travel to the left must mean something."""
_KINDS = {table: kind for kind, table in JOINTS.items()}


@dataclass(frozen=True, eq=False)
class JointMaker:
    """Makes joints."""

    space: Space
    carriers: Carriers

    def joint(self, name: str, table: JointTable) -> Joint | None:
        """One joint, or None where it cannot be made."""
        path, log = join("joints", name), self.space.log
        point = table.point or name
        if table.point is None and name not in self.space.point_names:
            log.mistake(join(path, "point"), f"is missing, and {name} is no point", "name of a point")
            return None
        if table.between[0] == table.between[1]:
            log.mistake(
                join(path, "between"), f"{shown(table.between[0])} stands twice", "two different parts"
            )
            return None
        fits = [self.carriers.carries(part, point, path) for part in table.between]
        axes = self._axes(table, point, path)
        if axes is None or not all(fits):
            return None
        rates = make_rates(table, path, log) if isinstance(table, BushingJoint) else None
        made = Joint(name, _KINDS[type(table)], table.between, point, axes, rates)
        if isinstance(table, BushingJoint):
            return replace(made, moves_as=table.moves_as, clamped_at=table.clamped_at)
        if isinstance(table, BallJoint):
            stud = None if table.stud is None else self.space.looking(table.stud, point, join(path, "stud"))
            return replace(made, stud=stud, swing_limit=table.swing_limit)
        return self._rack(made, table, path) if isinstance(table, SliderJoint) else made

    def _rack(self, made: Joint, table: SliderJoint, path: str) -> Joint:
        """A slider with what the steering does with it."""
        log = self.space.log
        if table.travel is not None and not table.rack:
            log.mistake(
                join(path, "travel"), "has no meaning without rack = true", "rack = true, or no travel"
            )
        if table.rack and abs(made.axes[0] @ self.space.axes.left) < _ACROSS:
            log.mistake(join(path, "axis"), "of a rack runs along the vehicle", "an axis across the vehicle")
        return replace(made, rack=table.rack, travel=table.travel)

    def _axes(self, table: JointTable, point: str, path: str) -> Array | None:
        """(3, 3) rows: own axes 1, 2, 3; the vehicle's where the joint has no axis."""
        if not isinstance(table, HingeJoint | SliderJoint | BushingJoint):
            return np.array([self.space.axes.forward, self.space.axes.left, self.space.axes.up])
        axis = self.space.looking(table.axis, point, join(path, "axis"))
        if axis is None:
            return None
        second: Array | None = least_parallel(axis, self.space.axes)
        if isinstance(table, BushingJoint):
            second = self._radial(table, axis, second, point, path)
        return None if second is None else np.array([axis, second, np.cross(axis, second)])

    def _radial(
        self, table: BushingJoint, axis: Array, default: Array | None, point: str, path: str
    ) -> Array | None:
        """Direction of the first radial."""
        place, log = join(path, "radial_toward"), self.space.log
        if table.radial_toward is None:
            if tells_radials_apart(table):
                log.mistake(place, "is missing", "the direction of the first of two different radials")
                return None
            return default
        toward = self.space.looking(table.radial_toward, point, place)
        if toward is None:
            return None
        square = square_to(toward, axis)
        if square is None:
            log.mistake(
                place, f"{shown(table.radial_toward)} is parallel to the axis", "a direction across it"
            )
        return square
