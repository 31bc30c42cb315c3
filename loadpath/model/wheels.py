"""Where a wheel's spin axis and its contact patch are.

The wheel is a thin disc: it touches the ground at its lowest point.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loadpath.model.entities import Axes, Model
from loadpath.model.suspension import Wheel

Array = NDArray[np.float64]


def spin_axis(axes: Axes, wheel: Wheel) -> Array:
    """(3,) unit vector along the wheel's axis, away from the vehicle.

    Camber leans its outer end down, toe-in turns it forward.
    """
    outward = axes.left if wheel.left else -axes.left
    level = np.cos(wheel.toe) * outward + np.sin(wheel.toe) * axes.forward
    axis: Array = np.cos(wheel.camber) * level - np.sin(wheel.camber) * axes.up
    return axis


def patch_offset(axes: Axes, spin: Array, radius: float) -> Array:
    """(..., 3) from the wheel centre to the lowest point of the disc, for spin axes (..., 3)."""
    up = axes.up - (spin @ axes.up)[..., None] * spin
    offset: Array = -radius * up / np.linalg.norm(up, axis=-1)[..., None]
    return offset


def contact_patch(model: Model, wheel: Wheel) -> Array:
    """(3,) point of the ground that the wheel stands on [mm], in the model's pose."""
    offset = patch_offset(model.axes, spin_axis(model.axes, wheel), wheel.radius)
    patch: Array = model.at(wheel.part, wheel.centre) + offset
    return patch
