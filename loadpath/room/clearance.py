"""Least distance of every member from a wheel or half-shaft over all its travel and steer."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.pose import Mechanism
from loadpath.room.movers import Mover
from loadpath.room.scene import Patches, Scene, Spread, make_stage
from loadpath.room.search import Blur, Found, search
from loadpath.room.stretches import Stretches, stretches_of
from loadpath.room.sweep import MODES, poses_of, range_of

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

EXACT = Blur(0.4, 0.02, 0.1)
"""Clearances are told too small by no more than 0.4 mm and 2 %, never too large."""
FAR = 200.0
"""[mm] beyond which a member is not near."""


@dataclass(frozen=True)
class WheelPose:
    """A pose: jounce of the wheel [mm], share of the racks' travel (left positive), what the other wheels do."""

    jounce: float
    steer: float
    others: str


@dataclass(frozen=True, eq=False)
class Clearance:
    """Least clearance of a member from a mover.

    clearance : [mm], negative where they meet. stand : the pose where it is least. between : points of the member's
    path that it lies between. at : (3,) place on the member's outline in that pose [mm], case axes.
    """

    mover: Mover
    part: str
    member: str
    clearance: float
    stand: WheelPose
    between: tuple[str, str]
    at: Array

    @property
    def name(self) -> str:
        """Of the member, for people; a link has the part's."""
        return name_of(self.part, self.member)


def name_of(part: str, member: str) -> str:
    """Name of a member for people; a link's one member has the part's name."""
    return part if member == part else f"{part}.{member}"


def clearances_of(
    mechanism: Mechanism, movers: Sequence[Mover], *, steered: bool = True
) -> tuple[Clearance, ...]:
    """Every member near a mover, smallest first.

    steered : False keeps the racks in the middle.

    Raises
    ------
    OutOfReach : full travel or full steer that the suspension does not reach.
    """
    stretches = stretches_of(mechanism)
    return nearest_first(c for m in movers for c in _of_mover(mechanism, m, stretches, steered))


def nearest_first(found: Iterable[Clearance]) -> tuple[Clearance, ...]:
    """Smallest clearance first."""
    return tuple(sorted(found, key=lambda c: c.clearance))


def _of_mover(mechanism: Mechanism, mover: Mover, stretches: Stretches, steered: bool) -> list[Clearance]:
    stage = make_stage(mover, range_of(mechanism, mover.wheel.name, steered))
    scenes = [stage.scene(stretches.of_member(k)) for k in range(len(stretches.members))]
    found = [(scene, least_of(scene)) for scene in scenes]
    return [told(scene, one) for scene, one in found if one.where[0] >= 0]


def least_of(scene: Scene) -> Found:
    """Least distance of the one member of a scene; nothing where it is not near."""

    solid = scene.mover.solid

    def judge(_: Patches, points: Array, spread: Spread | None) -> Array:
        return solid.distance(points) if spread is None else spread.below(solid, points)

    return search(scene, nearby(scene), lambda p: np.zeros(len(p), dtype=np.intp), 1, judge, EXACT)


def nearby(scene: Scene) -> Patches:
    """Whole faces in the first cells in which their member can come nearest, by balls round the stretches."""
    places, s = scene.places, scene.stretches
    cells, count = places.length.shape
    middle = places.start + places.along * places.length[..., None] / 2
    distance = scene.mover.solid.distance(middle.reshape(-1, 3)).reshape(cells, count)
    cell, stretch = np.indices((cells, count)).reshape(2, -1)
    goes = scene.wander(cell, stretch).reshape(cells, count)
    far = places.length / 2 + s.round + goes
    lower, upper = distance - far, distance + s.round
    return whole_faces(scene, *np.nonzero(lower < min(FAR, float(upper.min()))))


def whole_faces(scene: Scene, cell: Ints, stretch: Ints) -> Patches:
    """All faces of stretches in cells."""
    s = scene.stretches
    counts = np.bincount(s.owner, minlength=len(s.member))
    starts = np.cumsum(counts) - counts
    repeats = counts[stretch]
    offset = np.arange(repeats.sum()) - np.repeat(np.cumsum(repeats) - repeats, repeats)
    face = np.repeat(starts[stretch], repeats) + offset
    n = len(face)
    return Patches(
        np.repeat(cell, repeats), face, np.zeros((n, 2)), np.ones((n, 2)), np.zeros(n, dtype=np.intp)
    )


def told(scene: Scene, found: Found) -> Clearance:
    """The clearance that was found, with its place."""
    patch = found.patches.pick(found.where)
    part, name = scene.stretches.members[scene.stretches.member[0]]
    return Clearance(
        mover=scene.mover,
        part=part,
        member=name,
        clearance=float(found.least[0]),
        stand=stand_of(scene, int(patch.cell[0])),
        between=between_of(scene, patch),
        at=world_of(scene, patch)[0],
    )


def stand_of(scene: Scene, cell: int) -> WheelPose:
    """The pose in the middle of a cell."""
    jounce, steer = scene.cells.middle[cell].tolist()
    others = MODES[int(scene.cells.mode[cell])] if len(scene.span.mechanism.wheels) > 1 else ""
    return WheelPose(jounce, steer if scene.span.steered else 0.0, others)


def between_of(scene: Scene, patch: Patches) -> tuple[str, str]:
    """Points of the member's path between which one patch lies."""
    return scene.stretches.points[int(scene.stretches.owner[patch.face[0]])]


def world_of(scene: Scene, patch: Patches) -> tuple[Array, Array]:
    """(3,) middle of one patch in case axes, and (3, 3) the axes of the mover's frame there, in columns."""
    frame = scene.mover.frame(poses_of(scene.span, scene.cells.pick(patch.cell)))
    return frame.origin[0] + frame.turn[0] @ scene.points(patch)[0], frame.turn[0]
