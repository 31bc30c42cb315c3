"""Levers of ride-height sensors: a lever on one part, a rod from its end to another part."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loadpath.model import HeightSensor
from loadpath.pose.errors import OutOfReach
from loadpath.pose.poses import Poses
from loadpath.pose.rotation import transposed

Array = NDArray[np.float64]


def levers(poses: Poses) -> dict[str, Array]:
    """(p,) [rad] by which the lever of every sensor has turned about its axis since design height.

    Raises
    ------
    OutOfReach : a rod that is too short or too long for a pose.
    """
    return {name: _lever(poses, sensor) for name, sensor in poses.mechanism.model.sensors.items()}


def _lever(poses: Poses, sensor: HeightSensor) -> Array:
    """Closed form: |pivot + R(φ) arm − end| = rod is A cos φ + B sin φ = C; the way of assembly stays as it is."""
    model, (part, other) = poses.mechanism.model, sensor.between
    pivot, lever, rod_end = (
        model.at(part, sensor.pivot),
        model.at(part, sensor.lever),
        model.at(other, sensor.rod),
    )
    apart = poses.point(other, sensor.rod) - poses.point(part, sensor.pivot)
    end = (transposed(poses.turned(part, sensor.pivot)) @ apart[..., None])[..., 0]
    along = ((lever - pivot) @ sensor.axis) * sensor.axis
    first = lever - pivot - along
    second, off = np.cross(sensor.axis, first), along - end
    a, b = off @ first, off @ second
    c = (((lever - rod_end) ** 2).sum() - (off**2).sum(axis=-1) - first @ first) / 2
    reach = np.hypot(a, b)
    if (np.abs(c) > reach).any():
        k = int(np.flatnonzero(np.abs(c) > reach)[0])
        travel = ", ".join(
            f"{name} {value:+.1f}"
            for name, value in zip(poses.mechanism.drivers, poses.targets[k], strict=True)
        )
        raise OutOfReach(f"the rod of sensor {sensor.name} is too short or too long at {travel} mm")
    at_rest = np.arctan2((along - rod_end + pivot) @ second, (along - rod_end + pivot) @ first)
    angle = np.arctan2(b, a) - np.sign(np.sin(at_rest)) * np.arccos(c / reach)
    wrapped: Array = (angle + np.pi) % (2 * np.pi) - np.pi
    return wrapped
