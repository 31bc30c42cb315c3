"""Joints as the kinematics take them: between pieces of parts, each with the movements that it holds.

A piece is a part, or one half of a part that is split. Wrench rows (6) are a force and its moment about a common
origin: what a joint can hold against, so that row · twist is the movement that it denies.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from loadpath.model import BODY, Joint, Model
from loadpath.pose.rotation import cross

Array = NDArray[np.float64]

TieKind = Literal["fixed", "ball", "hinge", "slider", "sliding ball"]
RANK = 1e-9
"""Singular values below this share of the largest count as none."""

_FORCES = {
    "fixed": (0, 1, 2),
    "ball": (0, 1, 2),
    "hinge": (0, 1, 2),
    "slider": (1, 2),
    "sliding ball": (1, 2),
}
_COUPLES = {"fixed": (0, 1, 2), "ball": (), "hinge": (1, 2), "slider": (0, 1, 2), "sliding ball": ()}


class Piece(NamedTuple):
    """A part, or its half behind (0) or beyond (1) the point at which it is split."""

    part: str
    half: int = 0


@dataclass(frozen=True, eq=False)
class Tie:
    """One kinematic joint: kind, two pieces, position (3,), own axes (3, 3); rack where the steering drives it."""

    name: str
    kind: TieKind
    pieces: tuple[Piece, Piece]
    at: Array
    axes: Array
    rack: bool = False

    def rows(self, origin: Array, length: float) -> Array:
        """(m, 6) wrench rows about the origin, moments over `length`."""
        return wrench_rows(self.kind, (self.at - origin) / length, self.axes)


GROUND = Piece(BODY)


def wrench_rows(kind: TieKind, at: Array, axes: Array) -> Array:
    """(m, 6) forces and couples that a joint of this kind at `at` (3,) holds."""
    forces, couples = axes[list(_FORCES[kind])], axes[list(_COUPLES[kind])]
    held = np.zeros((len(forces) + len(couples), 6))
    held[: len(forces), :3] = forces
    held[: len(forces), 3:] = cross(at, forces)
    held[len(forces) :, 3:] = couples
    return held


def kind_of(joint: Joint) -> TieKind | None:
    """What a joint is to the kinematics; None where it is nothing."""
    if joint.kind == "bushing":
        return None if joint.moves_as == "free" else joint.moves_as
    if joint.kind == "welded" or joint.kind == "bolted":
        return "fixed"
    return joint.kind


def ties_of(model: Model, halves: dict[tuple[str, str], int]) -> list[Tie]:
    """Ties of all joints; halves: half of a split part by (part, point)."""
    found = []
    for joint in model.joints.values():
        kind = kind_of(joint)
        if kind is None:
            continue
        a, b = (Piece(part, halves.get((part, joint.point), 0)) for part in joint.between)
        found.append(Tie(joint.name, kind, (a, b), model.points[joint.point], joint.axes, joint.rack))
    return found


def rank_of(rows: Array) -> int:
    """How many of wrench rows (m, 6) are independent."""
    sigma = np.linalg.svd(rows, compute_uv=False)
    return int((sigma > RANK * sigma[0]).sum()) if len(sigma) else 0


def null_twist(rows: Array) -> Array | None:
    """(6,) the one twist that rows of rank 5 leave, of unit size; None for any other rank."""
    _, sigma, vt = np.linalg.svd(rows)
    rank = int((sigma > RANK * sigma[0]).sum())
    return vt[-1] if rank == 5 else None


def between(ties: Sequence[Tie], one: set[Piece], other: set[Piece]) -> list[Tie]:
    """Ties from one set of pieces to another."""
    return [
        t
        for t in ties
        if (t.pieces[0] in one and t.pieces[1] in other) or (t.pieces[1] in one and t.pieces[0] in other)
    ]
