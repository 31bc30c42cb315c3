"""How two parts hold each other at a point: relative movement, bushing stiffness, constraint rows.

The relative movement of a joint is that of its second part against the first, at the joint's point, in the
joint's own axes: three displacements, three rotations. Forces are those on the second part.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.beam import cross_matrix
from loadpath.frame.mesh import Mesh
from loadpath.model import BODY, Curve, ForceElement, Joint, Model

Array = NDArray[np.float64]

HELD = {
    "ball": (0, 1, 2),
    "hinge": (0, 1, 2, 4, 5),
    "slider": (1, 2, 3, 4, 5),
    "bolted": (0, 1, 2, 3, 4, 5),
    "welded": (0, 1, 2, 3, 4, 5),
}
"""Freedoms in own axes (three displacements, three rotations) that each ideal joint holds at zero; a hinge
turns about its axis 1, a slider moves along it and does not turn."""


def held_by(joint: Joint) -> tuple[int, ...]:
    """Freedoms that an ideal joint holds; a steering rack stands still where the pose has put it."""
    return HELD["bolted"] if joint.rack else HELD[joint.kind]


class Rows(NamedTuple):
    """Constraint rows of one joint: rows @ (u of the two blocks) = value.

    blocks : two block indices. matrix : (m, 12). owner : name for messages and for the force.
    """

    owner: str
    blocks: tuple[int, int]
    matrix: Array


@dataclass(frozen=True, eq=False)
class Springs:
    """Bushings, then free force elements with a rate, as two-block springs.

    A force element's first movement is the change of the distance between its ends, the other five are empty.

    names : (nb,). blocks : (nb, 2). relative : (nb, 6, 12) movement in own axes from both blocks' freedoms.
    rates : (nb, 6). axes : (nb, 3, 3). windup : (nb, 6) movement that the pose has put in.
    curves : (bushing, freedom, curve) of each that is no straight line.
    """

    names: tuple[str, ...]
    blocks: NDArray[np.intp]
    relative: Array
    rates: Array
    axes: Array
    windup: Array
    curves: tuple[tuple[int, int, Curve], ...]

    def stiffness(self) -> Array:
        """(nb, 12, 12) in case axes."""
        return np.swapaxes(self.relative, 1, 2) @ (self.rates[:, :, None] * self.relative)


def relative_movement(axes: Array, lever_a: Array, lever_b: Array) -> Array:
    """(n, 6, 12) movement of b against a in own axes, for axes (n, 3, 3) and levers (n, 3)."""
    m = np.zeros((len(axes), 6, 12))
    for column, lever, sign in ((0, lever_a, -1.0), (6, lever_b, 1.0)):
        m[:, :3, column : column + 3] = sign * axes
        m[:, :3, column + 3 : column + 6] = -sign * (axes @ cross_matrix(lever))
        m[:, 3:, column + 3 : column + 6] = sign * axes
    return m


def _movements(model: Model, mesh: Mesh, joints: list[Joint]) -> tuple[NDArray[np.intp], Array]:
    sides = [[mesh.places[part, j.point] for part in j.between] for j in joints]
    blocks = np.array([[a.block, b.block] for a, b in sides], dtype=np.intp).reshape(-1, 2)
    levers = np.array([[a.lever, b.lever] for a, b in sides]).reshape(-1, 2, 3)
    for k, j in enumerate(joints) if model.own_points else ():
        levers[k] += [model.points[j.point] - model.at(part, j.point) for part in j.between]
    axes = np.array([j.axes for j in joints]).reshape(-1, 3, 3)
    return blocks, relative_movement(axes, levers[:, 0], levers[:, 1])


def bushings(model: Model, mesh: Mesh) -> Springs:
    """All bushings of the model, and its free force elements that have a rate."""
    joints = [j for j in model.joints.values() if j.rates is not None]
    blocks, relative = _movements(model, mesh, joints)
    given = {} if model.pose is None else model.pose.windup
    free = [e for e in model.force_elements.values() if not e.locked and e.free_rate]
    lengths = [length_row(model, mesh, e) for e in free]
    answering = np.zeros((len(free), 6, 12))
    answering[:, 0] = np.array([row.matrix[0] for row in lengths]).reshape(-1, 12)
    free_rates = np.outer([e.free_rate for e in free], np.eye(6)[0])
    rates = np.array([j.rates.diagonal() for j in joints if j.rates is not None]).reshape(-1, 6)
    axes = np.array([j.axes for j in joints]).reshape(-1, 3, 3)
    windup = np.array([given.get(j.name, _AT_REST) for j in joints]).reshape(-1, 6)
    return Springs(
        names=(*(j.name for j in joints), *(e.name for e in free)),
        blocks=np.concatenate([blocks, np.array([r.blocks for r in lengths], dtype=np.intp).reshape(-1, 2)]),
        relative=np.concatenate([relative, answering]),
        rates=np.concatenate([rates, free_rates]),
        axes=np.concatenate([axes, np.broadcast_to(np.eye(3), (len(free), 3, 3))]),
        windup=np.concatenate([windup, np.zeros((len(free), 6))]),
        curves=tuple(
            (k, i, curve)
            for k, j in enumerate(joints)
            if j.rates is not None
            for i, curve in enumerate(j.rates.curves)
            if curve is not None
        ),
    )


_AT_REST = np.zeros(6)


def ideal_rows(model: Model, mesh: Mesh) -> list[Rows]:
    """Constraint rows of all ideal joints, in the order of the model."""
    joints = [j for j in model.joints.values() if j.rates is None]
    blocks, relative = _movements(model, mesh, joints)
    return [
        Rows(j.name, (int(a), int(b)), movement[list(held_by(j))])
        for j, (a, b), movement in zip(joints, blocks, relative, strict=True)
    ]


def line_of(model: Model, element: ForceElement) -> Array:
    """(3,) unit vector from the first to the second end of a force element."""
    start, end = (model.at(p, q) for p, q in zip(element.between, element.ends, strict=True))
    line = end - start
    unit: Array = line / np.linalg.norm(line)
    return unit


def locked_rows(model: Model, mesh: Mesh) -> list[Rows]:
    """One row for each locked force element: change of the distance between its ends."""
    return [length_row(model, mesh, e) for e in model.force_elements.values() if e.locked]


def length_row(model: Model, mesh: Mesh, element: ForceElement) -> Rows:
    """Change of the distance between the ends of a force element."""
    n = line_of(model, element)
    a, b = (mesh.places[p, q] for p, q in zip(element.between, element.ends, strict=True))
    ends = [np.concatenate([n, np.cross(side.lever, n)]) for side in (a, b)]
    matrix = np.concatenate([-ends[0], ends[1]])[None, :]
    return Rows(element.name, (a.block, b.block), matrix)


def body_rates(model: Model, mesh: Mesh) -> tuple[dict[int, Array], NDArray[np.bool_]]:
    """Ground under the body's points.

    Returns
    -------
    Stiffness (3, 3) [N/mm] in case axes by block, and the (6 nb,) freedoms that are held: the rotations of
    every body point, and its displacements where the body is rigid there.
    """
    axes = np.array([model.axes.forward, model.axes.left, model.axes.up])
    held = np.zeros((len(mesh.owners), 6), dtype=bool)
    stiffness: dict[int, Array] = {}
    for block, (owner, name) in enumerate(zip(mesh.owners, mesh.names, strict=True)):
        if owner != BODY:
            continue
        rates = model.body_mounts[name].rates
        held[block] = rates is None
        held[block, 3:] = True
        if rates is not None:
            stiffness[block] = axes.T @ (rates[:, None] * axes)
    return stiffness, held.ravel()
