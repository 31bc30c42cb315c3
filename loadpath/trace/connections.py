"""Joints and struts as what they are for the load path: a force that one part gives to another."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from loadpath.frame import Solution
from loadpath.model import BODY, ForceElement, Joint, Model

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Connection:
    """A joint or a strut under the nc load cases of one solution.

    Attributes
    ----------
    kind : the joint's kind, or "strut".
    source, target : parts; the force is that of the source on the target. The body is always the target;
        otherwise the target is the second part named.
    points, positions : on the source and on the target, (2, 3) [mm]; the same two of a joint.
    axes : (3, 3) rows are its own axes; of a strut the first runs from source to target.
    wrench : (6, nc) force [N] and moment about `position` [N·mm], case axes.
    sure : False where it is not determinate by itself, see `Solution.redundant`.
    """

    name: str
    kind: str
    source: str
    target: str
    points: tuple[str, str]
    positions: Array
    axes: Array
    wrench: Array
    sure: bool

    @property
    def point(self) -> str:
        """Point of the target that the force acts at."""
        return self.points[1]

    @property
    def position(self) -> Array:
        """(3,) of that point [mm]."""
        at: Array = self.positions[1]
        return at


def connections(solution: Solution) -> tuple[Connection, ...]:
    """All joints, then all struts, in the order of the model."""
    model = solution.system.model
    unsure = {name for group in solution.redundant for name in group}
    joints = [
        _of_joint(model, model.joints[name], wrench, name not in unsure)
        for name, wrench in zip(solution.joint_names, solution.joint_forces, strict=True)
    ]
    struts = [
        _of_strut(model, model.force_elements[name], push, name not in unsure)
        for name, push in zip(solution.push_names, solution.pushes, strict=True)
    ]
    return (*joints, *struts)


def reverse(connection: Connection) -> Connection:
    """The same told from the other end: the force of the target on the source."""
    return replace(
        connection,
        source=connection.target,
        target=connection.source,
        points=(connection.points[1], connection.points[0]),
        positions=connection.positions[::-1],
        wrench=-connection.wrench,
    )


def _of_joint(model: Model, joint: Joint, wrench: Array, sure: bool) -> Connection:
    first, second = joint.between
    points, at = (joint.point, joint.point), np.tile(model.points[joint.point], (2, 1))
    found = Connection(joint.name, joint.kind, first, second, points, at, joint.axes, wrench, sure)
    return reverse(found) if first == BODY else found


def _of_strut(model: Model, strut: ForceElement, push: Array, sure: bool) -> Connection:
    ends = list(zip(strut.between, strut.ends, strict=True))
    (source, start), (target, end) = ends[::-1] if strut.between[0] == BODY else ends
    positions = np.array([model.at(source, start), model.at(target, end)])
    axes = _axes_along(positions[1] - positions[0])
    wrench = np.concatenate([axes[0], np.zeros(3)])[:, None] * push
    return Connection(strut.name, "strut", source, target, (start, end), positions, axes, wrench, sure)


def _axes_along(line: Array) -> Array:
    """(3, 3) rows: the line's direction and two axes square to it."""
    first = line / np.linalg.norm(line)
    third = np.cross(first, np.eye(3)[int(np.abs(first).argmin())])
    third = third / np.linalg.norm(third)
    return np.array([first, np.cross(third, first), third])
