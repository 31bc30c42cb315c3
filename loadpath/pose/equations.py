"""Joint equations of many poses at once: how far they miss, and how the misses change.

A state is a rotation (p, nb, 3, 3) and a shift (p, nb, 3) of each of nb bodies in p poses: a point stands at
R x + s, x being its place at design height from the origin. Every equation is the movement along one wrench
(force n and its moment P × n) of the second body against the first, so that the derivative for all freedoms is
one product: (wrench · freedom) with a sign for the body that the freedom moves.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.pose.rotation import cross, rotation, skew

Array = NDArray[np.float64]
Ints = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class State:
    """Rotations (p, nb, 3, 3) and shifts (p, nb, 3) [mm] of bodies in p poses, about the origin."""

    turn: Array
    shift: Array

    def points(self, bodies: Ints, at: Array) -> Array:
        """(p, k, 3) where points (k, 3) of bodies (k,) stand."""
        placed: Array = (self.turn[:, bodies] @ at[:, :, None])[..., 0] + self.shift[:, bodies]
        return placed

    def directions(self, bodies: Ints, axes: Array) -> Array:
        """(p, k, 3) where directions (k, 3) of bodies (k,) point."""
        turned: Array = (self.turn[:, bodies] @ axes[:, :, None])[..., 0]
        return turned

    def moved(self, twists: Array) -> State:
        """After screws (p, nb, 6): displacement at the origin and rotation of each body."""
        push, turn = twists[..., :3], twists[..., 3:]
        step = rotation(turn)
        angle = np.sqrt((turn**2).sum(axis=-1))[..., None]
        k = skew(turn)
        once = (k @ push[..., None])[..., 0]
        small = angle < 1e-4
        safe = np.where(small, 1.0, angle)
        third = np.where(small, 1 / 6, (safe - np.sin(safe)) / safe**3)
        along = push + 0.5 * np.sinc(angle / 2 / np.pi) ** 2 * once + third * (k @ once[..., None])[..., 0]
        return State(step @ self.turn, (step @ self.shift[..., None])[..., 0] + along)

    def pick(self, poses: Ints | NDArray[np.bool_] | slice) -> State:
        """Some of the poses."""
        return State(self.turn[poses], self.shift[poses])


def at_design(poses: int, bodies: int) -> State:
    """All bodies where the case file has them."""
    return State(np.tile(np.eye(3), (poses, bodies, 1, 1)), np.zeros((poses, bodies, 3)))


@dataclass(frozen=True, eq=False)
class Equations:
    """Scalar equations of a linkage: m of joints, then one for each driver.

    Attributes
    ----------
    meet : (k, 2) bodies of points that stay together, three equations each. meet_at : (k, 3) the points.
    along : (k, 2) bodies; the second's point moves along_axis (k, 3) of the first by no more than a driver says.
        along_at : (k, 3) both points at design height. driver : (k,) number of the driver, -1 where it is none.
    square : (k, 2) bodies whose axes square_axes (k, 2, 3) stay at their angle; square_first (k,) its cosine.
    rod : (k, 2) bodies; points rod_at (k, 2, 3) stay rod_length (k,) apart.
    freedom : (6, n) twist of each freedom; angles are in lengths of `length` mm. body : (n,) that it moves.
    sign : (m, n) +1, -1 or 0 for the second, the first or neither body of each equation.
    owner : names of the joints, rods and drivers that the equations belong to.
    solved : (n,) equations that are solved; the others repeat them and are checked afterwards.
    """

    meet: Ints
    meet_at: Array
    along: Ints
    along_at: Array
    along_axis: Array
    driver: Ints
    square: Ints
    square_axes: Array
    square_first: Array
    rod: Ints
    rod_at: Array
    rod_length: Array
    freedom: Array
    body: Ints
    sign: Array
    owner: tuple[str, ...]
    length: float
    solved: Ints

    def misses(self, state: State, targets: Array) -> tuple[Array, Array]:
        """How far each equation misses (p, m) [mm], and its wrench (p, m, 6); targets (p, nd) of the drivers."""
        poses = len(state.turn)
        second, first = self.meet[:, 1], self.meet[:, 0]
        there = state.points(second, self.meet_at)
        apart = there - state.points(first, self.meet_at)
        units = np.broadcast_to(np.eye(3), (poses, len(second), 3, 3))
        meeting = _wrenches(units, there[:, :, None])
        axis = state.directions(self.along[:, 0], self.along_axis)
        end = state.points(self.along[:, 1], self.along_at)
        gone = ((end - state.points(self.along[:, 0], self.along_at)) * axis).sum(axis=-1)
        driven = self.driver >= 0
        gone[:, driven] -= targets[:, self.driver[driven]]
        a, b = (state.directions(self.square[:, k], self.square_axes[:, k]) for k in (0, 1))
        angle = self.length * ((a * b).sum(axis=-1) - self.square_first)
        couple = np.zeros((poses, len(self.square), 6))
        couple[..., 3:] = self.length * cross(b, a)
        ends = [state.points(self.rod[:, k], self.rod_at[:, k]) for k in (0, 1)]
        line = ends[1] - ends[0]
        span = np.sqrt((line**2).sum(axis=-1))
        stretch = span - self.rod_length
        pull = _wrenches(line / np.where(span > 0, span, 1.0)[..., None], ends[1])
        missed = np.concatenate([apart.reshape(poses, -1), angle, stretch, gone], axis=1)
        wrenches = np.concatenate([meeting.reshape(poses, -1, 6), couple, pull, _wrenches(axis, end)], axis=1)
        return missed, wrenches

    def jacobian(self, wrenches: Array) -> Array:
        """(p, m, n) change of the misses with the freedoms."""
        change: Array = (wrenches @ self.freedom) * self.sign
        return change

    def step(self, state: State, amounts: Array) -> State:
        """The state after amounts (p, n) of the freedoms."""
        mover = np.eye(state.turn.shape[1])[self.body]
        twists = (amounts[:, None, :] * self.freedom) @ mover
        return state.moved(np.swapaxes(twists, 1, 2))


def _wrenches(forces: Array, at: Array) -> Array:
    """(..., 6) forces (..., 3) with their moments about the origin."""
    return np.concatenate([forces, cross(np.broadcast_to(at, forces.shape), forces)], axis=-1)
