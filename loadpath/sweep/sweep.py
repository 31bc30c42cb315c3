"""Poses along one motion: both wheels together, the body's roll, one side alone, or the steering."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

import numpy as np
from numpy.typing import NDArray

from loadpath.model import FULL_TRAVEL
from loadpath.pose.errors import PoseError
from loadpath.pose.mechanism import Mechanism
from loadpath.pose.poses import Poses, pose_many

Array = NDArray[np.float64]

Motion = Literal["heave", "roll", "left", "right", "steer"]
MOTIONS: tuple[Motion, ...] = get_args(Motion)
"""heave: all wheels by the same travel. roll: left wheels up, right ones down by the same. left, right: the wheels of
one side, the others stay. steer: all racks by the same travel to the left."""

APART = 1e-5
"""[mm] that the two sides of a joint may be apart in a pose."""
_SAME = 0.01


@dataclass(frozen=True, eq=False)
class Sweep:
    """Poses at rising values (p,) [mm] of one motion; gap [mm] is the most that the sides of a joint are apart."""

    motion: Motion
    values: Array
    poses: Poses
    gap: float


def sweep(
    mechanism: Mechanism, motion: Motion, step: float = 10.0, jounce: float = 0.0, rack: float = 0.0
) -> Sweep:
    """Poses at every multiple of a step within the full travels, and at their ends.

    In heave a wheel whose full travel is shorter than that of another stays at its end.

    Parameters
    ----------
    step : [mm]. jounce, rack : [mm] of the wheels and racks that the motion does not move.

    Raises
    ------
    PoseError : nothing to move so, a pose that cannot be reached, or joints that come apart.
    """
    moved = _moved(mechanism, motion)
    if not moved.any():
        lacking = "steering rack" if motion == "steer" else "wheels that travel so"
        raise PoseError(f"the motion {motion} cannot be: the case has no {lacking}")
    limits = _limits(mechanism)
    own = np.sort(limits[moved != 0] * moved[moved != 0, None], axis=1)
    ends = (own[:, 0].min(), own[:, 1].max()) if motion == "heave" else (own[:, 0].max(), own[:, 1].min())
    values = _values(float(ends[0]), float(ends[1]), step)
    still = np.where(np.arange(len(moved)) < len(mechanism.wheels), jounce, rack)
    going = np.clip(values[:, None] * moved, limits[:, 0], limits[:, 1])
    poses = pose_many(mechanism, np.where(moved != 0, going, still))
    gap = widest_gap(poses)
    if not gap < APART:
        raise PoseError(f"the joints come apart by {gap:.2g} mm along the motion {motion}")
    return Sweep(motion, values, poses, gap)


def _moved(mechanism: Mechanism, motion: Motion) -> Array:
    """(nd,) movement of each driver per movement of the motion."""
    left = np.array([mechanism.model.wheels[w].left for w in mechanism.wheels], dtype=bool)
    racks, none = np.zeros(len(mechanism.racks)), np.zeros(len(left))
    if motion == "steer":
        return np.concatenate([none, racks + 1.0])
    sides = {"heave": none + 1.0, "left": left + 0.0, "right": ~left + 0.0}
    sides["roll"] = np.where(left, 1.0, -1.0) if left.any() and not left.all() else none
    return np.concatenate([sides[motion], racks])


def _limits(mechanism: Mechanism) -> Array:
    """(nd, 2) least and most value [mm] of each driver."""
    limits = [mechanism.model.wheels[w].travel() for w in mechanism.wheels]
    for name in mechanism.racks:
        side = mechanism.model.joints[name].travel or FULL_TRAVEL
        limits.append((-side, side))
    return np.array(limits).reshape(-1, 2)


def _values(least: float, most: float, step: float) -> Array:
    """Multiples of the step within, and both ends."""
    inner = step * np.arange(np.ceil(least / step), np.floor(most / step) + 1)
    inner = inner[(inner > least + _SAME) & (inner < most - _SAME)]
    return np.concatenate([[least], inner, [most]]) + 0.0


def widest_gap(poses: Poses) -> float:
    """[mm] that the two sides of a joint that does not slide are apart at most."""
    gaps = [0.0]
    for joint in poses.mechanism.model.joints.values():
        slides = joint.kind == "slider" or (
            joint.kind == "bushing" and joint.moves_as in ("sliding ball", "free")
        )
        if not slides:
            a, b = (poses.point(part, joint.point) for part in joint.between)
            gaps.append(float(np.abs(a - b).max()))
    return max(gaps)
