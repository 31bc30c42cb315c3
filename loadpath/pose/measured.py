"""A model whose points were measured at another travel, moved to design height."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from loadpath.model import BODY, ForceElement, HeightSensor, Model, Part, Wheel
from loadpath.pose.mechanism import make_mechanism
from loadpath.pose.posed import Standing, owned_points, posed_model
from loadpath.pose.poses import Poses, pose_many
from loadpath.pose.pushes import reach_of

Array = NDArray[np.float64]


def to_design_height(model: Model, travel: float, more: Iterable[tuple[str, str]] = ()) -> Model:
    """The model at design height, of one that stands at a travel.

    Camber and toe of the wheels are what they are set to at design height and stay.

    Parameters
    ----------
    travel : [mm] of all wheels at which the points are given, up against the body positive.
    more : (part, point) that move with a part though nothing of the model says so.

    Raises
    ------
    PoseError : a model that is no linkage of its wheels, or that cannot travel so far.
    """
    mechanism = make_mechanism(model)
    target = mechanism.targets(dict.fromkeys(mechanism.wheels, -travel))
    poses = pose_many(mechanism, target[None])
    owned = tuple(dict.fromkeys((*owned_points(model), *more)))
    carriers = np.array([mechanism.carrier(*o) for o in owned], dtype=np.intp)
    at = np.array([model.at(*o) for o in owned]).reshape(-1, 3)
    pushes = {n: np.array([e.force]) for n, e in model.force_elements.items()}
    moved = posed_model(Standing(poses, owned, poses.points(carriers, at), {}, pushes), 0)
    return replace(
        moved,
        pose=None,
        parts={name: _part(poses, part) for name, part in moved.parts.items()},
        joints={
            name: joint
            if joint.stud is None
            else replace(joint, stud=_turn(poses, joint.between[0]) @ joint.stud)
            for name, joint in moved.joints.items()
        },
        force_elements={name: _element(poses, element) for name, element in model.force_elements.items()},
        wheels={name: _wheel(poses, wheel) for name, wheel in model.wheels.items()},
        sensors={name: _sensor(poses, sensor) for name, sensor in model.sensors.items()},
    )


def _turn(poses: Poses, part: str) -> Array:
    turn: Array = poses.turned(part)[0]
    return turn


def _part(poses: Poses, part: Part) -> Part:
    if part.split is None or part.split.axis is None:
        return part
    turn = poses.turned(part.name, part.split.at)[0]
    return replace(part, split=replace(part.split, axis=turn @ part.split.axis))


def _element(poses: Poses, element: ForceElement) -> ForceElement:
    """With the push and the rate that its law gives at design height."""
    if element.law is None:
        return element
    length = reach_of(poses, element).length
    push, rate = (float(of(length, length)[0]) for of in (element.law.push, element.law.rate))
    return replace(element, force=element.force if element.locked else push, rate=rate)


def _wheel(poses: Poses, wheel: Wheel) -> Wheel:
    if wheel.half_shaft is None:
        return wheel
    axis = _turn(poses, wheel.unit or BODY) @ wheel.half_shaft.axis
    return replace(wheel, half_shaft=replace(wheel.half_shaft, axis=axis))


def _sensor(poses: Poses, sensor: HeightSensor) -> HeightSensor:
    return replace(sensor, axis=_turn(poses, sensor.between[0]) @ sensor.axis)
