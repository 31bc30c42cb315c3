"""Stretches as a moving solid sees them: where they are in its frame in many poses, and how they move there."""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from loadpath.pose import Poses
from loadpath.room.stretches import Stretches

Array = NDArray[np.float64]
Ints = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Frame:
    """A moving frame in p poses: origin (p, 3), turn (p, 3, 3) whose columns are its axes, and for each of nd drivers
    the velocity (p, nd, 3) of its origin and its angular velocity spin (p, nd, 3).
    """

    origin: Array
    turn: Array
    velocity: Array
    spin: Array

    def velocity_at(self, at: Array) -> Array:
        """(p, nd, k, 3) velocity of the frame's points that stand at (p, k, 3)."""
        arms = (at - self.origin[:, None])[:, None]
        found: Array = self.velocity[:, :, None] + np.cross(self.spin[:, :, None], arms)
        return found


@dataclass(frozen=True, eq=False)
class Placed:
    """ne stretches in p poses in the frame of a solid, and how they change with the nq parameters of the poses.

    Attributes
    ----------
    start : (p, ne, 3) first ends [mm]. along, y, z : (p, ne, 3) unit vectors. length : (p, ne) [mm].
    start_rate, along_rate, y_rate, z_rate : (p, nq, ne, 3), length_rate : (p, nq, ne), for a unit of each parameter.
    speed : (p, ne, nq) fastest that a point moves [mm for a unit].
    turn : (p, ne, nq) rate at which it turns [rad for a unit].
    """

    start: Array
    along: Array
    y: Array
    z: Array
    length: Array
    start_rate: Array
    along_rate: Array
    y_rate: Array
    z_rate: Array
    length_rate: Array
    speed: Array
    turn: Array

    def joined(self, other: Placed) -> Placed:
        """These poses and then others."""
        return Placed(
            *(np.concatenate([getattr(self, f.name), getattr(other, f.name)]) for f in fields(self))
        )

    def pick(self, which: Ints) -> Placed:
        """Some of the poses."""
        return Placed(*(getattr(self, f.name)[which] for f in fields(self)))

    def moved(self, by: Array) -> Placed:
        """After small changes (p, nq) of the parameters, to first order; the rates stay."""
        new = {f.name: getattr(self, f.name) for f in fields(self)}
        for name in ("start", "along", "y", "z"):
            new[name] = new[name] + np.einsum("pq,pqei->pei", by, new[f"{name}_rate"])
        new["length"] = self.length + np.einsum("pq,pqe->pe", by, self.length_rate)
        return Placed(**new)


def placed(stretches: Stretches, poses: Poses, frame: Frame, mix: Array) -> Placed:
    """Stretches seen from a moving frame; mix (p, nq, nd) velocity of each driver for one of each parameter."""
    first, last = stretches.carriers.T
    ends = [poses.points(c, stretches.at[:, k]) for k, c in enumerate((first, last))]
    into = np.swapaxes(frame.turn, 1, 2)[:, None]
    rates = [
        _own(into[:, None], _mixed(mix, poses.velocities(c, at) - frame.velocity_at(at)))
        for c, at in zip((first, last), ends, strict=True)
    ]
    start, line = _own(into, ends[0] - frame.origin[:, None]), _own(into, ends[1] - ends[0])
    length = np.linalg.norm(line, axis=-1)
    along = line / length[..., None]
    stretching = ((rates[1] - rates[0]) * along[:, None]).sum(axis=-1)
    turning = (rates[1] - rates[0] - stretching[..., None] * along[:, None]) / length[:, None, :, None]
    spin = _own(into[:, None], _mixed(mix, poses.screw[:, :, first, 3:] - frame.spin[:, :, None]))
    y, z = (_own(into, poses.turn[:, first] @ stretches.axes[:, k, :, None], flat=True) for k in (0, 1))
    turn = np.linalg.norm(spin, axis=-1)
    speed = np.maximum(*(np.linalg.norm(rate, axis=-1) for rate in rates)) + stretches.round * turn
    return Placed(
        start=start,
        along=along,
        y=y,
        z=z,
        length=length,
        start_rate=rates[0],
        along_rate=turning,
        y_rate=np.cross(spin, y[:, None]),
        z_rate=np.cross(spin, z[:, None]),
        length_rate=stretching,
        speed=np.swapaxes(speed, 1, 2),
        turn=np.swapaxes(turn, 1, 2),
    )


def _mixed(mix: Array, velocity: Array) -> Array:
    """(p, nq, ne, 3) from velocities (p, nd, ne, 3) for each driver."""
    found: Array = np.einsum("pqd,pdei->pqei", mix, velocity)
    return found


def _own(into: Array, vectors: Array, flat: bool = False) -> Array:
    """Vectors (..., 3), or columns (..., 3, 1), in the frame's own axes."""
    found: Array = (into @ (vectors if flat else vectors[..., None]))[..., 0]
    return found
