"""How the wheels stand: camber, toe, caster, kingpin, and where centre and contact patch have gone.

Signs, for both sides alike: camber positive with the top leaning outward; toe positive with the front pointing
inward; caster positive with the steering axis leaning rearward at its top; kingpin inclination positive with its
top leaning inward; track change positive outward; wheelbase change positive where the wheelbase grows.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Axes, Wheel, patch_offset, spin_axis
from loadpath.pose.poses import Poses
from loadpath.pose.rotation import cross

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class WheelAngles:
    """camber, toe (p,) [rad] of one wheel; spin (p, 3) unit vector along its axis, away from the vehicle."""

    camber: Array
    toe: Array
    spin: Array


@dataclass(frozen=True, eq=False)
class WheelGains:
    """Change of camber and toe (p,) [rad/mm] of one wheel with its own travel, the others standing still."""

    camber: Array
    toe: Array


@dataclass(frozen=True, eq=False)
class WheelPlace:
    """One wheel: centre and contact patch (p, 3) [mm]; track and wheelbase change (p,) [mm] of the patch."""

    centre: Array
    patch: Array
    track_change: Array
    wheelbase_change: Array


def outward(axes: Axes, wheel: Wheel) -> Array:
    """(3,) unit vector away from the vehicle's middle."""
    return axes.left if wheel.left else -axes.left


def wheel_angles(poses: Poses) -> dict[str, WheelAngles]:
    """Camber and toe of every wheel, from its spin axis."""
    model = poses.mechanism.model
    found = {}
    for name, wheel in model.wheels.items():
        spin = poses.turned(wheel.part, wheel.centre) @ spin_axis(model.axes, wheel)
        camber = -np.arcsin(np.clip(spin @ model.axes.up, -1, 1))
        toe = np.arctan2(spin @ model.axes.forward, spin @ outward(model.axes, wheel))
        found[name] = WheelAngles(camber, toe, spin)
    return found


def wheel_gains(poses: Poses) -> dict[str, WheelGains]:
    """Change of camber and toe of every wheel that travels."""
    model, angles, found = poses.mechanism.model, wheel_angles(poses), {}
    for k, name in enumerate(poses.mechanism.wheels):
        wheel, spin = model.wheels[name], angles[name].spin
        change = cross(poses.spin(wheel.part, wheel.centre)[:, k], spin)
        out = outward(model.axes, wheel)
        ahead, aside = spin @ model.axes.forward, spin @ out
        level = ahead**2 + aside**2
        toe = ((change @ model.axes.forward) * aside - ahead * (change @ out)) / level
        found[name] = WheelGains(-(change @ model.axes.up) / np.sqrt(level), toe)
    return found


def wheel_places(poses: Poses) -> dict[str, WheelPlace]:
    """Where centre and contact patch of every wheel are."""
    model, angles = poses.mechanism.model, wheel_angles(poses)
    axes, found = model.axes, {}
    for name, wheel in model.wheels.items():
        centre = poses.point(wheel.part, wheel.centre)
        patch = centre + patch_offset(axes, angles[name].spin, wheel.radius)
        design = model.at(wheel.part, wheel.centre) + patch_offset(axes, spin_axis(axes, wheel), wheel.radius)
        moved = patch - design
        longer = axes.forward if wheel.axle == "front" else -axes.forward
        found[name] = WheelPlace(centre, patch, moved @ outward(axes, wheel), moved @ longer)
    return found
