"""Motion ratio of every force element, and what the springs of a wheel do at the wheel."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.pose.mechanism import Mechanism
from loadpath.pose.poses import Poses, pose_many
from loadpath.pose.pushes import law_pushes, reach_of

Array = NDArray[np.float64]

_STEP = 0.5
"""[mm] of travel either way over which a wheel rate is taken."""


@dataclass(frozen=True, eq=False)
class Strut:
    """One force element.

    Attributes
    ----------
    length : (p,) [mm] between its ends. ratio : (p,) motion ratio: by how much it shortens for a unit travel of its
        own wheel, the others standing still; its inverse is the push of the strut over the wheel force it holds.
    push : (p,) [N] by its law, compression positive; None where it has none.
    """

    length: Array
    ratio: Array
    push: Array | None


@dataclass(frozen=True, eq=False)
class WheelSpring:
    """What springs, stops and dampers hold up of one wheel by their laws: force (p,) [N], and rate (p,) [N/mm]."""

    force: Array
    rate: Array


def struts(poses: Poses) -> dict[str, Strut]:
    """Every force element of the model, by name."""
    pushes, wheels, found = law_pushes(poses), poses.mechanism.wheels, {}
    for name, element in poses.mechanism.model.force_elements.items():
        reach = reach_of(poses, element)
        ratio = (
            -reach.rate[:, wheels.index(element.wheel)] if element.wheel in wheels else np.zeros(len(poses))
        )
        found[name] = Strut(reach.length, ratio, pushes.get(name))
    return found


def wheel_springs(poses: Poses) -> dict[str, WheelSpring]:
    """Every wheel whose force elements all have a law.

    The rate is that of the force at the wheel with its own travel, the change of the motion ratio included: k i² +
    F di/dz (Milliken and Milliken, ch. 16, from memory).
    """
    mechanism, found = poses.mechanism, {}
    for k, wheel in enumerate(mechanism.wheels):
        own = [e for e in mechanism.model.force_elements.values() if e.wheel == wheel]
        if own and all(e.law is not None for e in own):
            aside = np.zeros(len(mechanism.drivers))
            aside[k] = _STEP
            less, more = (_force(mechanism, poses.targets + s * aside, wheel) for s in (-1, 1))
            found[wheel] = WheelSpring(_force(mechanism, poses.targets, wheel), (more - less) / (2 * _STEP))
    return found


def _force(mechanism: Mechanism, targets: Array, wheel: str) -> Array:
    """(p,) [N] at the wheel, upward on it."""
    force = np.zeros(len(targets))
    for name, strut in struts(pose_many(mechanism, targets)).items():
        if strut.push is not None and mechanism.model.force_elements[name].wheel == wheel:
            force += strut.push * strut.ratio
    return force
