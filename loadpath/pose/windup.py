"""How far bushings have been moved since they were clamped, in every pose; all nb bushings of a model at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Joint, Model
from loadpath.pose.mechanism import Mechanism
from loadpath.pose.poses import Poses, pose_many
from loadpath.pose.rotation import cross, rotation_vector, transposed

Array = NDArray[np.float64]
Ints = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Clamped:
    """Where each bushing was clamped: its second part against the first.

    Relative rotation (nb, 3, 3) and displacement (nb, 3), in the first part's axes at design height.
    """

    turn: Array
    shift: Array


def clamped(mechanism: Mechanism) -> Clamped:
    """Where every bushing is not wound up: at the jounce at which it was bolted tight.

    Raises
    ------
    OutOfReach : a jounce for clamping that the suspension does not reach.
    """
    bushings = bushings_of(mechanism.model)
    heights = sorted({j.clamped_at for j in bushings})
    if not any(heights):
        return Clamped(np.tile(np.eye(3), (len(bushings), 1, 1)), np.zeros((len(bushings), 3)))
    poses = pose_many(
        mechanism, np.array([mechanism.targets(dict.fromkeys(mechanism.wheels, h)) for h in heights])
    )
    turn, shift = _relative(poses, _places(poses))
    own = [heights.index(j.clamped_at) for j in bushings]
    every = np.arange(len(bushings))
    return Clamped(turn[own, every], shift[own, every])


def windup(poses: Poses, rest: Clamped) -> dict[str, Array]:
    """(p, 6) of each bushing in its own axes: displacement [mm] and rotation vector [rad] since it was clamped."""
    places = _places(poses)
    moved = _moved(poses, places, rest)
    return {j.name: moved[:, k] for k, j in enumerate(places.joints)}


def bushing_power(poses: Poses, rest: Clamped) -> Array:
    """(p, nd) power that it takes to wind up all bushings [N]."""
    places = _places(poses)
    force = _forces(places.joints, _moved(poses, places, rest))
    power: Array = np.einsum("pbi,pdbi->pd", force, _rates(poses, places), optimize=True)
    return power


def bushings_of(model: Model) -> tuple[Joint, ...]:
    """The nb bushings of a model, in its order."""
    return tuple(j for j in model.joints.values() if j.rates is not None)


@dataclass(frozen=True, eq=False)
class _Places:
    """Bushings with the carriers (nb,) of both sides, their places at design height and their axes (nb, 3, 3)."""

    joints: tuple[Joint, ...]
    first: Ints
    second: Ints
    at_first: Array
    at_second: Array
    axes: Array


def _places(poses: Poses) -> _Places:
    mechanism, model = poses.mechanism, poses.mechanism.model
    joints = bushings_of(model)
    first, second = (
        np.array([mechanism.carrier(j.between[k], j.point) for j in joints], dtype=np.intp) for k in (0, 1)
    )
    at = [np.array([model.at(j.between[k], j.point) for j in joints]).reshape(-1, 3) for k in (0, 1)]
    return _Places(joints, first, second, at[0], at[1], np.array([j.axes for j in joints]).reshape(-1, 3, 3))


def _relative(poses: Poses, places: _Places) -> tuple[Array, Array]:
    """Rotation (p, nb, 3, 3) and displacement (p, nb, 3) of second parts against first, in the first's axes."""
    back = transposed(poses.turn[:, places.first])
    apart = poses.points(places.second, places.at_second) - poses.points(places.first, places.at_first)
    shift: Array = (back @ apart[..., None])[..., 0]
    return back @ poses.turn[:, places.second], shift


def _moved(poses: Poses, places: _Places, rest: Clamped) -> Array:
    """(p, nb, 6) displacement and rotation vector since clamped, own axes."""
    turn, shift = _relative(poses, places)
    moved = (places.axes @ (shift - rest.shift)[..., None])[..., 0]
    turned = (places.axes @ rotation_vector(turn @ transposed(rest.turn))[..., None])[..., 0]
    return np.concatenate([moved, turned], axis=-1)


def _forces(joints: tuple[Joint, ...], moved: Array) -> Array:
    """(p, nb, 6) force and moment [N, N·mm] that movements ask for, own axes."""
    force = moved.copy()
    for k, joint in enumerate(joints):
        if joint.rates is None:
            continue
        force[:, k] *= joint.rates.diagonal()
        for i, curve in enumerate(joint.rates.curves):
            if curve is not None:
                force[:, k, i] = curve.value(moved[:, k, i])
    return force


def _rates(poses: Poses, places: _Places) -> Array:
    """(p, nd, nb, 6) rate of the second part's movement against the first with each driver, own axes."""
    axes = (places.axes @ transposed(poses.turn[:, places.first]))[:, None]
    at = poses.points(places.second, places.at_second)
    screws = [poses.screw[:, :, side] for side in (places.first, places.second)]
    moving = screws[1][..., :3] - screws[0][..., :3]
    moving = moving + cross(screws[1][..., 3:] - screws[0][..., 3:], at[:, None])
    turning = screws[1][..., 3:] - screws[0][..., 3:]
    return np.concatenate([(axes @ v[..., None])[..., 0] for v in (moving, turning)], axis=-1)
