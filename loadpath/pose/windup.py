"""How far bushings have been moved since they were clamped, in every pose."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Joint, Model
from loadpath.pose.mechanism import Mechanism
from loadpath.pose.poses import Poses, pose_many
from loadpath.pose.rotation import rotation_vector, transposed

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Clamped:
    """Where each bushing was clamped: its second part against the first.

    Relative rotation (3, 3) and displacement (3,), in the first part's axes at design height.
    """

    turn: Mapping[str, Array]
    shift: Mapping[str, Array]


def clamped(mechanism: Mechanism) -> Clamped:
    """Where every bushing is not wound up: at the jounce at which it was bolted tight.

    Raises
    ------
    OutOfReach : a jounce for clamping that the suspension does not reach.
    """
    model = mechanism.model
    heights = sorted({j.clamped_at for j in _bushings(model)})
    targets = np.array([mechanism.targets(dict.fromkeys(mechanism.wheels, h)) for h in heights])
    turn: dict[str, Array] = {}
    shift: dict[str, Array] = {}
    if not any(heights):
        for joint in _bushings(model):
            turn[joint.name], shift[joint.name] = np.eye(3), np.zeros(3)
        return Clamped(turn, shift)
    poses = pose_many(mechanism, targets)
    for joint in _bushings(model):
        k = heights.index(joint.clamped_at)
        turns, shifts = _relative(poses, joint)
        turn[joint.name], shift[joint.name] = turns[k], shifts[k]
    return Clamped(turn, shift)


def windup(poses: Poses, rest: Clamped) -> dict[str, Array]:
    """(p, 6) of each bushing in its own axes: displacement [mm] and rotation vector [rad] since it was clamped."""
    found = {}
    for joint in _bushings(poses.mechanism.model):
        turn, shift = _relative(poses, joint)
        moved = shift - rest.shift[joint.name]
        turned = rotation_vector(turn @ rest.turn[joint.name].T)
        found[joint.name] = np.concatenate([moved @ joint.axes.T, turned @ joint.axes.T], axis=1)
    return found


def _bushings(model: Model) -> list[Joint]:
    return [j for j in model.joints.values() if j.rates is not None]


def _relative(poses: Poses, joint: Joint) -> tuple[Array, Array]:
    """Rotation (p, 3, 3) and displacement (p, 3) of the second part against the first, in the first's axes."""
    (a, b), point = joint.between, joint.point
    first = transposed(poses.turned(a, point))
    shift: Array = (first @ (poses.point(b, point) - poses.point(a, point))[..., None])[..., 0]
    return first @ poses.turned(b, point), shift


def bushing_power(poses: Poses, rest: Clamped) -> Array:
    """(p, nd) power that it takes to wind up all bushings [N]."""
    model, found = poses.mechanism.model, np.zeros(poses.screw.shape[:2])
    for name, moved in windup(poses, rest).items():
        joint = model.joints[name]
        found += np.einsum("pi,pdi->pd", _force(joint, moved), movement_rates(poses, joint))
    return found


def _force(joint: Joint, moved: Array) -> Array:
    """(p, 6) force and moment [N, N·mm] that movements (p, 6) of a bushing ask for, in its own axes."""
    rates = joint.rates
    if rates is None:
        return np.zeros_like(moved)
    force = moved * rates.diagonal()
    for i, curve in enumerate(rates.curves):
        if curve is not None:
            force[:, i] = curve.value(moved[:, i])
    return force


def movement_rates(poses: Poses, joint: Joint) -> Array:
    """(p, nd, 6) rate of the second part's movement against the first with each driver, in the joint's own axes."""
    (a, b), point = joint.between, joint.point
    axes = joint.axes @ transposed(poses.turned(a, point))
    gap = poses.point(b, point) - poses.point(a, point)
    spin = poses.spin(a, point)
    moving = poses.velocity(b, point) - poses.velocity(a, point) - np.cross(spin, gap[:, None])
    turning = poses.spin(b, point) - spin
    rates = np.stack([moving, turning], axis=2)
    own: Array = np.einsum("pij,pdkj->pdki", axes, rates).reshape(len(poses), rates.shape[1], 6)
    return own
