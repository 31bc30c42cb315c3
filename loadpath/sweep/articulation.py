"""How far every joint is turned in every pose, half-shafts with them.

Turns count from design height, those of bushings from where they were clamped. A link between two balls turns about
its own line as little as it can, since nothing says more.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import BODY, Joint, Wheel
from loadpath.pose.attitude import wheel_angles
from loadpath.pose.poses import Poses, angles_between
from loadpath.pose.windup import clamped, windup

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Turn:
    """How far a ball joint, hinge or bushing is turned.

    Attributes
    ----------
    total : (p,) [rad] all of it. about : (p,) [rad] about the hinge's or bushing's axis, or a ball's stud; None for a
        ball whose stud is not known. across : (p,) [rad] the tilt of that axis: conical, or swing of the stud.
    """

    total: Array
    about: Array | None
    across: Array | None


@dataclass(frozen=True, eq=False)
class Shaft:
    """Half-shaft of a wheel: angles (p,) [rad] of its joints, and plunge (p,) [mm], pulled out positive."""

    inner: Array
    outer: Array
    plunge: Array


def turns(poses: Poses) -> dict[str, Turn]:
    """Every ball joint, hinge and bushing, by name.

    Raises
    ------
    OutOfReach : a travel for clamping a bushing that the suspension does not reach.
    """
    wound = windup(poses, clamped(poses.mechanism))
    found = {}
    for name, joint in poses.mechanism.model.joints.items():
        if joint.kind == "bushing":
            turned = wound[name][:, 3:]
            found[name] = Turn(_size(turned), turned[:, 0], np.hypot(turned[:, 1], turned[:, 2]))
        elif joint.kind in ("ball", "hinge"):
            found[name] = _turn(poses, joint)
    return found


def _turn(poses: Poses, joint: Joint) -> Turn:
    """Of a joint whose parts have turned against each other since design height."""
    turned = angles_between(poses, *((part, joint.point) for part in joint.between))
    total = _size(turned)
    axis = joint.axes[0] if joint.kind == "hinge" else joint.stud
    if axis is None:
        return Turn(total, None, None)
    along = turned @ axis
    half = np.sinc(total / 2 / np.pi) / 2
    about = 2 * np.arctan2(along * half, np.cos(total / 2))
    across = 2 * np.arcsin(np.clip(np.sqrt(np.maximum(total**2 - along**2, 0.0)) * half, 0.0, 1.0))
    return Turn(total, about, across)


def _size(vectors: Array) -> Array:
    size: Array = np.sqrt((vectors**2).sum(axis=-1))
    return size


def shafts(poses: Poses) -> dict[str, Shaft]:
    """Half-shafts by wheel."""
    wheels = poses.mechanism.model.wheels
    return {name: _shaft(poses, wheel) for name, wheel in wheels.items() if wheel.half_shaft is not None}


def _shaft(poses: Poses, wheel: Wheel) -> Shaft:
    shaft, model, unit = wheel.half_shaft, poses.mechanism.model, wheel.unit or BODY
    assert shaft is not None
    line = poses.point(wheel.part, shaft.outer) - poses.point(unit, shaft.inner)
    design = model.at(wheel.part, shaft.outer) - model.at(unit, shaft.inner)
    output = poses.turned(unit, shaft.inner) @ shaft.axis
    spin = wheel_angles(poses)[wheel.name].spin
    return Shaft(_between(output, line), _between(spin, line), _size(line) - float(np.linalg.norm(design)))


def _between(a: Array, b: Array) -> Array:
    """(p,) angle between vectors (p, 3)."""
    angle: Array = np.arctan2(_size(np.cross(a, b)), (a * b).sum(axis=-1))
    return angle
