"""What carries the wheels in height while they are loaded sideways, and laws taken straight for small loads.

On a rig the body is clamped and each wheel's pad keeps its vertical load while it pushes or turns the wheel, so
that the wheel rides on its spring (common practice, no source). Springs of known rate therefore give way; an
element without a rate stays locked at its length, and the answer then says so.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from loadpath.model import ForceElement, Joint, Model
from loadpath.pose import clamped, make_mechanism, pose_many, posed_model, standing


@dataclass(frozen=True, eq=False)
class Ride:
    """A model for small loads.

    Attributes
    ----------
    model : bushings by their rate at rest; springs of known rate give way with it, unless all are locked.
    springs : rate [N/mm] of each element that gives way. locked : elements held at their length.
    curved : bushings with a force-deflection table, of which only the slope at rest is taken.
    """

    model: Model
    springs: Mapping[str, float]
    locked: tuple[str, ...]
    curved: tuple[str, ...]


def standing_wheels(model: Model, design: Model | None = None, *, locked: bool = False) -> Ride:
    """The model with its wheels on their springs, or with all springs locked.

    design : the model at design height, where `model` is in a pose: springs of no constant rate need their
        length there. Loads are small: bushings answer by their rate at rest, springs by their rate in the pose;
        the force with which they push does not enter.
    """
    rates = {} if locked else _rates(model, design or model)
    elements = {name: _small(e, rates.get(name, 0.0)) for name, e in model.force_elements.items()}
    curved = tuple(j.name for j in model.joints.values() if j.rates is not None and any(j.rates.curves))
    joints = {name: _straight(j) for name, j in model.joints.items()}
    held = tuple(e.name for e in elements.values() if e.locked)
    return Ride(replace(model, force_elements=elements, joints=joints, pose=None), rates, held, curved)


def posed_at(model: Model, jounce: float, rack: float = 0.0) -> Model:
    """The model with all its wheels at a jounce [mm] and its racks at a travel [mm]; the body stays where it is.

    Raises
    ------
    PoseError : a suspension that cannot be posed, or does not get there.
    """
    if not jounce and not rack:
        return model
    mechanism = make_mechanism(model)
    target = mechanism.targets(dict.fromkeys(mechanism.wheels, jounce), rack)
    none = {name: np.zeros(1) for name in model.force_elements}
    return posed_model(standing(pose_many(mechanism, target[None]), clamped(mechanism), none), 0)


def _rates(model: Model, design: Model) -> dict[str, float]:
    found = {}
    for name, element in model.force_elements.items():
        rate = element.rate if element.locked and element.law is None else 0.0
        if element.law is not None:
            length = np.array(_length(model, element))
            rate = float(element.law.rate(length, _length(design, element)))
        if rate > 0:
            found[name] = rate
    return found


def _length(model: Model, element: ForceElement) -> float:
    a, b = (model.at(part, point) for part, point in zip(element.between, element.ends, strict=True))
    return float(np.linalg.norm(b - a))


def _small(element: ForceElement, rate: float) -> ForceElement:
    return replace(element, locked=element.locked and not rate, force=0.0, free_rate=rate)


def _straight(joint: Joint) -> Joint:
    if joint.rates is None:
        return joint
    return replace(joint, rates=replace(joint.rates, curves=(None,) * 6))
