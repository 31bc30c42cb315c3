"""Unit loads at a wheel, as a rig or the vehicle puts them in.

Signs, for both sides alike: lateral force inward (as on the outer wheel in a corner), braking force rearward,
driving force forward, aligning moment towards toe-in, impact force rearward, vertical force upward.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import LoadCase, Model, PointLoad, Wheel, contact_patch

Array = NDArray[np.float64]


@dataclass(frozen=True)
class UnitLoad:
    """One kind of unit load: 1 N, or 1 N·mm.

    Attributes
    ----------
    name : for tables. where : where it acts, in words, on a wheel. unit : in which it is shown. scale : how many
        N or N·mm that is. turns : True where the two wheels of an axle, loaded as the vehicle loads them, get
        loads of opposite sign: both to one side of the vehicle, both to one hand.
    """

    name: str
    where: Callable[[Wheel], str]
    unit: str
    scale: float
    turns: bool
    act: Callable[[Model, Wheel], tuple[PointLoad, ...]]

    def case(self, model: Model, wheel: Wheel) -> LoadCase | None:
        """The load alone on one wheel; None where the wheel cannot have it."""
        loads = self.act(model, wheel)
        if not loads:
            return None
        return LoadCase(f"{self.name} {wheel.name}", "unit", "rare", np.zeros(3), loads)


def inward(model: Model, wheel: Wheel) -> Array:
    """(3,) unit vector from a wheel to the vehicle's middle."""
    return -model.axes.left if wheel.left else model.axes.left


def _push(model: Model, wheel: Wheel, force: Array, *, patch: bool) -> PointLoad:
    at = contact_patch(model, wheel) if patch else model.at(wheel.part, wheel.centre)
    return PointLoad(wheel.part, wheel.centre, at, force, np.zeros(3), "unit load")


def _lateral(model: Model, wheel: Wheel) -> tuple[PointLoad, ...]:
    return (_push(model, wheel, inward(model, wheel), patch=True),)


def _braking(model: Model, wheel: Wheel) -> tuple[PointLoad, ...]:
    force = -model.axes.forward
    if wheel.brake == "outboard" or wheel.brake_part is None:
        return (_push(model, wheel, force, patch=True),)
    return (_push(model, wheel, force, patch=False), *_torque(model, wheel, wheel.brake_part, force))


def _driving(model: Model, wheel: Wheel) -> tuple[PointLoad, ...]:
    force = model.axes.forward
    if wheel.drive == "none":
        return ()
    if wheel.drive == "hub" or wheel.unit is None:
        return (_push(model, wheel, force, patch=True),)
    return (_push(model, wheel, force, patch=False), *_torque(model, wheel, wheel.unit, force))


def _torque(model: Model, wheel: Wheel, taker: str, force: Array) -> tuple[PointLoad, ...]:
    """What the torque of a force of the ground leaves on the part that takes it; none on one with the body."""
    point = next((j.point for j in model.joints.values() if taker in j.between), None)
    if point is None:
        return ()
    moment = -(force @ model.axes.forward) * wheel.radius * model.axes.left
    return (PointLoad(taker, point, model.at(taker, point), np.zeros(3), moment, "torque of the unit load"),)


def _aligning(model: Model, wheel: Wheel) -> tuple[PointLoad, ...]:
    # the front of the wheel goes inward: on the left wheel to the right, a negative turn about up
    moment = (-1.0 if wheel.left else 1.0) * model.axes.up
    at = contact_patch(model, wheel)
    return (PointLoad(wheel.part, wheel.centre, at, np.zeros(3), moment, "unit load"),)


def _impact(model: Model, wheel: Wheel) -> tuple[PointLoad, ...]:
    return (_push(model, wheel, -model.axes.forward, patch=False),)


def _vertical(model: Model, wheel: Wheel) -> tuple[PointLoad, ...]:
    return (_push(model, wheel, model.axes.up, patch=True),)


def _at_patch(wheel: Wheel) -> str:
    return "contact patch"


def _at_centre(wheel: Wheel) -> str:
    return "wheel centre"


def _where_braked(wheel: Wheel) -> str:
    return "contact patch" if wheel.brake == "outboard" else f"wheel centre, torque on {wheel.brake_part}"


def _where_driven(wheel: Wheel) -> str:
    return "contact patch" if wheel.drive == "hub" else f"wheel centre, torque on {wheel.unit}"


LATERAL = UnitLoad("lateral", _at_patch, "kN", 1e3, True, _lateral)
BRAKING = UnitLoad("braking", _where_braked, "kN", 1e3, False, _braking)
DRIVING = UnitLoad("driving", _where_driven, "kN", 1e3, False, _driving)
ALIGNING = UnitLoad("aligning moment", _at_patch, "kN·m", 1e6, True, _aligning)
IMPACT = UnitLoad("impact", _at_centre, "kN", 1e3, False, _impact)
VERTICAL = UnitLoad("vertical", _at_patch, "kN", 1e3, False, _vertical)
LOADS = (LATERAL, BRAKING, DRIVING, ALIGNING, IMPACT, VERTICAL)
"""All unit loads, in the order of every load axis."""
