"""Power of all forces on the velocity field of the mechanism: the identity that ties a pose and its solution.

In a pose the parts taken rigid can move with each wheel. On that motion everything that works must cancel: loads,
masses and line loads, pushes of springs and stops, moments of bushings, and what twists a bar. Joints do no work on
it; that the sum vanishes says that the pose, its joints and the recovered forces belong together.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.blocks import pairs_of
from loadpath.frame.joints import line_of
from loadpath.frame.mesh import Mesh
from loadpath.frame.solution import Solution
from loadpath.model import BODY, Kinematics, Pose

Array = NDArray[np.float64]

WORKS: dict[Kinematics, tuple[int, ...]] = {
    "fixed": (),
    "ball": (3, 4, 5),
    "hinge": (3,),
    "sliding ball": (0, 3, 4, 5),
    "free": (0, 1, 2, 3, 4, 5),
}
"""Movements in own axes (three displacements, three rotations) that the kinematics leave to a bushing."""


def power_error(solution: Solution) -> Array | None:
    """(nc,) largest power left over for any wheel's travel, relative to the sum of the sizes of all its terms.

    None where no wheel moves: at design height without a pose.
    """
    pose = solution.system.model.pose
    if pose is None or not any(len(screw) for screw in pose.screws.values()):
        return None
    moving = _velocities(solution.system.mesh, pose)
    terms = np.concatenate(
        [
            _of_loads(solution, moving),
            _of_pushes(solution, pose),
            _of_bushings(solution, moving),
            _of_twist(solution, moving),
        ]
    )
    size = np.abs(terms).sum(axis=0)
    error: Array = np.abs(terms.sum(axis=0)) / np.where(size > 0, size, 1.0)
    worst: Array = error.max(axis=0)
    return worst


def _velocities(mesh: Mesh, pose: Pose) -> Array:
    """(nb, 6, nw) velocity and angular velocity of every block with each wheel's travel."""
    screws = np.array([pose.screw(*key) for key in zip(mesh.owners, mesh.names, strict=True)])
    moving = screws.copy()
    moving[..., :3] += np.cross(screws[..., 3:], mesh.positions[:, None])
    return np.swapaxes(moving, 1, 2)


def _of_loads(solution: Solution, moving: Array) -> Array:
    """(nb + ne, nw, nc) loads on the blocks, and line loads, which move with their element's first block."""
    system = solution.system
    elements = system.mesh.elements
    loads = np.einsum("biw,bic->bwc", moving, solution.loads)
    first = system.turn[:, :6, :6] @ moving[elements.ends[:, 0]]
    lines = np.einsum("eiw,eic->ewc", first, system.beams.resultant @ solution.line)
    return np.concatenate([loads, lines])


def _of_pushes(solution: Solution, pose: Pose) -> Array:
    """(nf, nw, nc) pushes of force elements; what is given of free ones is among the loads."""
    model = solution.system.model
    wheels = len(next(iter(pose.screws.values())))
    power = np.zeros((len(solution.push_names), wheels, len(solution.cases)))
    share = np.array([case.pushes for case in solution.cases])
    for k, name in enumerate(solution.push_names):
        element, push = model.force_elements[name], solution.pushes[k]
        if not element.locked:
            push = push - element.force * share
        line, rate = line_of(model, element), np.zeros(wheels)
        for part, point, sign in zip(element.between, element.ends, (-1.0, 1.0), strict=True):
            screw = pose.screw(part, point)
            rate += sign * (screw[:, :3] + np.cross(screw[:, 3:], model.at(part, point))) @ line
        power[k] = np.outer(rate, push)
    return power


def _of_bushings(solution: Solution, moving: Array) -> Array:
    """(nb, nw, nc) forces and moments of bushings on the movements that the kinematics leave them."""
    springs, model = solution.system.springs, solution.system.model
    rates = springs.relative @ pairs_of(moving, springs.blocks)
    power = np.zeros((len(springs.names), rates.shape[-1], len(solution.cases)))
    for k, name in enumerate(springs.names):
        if name not in model.joints:
            continue  # a force element that answers with a rate
        works = list(WORKS[model.joints[name].moves_as])
        wrench = solution.joint_forces[solution.joint_names.index(name)].reshape(2, 3, -1)
        own = (springs.axes[k] @ wrench).reshape(6, -1)
        power[k] = rates[k, works].T @ own[works]
    return power


def _of_twist(solution: Solution, moving: Array) -> Array:
    """(n, nw, nc) what elements of parts that twist take up."""
    system = solution.system
    elements = system.mesh.elements
    twisting = {p.name for p in system.model.parts.values() if p.split is not None and p.name != BODY}
    own = np.array([e for e, part in enumerate(elements.part) if part in twisting], dtype=np.intp)
    both = system.turn[own] @ pairs_of(moving, elements.ends[own])
    apart = system.beams.relative[own] @ both
    power: Array = -np.einsum("eiw,eic->ewc", apart, solution.end_forces[own])
    return power
