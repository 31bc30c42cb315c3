"""A part that twists, cut in two: which point is on which half, and about which line the halves turn.

The halves of an anti-roll bar turn about the line through the two joints that hold it, each against the part
that holds it there; where the case names an axis, they turn against each other about that. Between the cut and
the nearest joint, member end or branch on each side the part twists evenly: points there turn in proportion.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Member, Model, Part
from loadpath.pose.errors import PoseError
from loadpath.pose.rotation import cross
from loadpath.pose.ties import Piece, Tie

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Twist:
    """One split part.

    Attributes
    ----------
    part : its name. halves : 0 or 1 of each of its points.
    shares : of the points on the stretch that twists, how far along it they lie: 0 at its first end, 1 at its last.
    at : (3,) a point of the axis. axis : (3,) unit vector, from the first half to the second.
    run : names of the points of the stretch, in order. member : the member that it is on.
    """

    part: str
    halves: dict[str, int]
    shares: dict[str, float]
    at: Array
    axis: Array
    run: tuple[str, ...]
    member: str


def twists_of(model: Model) -> tuple[Twist, ...]:
    """All split parts.

    Raises
    ------
    PoseError : a split that leaves one piece, or without joints to take the axis from.
    """
    return tuple(_twist(model, part) for part in model.parts.values() if part.split is not None)


def hinges_of(model: Model, twists: tuple[Twist, ...]) -> list[Tie]:
    """What ties the halves: hinges to the parts that hold them, or one hinge between them where an axis is given."""
    found = []
    for twist in twists:
        split = model.parts[twist.part].split
        axes = _axes_along(twist.axis)
        first, second = Piece(twist.part, 0), Piece(twist.part, 1)
        if split is not None and split.axis is not None:
            found.append(Tie(twist.part, "hinge", (first, second), twist.at, axes))
            continue
        holders = _holders(model, twist.part)
        for half, point in ((first, twist.run[0]), (second, twist.run[-1])):
            found.append(Tie(twist.part, "hinge", (Piece(holders[point].other), half), twist.at, axes))
    return found


def _twist(model: Model, part: Part) -> Twist:
    split = part.split
    assert split is not None
    member, k = _cut(part, split.at)
    halves = _halves(part, split.at, member, k)
    held = _holders(model, part.name)
    branches = {p for m in part.members if m is not member for p in m.path}
    stops = held.keys() | branches
    first = next((i for i in range(k - 1, -1, -1) if member.path[i] in stops), 0)
    last = next((i for i in range(k + 1, len(member.path)) if member.path[i] in stops), len(member.path) - 1)
    run = member.path[first : last + 1]
    if split.axis is not None:
        at, axis = model.points[split.at], split.axis
        if axis @ (model.points[run[-1]] - model.points[run[0]]) < 0:
            axis = -axis
    else:
        if not (run[0] in held and run[-1] in held):
            raise PoseError(
                f"{part.name} is split at {split.at}, but no bushing or hinge holds it on both sides of the cut: "
                "say split = { at = ..., axis = ... }"
            )
        at = model.points[held[run[0]].point]
        axis = model.points[held[run[-1]].point] - at
        axis = axis / np.linalg.norm(axis)
    steps = [np.linalg.norm(model.points[b] - model.points[a]) for a, b in pairwise(run)]
    along = np.concatenate([[0.0], np.cumsum(steps)]) / np.sum(steps)
    shares = {p: float(s) for p, s in zip(run, along, strict=True) if 0 < s < 1}
    return Twist(part.name, halves, shares, at, axis, run, member.name)


def _cut(part: Part, at: str) -> tuple[Member, int]:
    """The member that is cut, and where on its path."""
    for member in part.members:
        if at in member.path[1:-1]:
            return member, member.path.index(at)
    raise PoseError(f"{part.name} is split at {at}, which is inside none of its members")


def _halves(part: Part, at: str, cut: Member, k: int) -> dict[str, int]:
    """Half of every point of the part; the cut itself belongs to the first."""
    edges = [pair for m in part.members for pair in zip(m.path, m.path[1:], strict=False)]
    edges = [e for e in edges if at not in e]
    edges += [(b.point, b.carried_by) for b in part.brackets]
    first, second = _reached(edges, cut.path[k - 1]), _reached(edges, cut.path[k + 1])
    if first & second:
        raise PoseError(f"{part.name} is split at {at}, but stays one piece there")
    every = {p for m in part.members for p in m.path} | {b.point for b in part.brackets}
    return {p: 1 if p in second else 0 for p in every}


def _reached(edges: list[tuple[str, str]], start: str) -> set[str]:
    found, more = {start}, True
    while more:
        near = {p for e in edges if set(e) & found for p in e}
        more = not near <= found
        found |= near
    return found


class _Holder(NamedTuple):
    """A bushing or hinge of a part: its point, and the part at its other side."""

    point: str
    other: str


def _holders(model: Model, part: str) -> dict[str, _Holder]:
    """Bushings and hinges of a part by their point on its members; a bracket's stands at its carrier."""
    carriers = {b.point: b.carried_by for b in model.parts[part].brackets}
    found = {}
    for joint in model.joints.values():
        if part in joint.between and joint.kind in ("bushing", "hinge") and joint.moves_as != "free":
            other = joint.between[1] if joint.between[0] == part else joint.between[0]
            found[carriers.get(joint.point, joint.point)] = _Holder(joint.point, other)
    return found


def _axes_along(axis: Array) -> Array:
    """(3, 3) rows: the axis and two square to it."""
    second = cross(axis, np.eye(3)[int(np.abs(axis).argmin())])
    second = second / np.linalg.norm(second)
    return np.array([axis, second, cross(axis, second)])
