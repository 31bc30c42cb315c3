"""How much a member's section may grow in each direction before the clearance that is asked for is used up."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from loadpath.pose import Mechanism
from loadpath.room.clearance import (
    Clearance,
    WheelPose,
    between_of,
    least_of,
    name_of,
    nearest_first,
    stand_of,
    told,
    whole_faces,
    world_of,
)
from loadpath.room.movers import Mover
from loadpath.room.scene import Patches, Scene, Spread, make_stage
from loadpath.room.search import Blur, Found, search
from loadpath.room.stretches import stretches_of
from loadpath.room.sweep import range_of

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

WAYS = ("+y", "-y", "+z", "-z")
"""Directions in the section's own axes, in the order of `Patches.way`."""
MOST = 60.0
"""[mm] of growth beyond which nothing is looked for."""
_FACING = 0.15
"""Faces look in a direction when their normal has at least this component in it."""
_SIGN = np.array([1.0, -1.0, 1.0, -1.0])
GROWTH = Blur(1.0, 0.03, 1.5)
"""Free widths are told too small by no more than 1 mm and 3 % where a face meets what limits it, never too large; one
that would pass within 1.5 mm of the clearance counts as met."""
_AHEAD = -0.5
"""Change of the distance for a unit of movement up to which a direction leads to the solid: within 60 degrees."""
_CLOSE = 0.25
_STEPS = 400


@dataclass(frozen=True, eq=False)
class FreeWidth:
    """Room of a member in one direction of its section.

    Attributes
    ----------
    way : one of WAYS.
    free : [mm] by which all faces that look that way may move out, inf where nothing is met within MOST. Of a member
        that is too near already: what it must give back, negative, in the ways that lead to the solid where it is
        nearest, to first order; 0 in the others.
    required : [mm] clearance that is kept.
    mover : what limits it, stand, between, at : where, as with a clearance; None where free is inf.
    toward : (3,) the direction at that place in that pose, case axes.
    """

    part: str
    member: str
    way: str
    free: float
    required: float
    mover: Mover | None
    stand: WheelPose | None
    between: tuple[str, str] | None
    at: Array | None
    toward: Array | None

    @property
    def name(self) -> str:
        """Of the member, for people; a link has the part's."""
        return name_of(self.part, self.member)


def room_of(
    mechanism: Mechanism, movers: Sequence[Mover], required: Mapping[str, float]
) -> tuple[tuple[Clearance, ...], tuple[FreeWidth, ...]]:
    """Clearances as `clearances_of` tells them, and four directions of every member that something is near.

    The latter in the order of the model. Both set out from the same least distances, found once.
    required : clearance [mm] to keep from each kind of mover, "wheel" and "half-shaft".

    Raises
    ------
    OutOfReach : full travel or full steer that the suspension does not reach.
    """
    stretches = stretches_of(mechanism)
    clearances: list[Clearance] = []
    best: dict[tuple[int, str], FreeWidth] = {}
    for mover in movers:
        stage = make_stage(mover, range_of(mechanism, mover.wheel.name))
        for k in range(len(stretches.members)):
            scene = stage.scene(stretches.of_member(k))
            least = least_of(scene)
            if least.where[0] < 0:
                continue
            clearances.append(told(scene, least))
            for one in _of_scene(scene, least, required[mover.kind]):
                key = k, one.way
                if key not in best or one.free < best[key].free:
                    best[key] = one
    near = sorted({k for (k, _), one in best.items() if np.isfinite(one.free)})
    return nearest_first(clearances), tuple(best[k, way] for k in near for way in WAYS)


def _of_scene(scene: Scene, least: Found, required: float) -> list[FreeWidth]:
    """Four ways of the one member of a scene, of which the least distance is known."""
    if not least.least[0] > required:
        return _short(scene, least, required)

    def judge(patches: Patches, points: Array, spread: Spread | None) -> Array:
        stretch = scene.stretches.owner[patches.face]
        toward = _toward(scene, patches.cell, stretch, patches.way)
        if spread is None:
            return reach(lambda at, _: scene.mover.solid.distance(at), points, toward, required)

        def below(at: Array, which: Ints) -> Array:
            return spread.below(scene.mover.solid, at, which)

        return reach(below, points, toward, required, scene.turning(patches.cell, stretch))

    found = search(scene, _nearby(scene, required), lambda p: p.way, len(WAYS), judge, GROWTH)
    return [_told(scene, found, way, required) for way in range(len(WAYS))]


def _short(scene: Scene, least: Found, required: float) -> list[FreeWidth]:
    """A member that is too near already: what it must give back where it is nearest, and 0 in all other ways."""
    patch, ways = least.patches.pick(least.where), np.arange(len(WAYS))
    four = patch.pick(np.zeros(len(WAYS), dtype=np.intp))
    toward = _toward(scene, four.cell, scene.stretches.owner[four.face], ways)
    at = scene.points(four)
    solid = scene.mover.solid
    heading = (solid.distance(at + toward) - solid.distance(at - toward)) / 2
    back = np.where(heading < _AHEAD, (required - least.least[0]) / np.minimum(heading, _AHEAD), 0.0)
    place, turn = world_of(scene, patch)
    stand, between = stand_of(scene, int(patch.cell[0])), between_of(scene, patch)
    part, member = scene.stretches.members[scene.stretches.member[0]]
    return [
        FreeWidth(
            part,
            member,
            WAYS[k],
            float(back[k]),
            required,
            scene.mover,
            stand,
            between,
            place,
            turn @ toward[k],
        )
        for k in range(len(WAYS))
    ]


Near = Callable[[Array, Ints], Array]
"""Distance (m,) [mm] at places (m, 3), for points of these numbers (m,)."""


def reach(near: Near, start: Array, toward: Array, need: float, lean: Array | float = 0.0) -> Array:
    """(n,) [mm] that points can move along unit vectors until the distance is down to `need`; inf beyond MOST.

    Each step goes as far as the distance allows, so that nothing is stepped over. `lean` [mm/mm] is by how much the
    need grows on the way.
    """
    gone, lean = np.zeros(len(start)), np.broadcast_to(lean, len(start))
    going = np.arange(len(start))
    for _ in range(_STEPS):
        place = start[going] + gone[going, None] * toward[going]
        slack = near(place, going) - need - lean[going] * gone[going]
        far = slack > _CLOSE
        gone[going[far]] += slack[far] / (1 + lean[going[far]])
        going = going[far & (gone[going] <= MOST)]
        if not len(going):
            break
    free: Array = np.where(gone > MOST, np.inf, gone)
    return free


def _toward(scene: Scene, cell: Ints, stretch: Ints, way: Ints) -> Array:
    """(n, 3) unit vectors of ways in the mover's frame."""
    y, z = scene.places.y[cell, stretch], scene.places.z[cell, stretch]
    unit: Array = np.where(way[:, None] < 2, y, z) * _SIGN[way, None]
    return unit


def _nearby(scene: Scene, required: float) -> Patches:
    """Faces that look in each direction, in the first cells and stretches that may limit it."""
    cells, count = scene.places.length.shape
    cell, stretch = np.indices((cells, count)).reshape(2, -1)
    way = np.repeat(np.arange(len(WAYS)), len(cell))
    cell, stretch = np.tile(cell, len(WAYS)), np.tile(stretch, len(WAYS))
    middle = scene.places.start + scene.places.along * scene.places.length[..., None] / 2
    far = scene.places.length[cell, stretch] / 2 + scene.stretches.round[stretch]
    far = far + scene.wander(cell, stretch)
    lean = scene.turning(cell, stretch)
    toward = _toward(scene, cell, stretch, way)

    def below(at: Array, which: Ints) -> Array:
        return scene.mover.solid.distance(at) - far[which]

    least = reach(below, middle[cell, stretch], toward, required, lean)
    chosen = np.flatnonzero(np.isfinite(least))
    faces = [
        _facing(scene, cell[chosen][way[chosen] == w], stretch[chosen][way[chosen] == w], w) for w in range(4)
    ]
    patches = faces[0]
    for more in faces[1:]:
        patches = patches.joined(more)
    return patches


def _facing(scene: Scene, cell: Ints, stretch: Ints, way: int) -> Patches:
    every = whole_faces(scene, cell, stretch)
    looks = scene.stretches.normal[every.face, way // 2] * _SIGN[way]
    return replace(every, way=np.full(len(every), way, dtype=np.intp)).pick(looks > _FACING)


def _told(scene: Scene, found: Found, way: int, required: float) -> FreeWidth:
    part, member = scene.stretches.members[scene.stretches.member[0]]
    free = max(float(found.least[way]), 0.0)
    if found.where[way] < 0 or not free < MOST:
        return FreeWidth(part, member, WAYS[way], np.inf, required, None, None, None, None, None)
    patch = found.patches.pick(found.where[way : way + 1])
    at, turn = world_of(scene, patch)
    stretch = scene.stretches.owner[patch.face]
    toward = turn @ _toward(scene, patch.cell, stretch, patch.way)[0]
    stand = stand_of(scene, int(patch.cell[0]))
    return FreeWidth(
        part, member, WAYS[way], free, required, scene.mover, stand, between_of(scene, patch), at, toward
    )
