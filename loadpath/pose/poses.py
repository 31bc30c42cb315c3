"""Many poses of one mechanism: where every point of every part stands and how it moves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.pose.mechanism import Mechanism
from loadpath.pose.reach import refuse
from loadpath.pose.rotation import cross, rotation, rotation_vector, shortest, transposed
from loadpath.pose.solving import Solved, solve_each, solve_states

Array = NDArray[np.float64]
Ints = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Poses:
    """p poses.

    Attributes
    ----------
    targets : (p, nd) driver values [mm]: jounce of each wheel, then travel of each rack.
    turn : (p, nc, 3, 3), shift : (p, nc, 3) of every carrier: a point stands at turn x + shift.
    screw : (p, nd, nc, 6) velocity of each carrier at the origin of coordinates, and its angular velocity, for a
        unit velocity of each driver.
    """

    mechanism: Mechanism
    targets: Array
    turn: Array
    shift: Array
    screw: Array

    def __len__(self) -> int:
        return len(self.targets)

    def points(self, carriers: Ints, at: Array) -> Array:
        """(p, k, 3) where points (k, 3), told at design height, of carriers (k,) stand."""
        placed: Array = (self.turn[:, carriers] @ at[:, :, None])[..., 0] + self.shift[:, carriers]
        return placed

    def point(self, part: str, point: str) -> Array:
        """(p, 3) where a point of a part stands."""
        model = self.mechanism.model
        carrier = np.array([self.mechanism.carrier(part, point)])
        return self.points(carrier, model.at(part, point)[None])[:, 0]

    def turned(self, part: str, point: str = "") -> Array:
        """(p, 3, 3) rotation of a part since design height; at a point where it twists."""
        found: Array = self.turn[:, self.mechanism.carrier(part, point)]
        return found

    def velocities(self, carriers: Ints, at: Array) -> Array:
        """(p, nd, k, 3) velocity of points of carriers (k,) that stand at (p, k, 3)."""
        screw = self.screw[:, :, carriers]
        moving: Array = screw[..., :3] + cross(screw[..., 3:], at[:, None])
        return moving

    def velocity(self, part: str, point: str) -> Array:
        """(p, nd, 3) velocity of a point of a part."""
        carrier = np.array([self.mechanism.carrier(part, point)])
        return self.velocities(carrier, self.point(part, point)[:, None])[:, :, 0]

    def spin(self, part: str, point: str = "") -> Array:
        """(p, nd, 3) angular velocity [rad/mm] of a part."""
        found: Array = self.screw[:, :, self.mechanism.carrier(part, point), 3:]
        return found


def pose_many(mechanism: Mechanism, targets: Array) -> Poses:
    """Poses at driver values (p, nd) [mm].

    Raises
    ------
    OutOfReach : naming the first pose that cannot be reached, the travel at which it stops and what binds.
    OverConstrained : joints that contradict each other once the wheels travel.
    """
    values = np.asarray(targets, dtype=np.float64).reshape(-1, len(mechanism.drivers))
    solved = solve_states(mechanism, values)
    if not solved.good.all():
        refuse(mechanism, values[int(np.flatnonzero(~solved.good)[0])])
    return with_carriers(mechanism, values, solved)


def with_carriers(mechanism: Mechanism, targets: Array, solved: Solved) -> Poses:
    """Poses of solved states, with rods and twisting points."""
    n = solved.change.shape[-1]
    screw = body_screws(mechanism, solved.change, np.arange(n - len(mechanism.drivers), n))
    origin = mechanism.origin
    turn = solved.state.turn
    shift = solved.state.shift + origin - (turn @ origin[:, None])[..., 0]
    bodies = Poses(mechanism, targets, turn, shift, screw)
    rods = _rods(bodies)
    with_rods = Poses(mechanism, targets, *_joined(bodies, rods))
    return Poses(mechanism, targets, *_joined(with_rods, _twisting(with_rods)))


_Carriers = tuple[Array, Array, Array]


def _joined(poses: Poses, more: Sequence[_Carriers]) -> _Carriers:
    if not more:
        return poses.turn, poses.shift, poses.screw
    turns, shifts, screws = zip(*more, strict=True)
    return (
        np.concatenate([poses.turn, np.stack(turns, axis=1)], axis=1),
        np.concatenate([poses.shift, np.stack(shifts, axis=1)], axis=1),
        np.concatenate([poses.screw, np.stack(screws, axis=2)], axis=2),
    )


def body_screws(mechanism: Mechanism, change: Array, rows: Ints) -> Array:
    """(p, k, nb, 6) screw of each body about the origin of coordinates while one solved equation gives way.

    change : (p, n, n) Jacobian of the solved equations. rows : (k,) of it; each gives way at unit velocity.
    """
    equations = mechanism.equations
    poses, n, _ = change.shape
    unit = np.broadcast_to(np.eye(n)[:, rows], (poses, n, len(rows)))
    rates = solve_each(change, unit)
    mover = np.eye(len(mechanism.bodies.groups))[equations.body]
    screw: Array = np.einsum("pnd,in,nb->pdbi", rates, equations.freedom, mover, optimize=True)
    screw[..., :3] -= cross(screw[..., 3:], mechanism.origin)
    return screw


def _rods(poses: Poses) -> list[_Carriers]:
    """Each rod by the smallest turn of its line."""
    mechanism, found = poses.mechanism, []
    model, bodies = mechanism.model, mechanism.bodies
    for rod in bodies.rods:
        ends = np.array([model.points[p] for p in rod.points])
        carriers = np.array([bodies.body_of(p) for p in rod.pieces])
        now = poses.points(carriers, ends)
        length = np.linalg.norm(ends[1] - ends[0])
        line, first = (now[:, 1] - now[:, 0]) / length, (ends[1] - ends[0]) / length
        turn = shortest(np.broadcast_to(first, line.shape), line)
        shift = now[:, 0] - turn @ ends[0]
        moving = poses.velocities(carriers, now)
        swing = (moving[:, :, 1] - moving[:, :, 0]) / length
        omega = cross(line[:, None], swing) + _roll(first, line, swing)[..., None] * line[:, None]
        at_origin = moving[:, :, 0] - cross(omega, now[:, None, 0])
        found.append((turn, shift, np.concatenate([at_origin, omega], axis=-1)))
    return found


def _roll(first: Array, line: Array, swing: Array) -> Array:
    """(p, nd) turn about its own line of what is turned from `first` (3,) to `line` (p, 3) by the smallest rotation.

    That of parallel transport along great circles through `first`: the line swings at `swing` (p, nd, 3).
    """
    about = cross(first, line) / (1 + line @ first)[:, None]
    roll: Array = -(swing @ about[..., None])[..., 0]
    return roll


def _twisting(poses: Poses) -> list[_Carriers]:
    """Each point on a stretch that twists: turned about the axis between its two halves."""
    found = []
    for first, last, twist, point in poses.mechanism.twisting:
        share = twist.shares[point]
        a, b = poses.turn[:, first], poses.turn[:, last]
        apart = rotation_vector(transposed(a) @ b)
        turn = a @ rotation(share * apart)
        on_axis = a @ twist.at + poses.shift[:, first]
        spin = poses.screw[:, :, [first, last], 3:]
        omega = (1 - share) * spin[:, :, 0] + share * spin[:, :, 1]
        moving = poses.velocities(np.array([first]), on_axis[:, None])[:, :, 0]
        at_origin = moving - cross(omega, on_axis[:, None])
        found.append((turn, on_axis - turn @ twist.at, np.concatenate([at_origin, omega], axis=-1)))
    return found


def angles_between(poses: Poses, first: tuple[str, str], second: tuple[str, str]) -> Array:
    """(p, 3) rotation vector of the second (part, point) against the first, in the first's axes at design height."""
    return rotation_vector(transposed(poses.turned(*first)) @ poses.turned(*second))
