"""The model as it stands in a pose: points, joint axes, members, wheels, and what has been wound up and twisted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from loadpath.model import BODY, ForceElement, Joint, Member, Model, Part, Pose
from loadpath.pose.attitude import wheel_angles
from loadpath.pose.guides import guides_of, held_in_guides
from loadpath.pose.mechanism import Mechanism
from loadpath.pose.poses import Poses
from loadpath.pose.rotation import rotation_vector, transposed
from loadpath.pose.windup import Clamped, windup

Array = NDArray[np.float64]

_TOGETHER = 1e-6
"""[mm] within which points of two parts count as one."""


def owned_points(model: Model) -> dict[tuple[str, str], None]:
    """Every (part, point) that something of the model uses, those of joints first."""
    return dict.fromkeys(_owned(model))


def _owned(model: Model) -> Iterator[tuple[str, str]]:
    for joint in model.joints.values():
        yield from ((part, joint.point) for part in joint.between)
    for element in model.force_elements.values():
        yield from zip(element.between, element.ends, strict=True)
    for wheel in model.wheels.values():
        yield wheel.part, wheel.centre
        if wheel.half_shaft is not None:
            yield wheel.part, wheel.half_shaft.outer
            yield wheel.unit or BODY, wheel.half_shaft.inner
    for mass in model.masses.values():
        yield mass.part, mass.point
    for sensor in model.sensors.values():
        yield from ((sensor.between[0], p) for p in (sensor.pivot, sensor.lever))
        yield sensor.between[1], sensor.rod
    for part in model.parts.values():
        yield from ((part.name, p) for m in part.members for p in m.path)
        yield from ((part.name, b.point) for b in part.brackets)


@dataclass(frozen=True, eq=False)
class Standing:
    """What is worked out of many poses at once for their models: positions (p, k, 3) of k owned points.

    A rod that slides through a guide ends where the guide is.
    """

    poses: Poses
    owned: tuple[tuple[str, str], ...]
    positions: Array
    windups: Mapping[str, Array]
    pushes: Mapping[str, Array]


def standing(poses: Poses, clamped: Clamped, pushes: Mapping[str, Array]) -> Standing:
    """Positions, wind-up and pushes of all poses; pushes (p,) of each force element by its law."""
    mechanism, model = poses.mechanism, poses.mechanism.model
    owned = tuple(owned_points(model))
    carriers = np.array([mechanism.carrier(*o) for o in owned], dtype=np.intp)
    at = np.array([model.at(*o) for o in owned]).reshape(-1, 3)
    guides = guides_of(model, _owned(model))
    positions = held_in_guides(guides, owned, poses.points(carriers, at))
    return Standing(poses, owned, positions, windup(poses, clamped), pushes)


def posed_model(found: Standing, k: int) -> Model:
    """The model in pose k: everything that moved, the body untouched."""
    poses, mechanism = found.poses, found.poses.mechanism
    model = mechanism.model
    points, own = _points(model, found.owned, found.positions[k])
    parts = {name: _part(poses, k, part) for name, part in model.parts.items()}
    values = dict(zip(mechanism.drivers, map(float, poses.targets[k]), strict=True))
    pose = Pose(
        travel={w: values.get(w, 0.0) for w in model.wheels},
        rack={r: values[r] for r in mechanism.racks},
        windup={name: w[k] for name, w in found.windups.items()},
        twist=_twists(model, mechanism, poses, k, points, own),
        pushes={name: float(p[k]) for name, p in found.pushes.items()},
        screws={
            key: poses.screw[k, : len(mechanism.wheels), carrier] for key, carrier in mechanism.number.items()
        },
    )
    angles = wheel_angles(poses)
    return replace(
        model,
        points=points,
        own_points=own,
        parts=parts,
        joints={name: _joint(poses, k, j) for name, j in model.joints.items()},
        force_elements={name: _element(e, pose) for name, e in model.force_elements.items()},
        wheels={
            name: replace(w, camber=float(angles[name].camber[k]), toe=float(angles[name].toe[k]))
            for name, w in model.wheels.items()
        },
        pose=pose,
    )


def _points(
    model: Model, owned: tuple[tuple[str, str], ...], positions: Array
) -> tuple[dict[str, Array], dict[tuple[str, str], Array]]:
    """Where each point is, and where it is on parts on which it is somewhere else."""
    points, own = dict(model.points), {}
    first: dict[str, Array] = {}
    for (part, point), at in zip(owned, positions, strict=True):
        known = first.setdefault(point, at)
        if np.abs(at - known).max() > _TOGETHER:
            own[part, point] = at
    return {**points, **first}, own


def _joint(poses: Poses, k: int, joint: Joint) -> Joint:
    turn = poses.turned(joint.between[0], joint.point)[k]
    return replace(joint, axes=joint.axes @ turn.T)


def _element(element: ForceElement, pose: Pose) -> ForceElement:
    """A free element pushes with the force of the pose."""
    if element.locked or element.law is None:
        return element
    return replace(element, force=pose.pushes.get(element.name, element.force))


def _part(poses: Poses, k: int, part: Part) -> Part:
    if not part.members:
        return part
    return replace(part, members=tuple(_member(poses, k, part, m) for m in part.members))


def _member(poses: Poses, k: int, part: Part, member: Member) -> Member:
    if part.split is None:
        return replace(member, up=poses.turned(part.name)[k] @ member.up)
    ups = np.broadcast_to(member.up, (len(member.path) - 1, 3))
    turned = [poses.turned(part.name, p)[k] @ up for p, up in zip(member.path, ups, strict=False)]
    return replace(member, up=np.array(turned))


def _twists(
    model: Model,
    mechanism: Mechanism,
    poses: Poses,
    k: int,
    points: Mapping[str, Array],
    own: Mapping[tuple[str, str], Array],
) -> dict[tuple[str, str], Array]:
    """Of each member of a split part, by how much the ends of its segments move against each other."""
    found = {}
    for name in {t.part: None for t in mechanism.twists}:
        for member in model.parts[name].members:
            turns = np.array([poses.turned(name, p)[k] for p in member.path])
            now = np.array([own.get((name, p), points[p]) for p in member.path])
            before = np.array([model.at(name, p) for p in member.path])
            carried = (turns[:-1] @ np.diff(before, axis=0)[:, :, None])[..., 0]
            apart = np.diff(now, axis=0) - carried
            rolled = rotation_vector(turns[1:] @ transposed(turns[:-1]))
            found[name, member.name] = np.concatenate([apart, rolled], axis=1)
    return found
