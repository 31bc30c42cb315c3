"""What the case limits: swing of ball joints, angles and plunge of half-shafts, against what poses ask for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from loadpath.pose.poses import Poses
from loadpath.sweep.articulation import shafts, turns

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Limited:
    """One limited quantity: what it is, its unit as shown; size in every pose (p,) and most allowed [rad, mm]."""

    what: str
    unit: Literal["deg", "mm"]
    size: Array
    allowed: float


def limited(poses: Poses) -> list[Limited]:
    """All that the case gives a limit for.

    A ball joint whose stud is not known is judged by its whole turn, which is no less than its swing.
    """
    return [*_balls(poses), *_shafts(poses)]


def _balls(poses: Poses) -> Iterator[Limited]:
    found = turns(poses)
    for name, joint in poses.mechanism.model.joints.items():
        if joint.swing_limit is not None:
            swing = found[name].across
            what = f"{name}, swing" if swing is not None else f"{name}, whole turn (stud not given)"
            yield Limited(what, "deg", found[name].total if swing is None else swing, joint.swing_limit)


def _shafts(poses: Poses) -> Iterator[Limited]:
    for name, shaft in shafts(poses).items():
        given = poses.mechanism.model.wheels[name].half_shaft
        assert given is not None
        if given.inner_limit is not None:
            yield Limited(f"half-shaft of {name}, inner joint", "deg", shaft.inner, given.inner_limit)
        if given.outer_limit is not None:
            yield Limited(f"half-shaft of {name}, outer joint", "deg", shaft.outer, given.outer_limit)
        if given.plunge_limit is not None:
            yield Limited(f"half-shaft of {name}, plunge", "mm", np.abs(shaft.plunge), given.plunge_limit)
