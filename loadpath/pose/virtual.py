"""What everything that acts on a linkage does on the velocity field of each driver: virtual work by hand.

Power of loads, of masses in their field, of springs and stops by their laws, of bushings by their wind-up, and of a
bar by the twist of the stretch between its holders.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import LoadCase, Model, weights
from loadpath.pose.mechanism import Mechanism
from loadpath.pose.poses import Poses
from loadpath.pose.pushes import design_length, reach_of
from loadpath.pose.twisting import twist_angle
from loadpath.pose.windup import Clamped, bushing_power

Array = NDArray[np.float64]
Ints = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Given:
    """Given forces of p load cases at k places.

    carriers : (k,) what each place moves with. at : (k, 3) a point of it at design height. offset : (k, 3) from
    there to where the force acts, in case axes whatever the pose. force, moment : (p, k, 3).
    """

    carriers: Ints
    at: Array
    offset: Array
    force: Array
    moment: Array


def given_forces(mechanism: Mechanism, cases: Sequence[LoadCase], stood: Sequence[Model]) -> Given:
    """Loads and masses of load cases.

    stood : the model that each load case was built on; a load keeps its distance from its point there.
    """
    design, nothing = mechanism.model, np.zeros(3)
    masses = weights(design)
    names = list(zip(masses.parts, masses.points, strict=True))
    at, offset = list(masses.centre), [nothing] * len(names)
    wrenches: list[tuple[int, int, Array, Array]] = []
    pulled = masses.forces(cases)
    for c, case in enumerate(cases):
        wrenches += [(c, k, pulled[k, :, c], nothing) for k in range(len(masses.mass))]
        for load in case.loads:
            wrenches.append((c, len(names), load.force, load.moment))
            names.append((load.part, load.point))
            at.append(design.at(load.part, load.point))
            offset.append(load.position - stood[c].at(load.part, load.point))
    force, moment = np.zeros((2, len(cases), len(names), 3))
    for c, k, f, m in wrenches:
        force[c, k], moment[c, k] = f, m
    carriers = np.array([mechanism.carrier(*name) for name in names], dtype=np.intp)
    return Given(carriers, np.array(at).reshape(-1, 3), np.array(offset).reshape(-1, 3), force, moment)


def virtual_power(poses: Poses, given: Given, rest: Clamped, rates: Array) -> Array:
    """(p, nd) power of everything [N, that is N·mm/s per mm/s of a driver]; zero where a pose balances.

    The p poses belong to the p load cases of `given`. rates : of the parts that twist, see `twist_rates`.
    """
    model = poses.mechanism.model
    power = _of_given(poses, given)
    for element in model.force_elements.values():
        reach = reach_of(poses, element)
        push = np.full(len(poses), element.force)
        if element.law is not None:
            push = element.law.push(reach.length, design_length(poses, element))
        power += push[:, None] * reach.rate
    power -= bushing_power(poses, rest)
    for twist, rate in zip(poses.mechanism.twists, rates, strict=True):
        angle, turning = twist_angle(poses, twist)
        power -= rate * angle[:, None] * turning
    return power


def _of_given(poses: Poses, given: Given) -> Array:
    at = poses.points(given.carriers, given.at) + given.offset
    moving = poses.velocities(given.carriers, at)
    spin = poses.screw[:, :, given.carriers, 3:]
    power: Array = np.einsum("pdki,pki->pd", moving, given.force) + np.einsum(
        "pdki,pki->pd", spin, given.moment
    )
    return power
