"""Instant centres of the wheels, roll centre, and how much of pitch the linkage holds up.

All from velocities while one wheel travels alone. A carrying part moves with its brake locked: the contact patch is
a point of it.

Instant centres are where the carrying part stands still in the transverse or in the longitudinal plane through the
wheel centre. The roll centre is where, while the left wheel rises and the right one falls, the lines square to the
velocities of both contact patches meet in the transverse plane (W. F. and D. L. Milliken, Race Car Vehicle Dynamics
(1995), ch. 17, from memory).

Support: a force along the vehicle that acts on the carrying part at a point which moves by t along the vehicle
per unit of jounce is held up by the linkage with t times its size. The load that it takes off or puts on the axle is
force × cg height / wheelbase, so that t × wheelbase / cg height × the axle's share of the force is anti-dive of a
braked front axle, anti-lift of a braked rear or a driven front axle, anti-squat of a driven rear axle (Milliken and
Milliken, ch. 17; T. D. Gillespie, Fundamentals of Vehicle Dynamics (1992), ch. 7, both from memory). An outboard
brake and a hub drive act at the contact patch, an inboard brake and a half-shaft at the wheel centre.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Wheel
from loadpath.pose.attitude import outward, wheel_places
from loadpath.pose.poses import Poses

Array = NDArray[np.float64]

_LEVEL = 1e-9


@dataclass(frozen=True, eq=False)
class Instant:
    """How the carrying part of one wheel moves while that wheel travels alone.

    Attributes
    ----------
    front : (p, 2) [mm] instant centre in the transverse plane: inward of the wheel centre, and above the contact
        patch. side : (p, 2) [mm] in the longitudinal plane: ahead of the wheel centre, and above the contact patch.
        Infinite where the part does not turn.
    at, axis : (p, 3) point nearest to the wheel centre [mm] and direction of the instant axis in space. pitch : (p,)
        [mm/rad] by which the part slides along it while it turns. Not numbers where it does not turn.
    at_patch, at_centre : (p,) travel along the vehicle per unit of jounce of the contact patch and of the wheel
        centre, in the sense in which the linkage holds up: forward at the front axle, rearward at the rear one.
    """

    front: Array
    side: Array
    at: Array
    axis: Array
    pitch: Array
    at_patch: Array
    at_centre: Array

    def brake(self, wheel: Wheel) -> Array:
        """(p,) that counts for the friction brake."""
        return self.at_patch if wheel.brake == "outboard" else self.at_centre

    def drive(self, wheel: Wheel) -> Array:
        """(p,) that counts for the drive."""
        return self.at_patch if wheel.drive == "hub" else self.at_centre


@dataclass(frozen=True, eq=False)
class RollCentre:
    """Roll centre of one axle: height above the line between the contact patches and place to the left (p,) [mm]."""

    height: Array
    left: Array


def instants(poses: Poses) -> dict[str, Instant]:
    """Every wheel that travels."""
    model = poses.mechanism.model
    return {name: _instant(poses, model.wheels[name]) for name in poses.mechanism.wheels}


def _instant(poses: Poses, wheel: Wheel) -> Instant:
    axes, k = poses.mechanism.model.axes, poses.mechanism.wheels.index(wheel.name)
    out = outward(axes, wheel)
    place = wheel_places(poses)[wheel.name]
    velocity = poses.velocity(wheel.part, wheel.centre)[:, k]
    spin = poses.spin(wheel.part, wheel.centre)[:, k]
    patch = _patch_velocity(poses, wheel, place.centre, place.patch)[:, k]
    high = (place.centre - place.patch) @ axes.up
    along, across, rise = velocity @ axes.forward, velocity @ out, velocity @ axes.up
    roll = spin @ np.cross(out, axes.up)
    pitch = spin @ np.cross(axes.forward, axes.up)
    holding = 1.0 if wheel.axle == "front" else -1.0
    turning = _screw(velocity, spin)
    return Instant(
        front=np.stack([_over(rise, roll), high + _over(across, roll)], axis=-1),
        side=np.stack([-_over(rise, pitch), high + _over(along, pitch)], axis=-1),
        at=place.centre + turning[0],
        axis=turning[1],
        pitch=turning[2],
        at_patch=holding * (patch @ axes.forward),
        at_centre=holding * along,
    )


def _screw(velocity: Array, spin: Array) -> tuple[Array, Array, Array]:
    """Axis of the motion of a point (p, 3): from the point to it (p, 3), its direction (p, 3), and its pitch (p,)."""
    size = (spin**2).sum(axis=-1)
    size = np.where(size > _LEVEL**2, size, np.nan)
    away = np.cross(spin, velocity) / size[:, None]
    return away, spin / np.sqrt(size)[:, None], (velocity * spin).sum(axis=-1) / size


def _over(velocity: Array, turning: Array) -> Array:
    """(p,) distance at which a turn takes a velocity away; infinite where there is no turn."""
    level = np.abs(turning) < _LEVEL
    return np.where(level, np.inf, velocity / np.where(level, 1.0, turning))


def _patch_velocity(poses: Poses, wheel: Wheel, centre: Array, patch: Array) -> Array:
    """(p, nd, 3) velocity of the carrying part's point at the contact patch."""
    spin = poses.spin(wheel.part, wheel.centre)
    moving: Array = poses.velocity(wheel.part, wheel.centre) + np.cross(spin, (patch - centre)[:, None])
    return moving


def roll_centres(poses: Poses) -> dict[str, RollCentre]:
    """Every axle with one wheel a side, or with a single wheel: then the other side is taken as its mirror image."""
    found: dict[str, RollCentre] = {}
    wheels = [poses.mechanism.model.wheels[w] for w in poses.mechanism.wheels]
    for axle in dict.fromkeys(w.axle for w in wheels):
        own = [w for w in wheels if w.axle == axle]
        if len(own) == 1 or (len(own) == 2 and own[0].left != own[1].left):
            found[axle] = _roll_centre(poses, own)
    return found


def _roll_centre(poses: Poses, wheels: list[Wheel]) -> RollCentre:
    at, speed = _rolling(poses, wheels)
    middle, ground = (at[0] + at[1]) / 2, _unit(at[0] - at[1])
    normals = np.stack([_unit(v) for v in speed], axis=1)
    reach = np.stack([((p - middle) * normals[:, k]).sum(axis=-1) for k, p in enumerate(at)], axis=1)
    # lines that fall together, as those of level arms do, meet nearest to the middle
    meeting = (np.linalg.pinv(normals, rcond=1e-6) @ reach[..., None])[..., 0]
    height = meeting[:, 1] * ground[:, 0] - meeting[:, 0] * ground[:, 1]
    return RollCentre(height, (middle + meeting)[:, 0])


def _rolling(poses: Poses, wheels: list[Wheel]) -> tuple[list[Array], list[Array]]:
    """Left and up (p, 2) of both contact patches, left one first, and their velocities while the body rolls."""
    axes, places = poses.mechanism.model.axes, wheel_places(poses)
    plane = np.array([axes.left, axes.up])
    rolling = np.zeros(len(poses.mechanism.drivers))
    for wheel in wheels:
        rolling[poses.mechanism.wheels.index(wheel.name)] = 1.0 if wheel.left else -1.0
    at, speed = [], []
    for wheel in sorted(wheels, key=lambda w: not w.left):
        place = places[wheel.name]
        moving = _patch_velocity(poses, wheel, place.centre, place.patch)
        at.append(place.patch @ plane.T)
        speed.append(np.einsum("d,pdi->pi", rolling, moving) @ plane.T)
    if len(wheels) == 1:
        image = np.array([-1.0, 1.0])
        at, speed = [at[0], at[0] * image], [speed[0], -speed[0] * image]
    return (at, speed) if at[0][0, 0] > at[1][0, 0] else (at[::-1], speed[::-1])


def _unit(vectors: Array) -> Array:
    unit: Array = vectors / np.sqrt((vectors**2).sum(axis=-1))[:, None]
    return unit
