"""Stretches of members before a moving solid: cells of poses, and patches of faces within them."""

from __future__ import annotations

from dataclasses import dataclass, field, fields

import numpy as np
from numpy.typing import NDArray

from loadpath.pose import Poses
from loadpath.room.movers import Mover
from loadpath.room.placing import Placed, placed
from loadpath.room.solids import Solid
from loadpath.room.stretches import Stretches
from loadpath.room.sweep import Cells, Range, first_cells, poses_of

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

SMALL = 6.5
"""[mm] half size of a cell in travel and in rack travel within which poses follow from velocities: points miss by no
more than SMALL² / 2 over the radius on which they move, 0.1 mm at a radius of 200 mm."""
MARGIN, BEND = 0.1, 200.0
"""By how much a movement across a cell may differ from its velocity in the middle: at most this share of it, and its
square over BEND [mm], for points that move on radii above half of that."""


HOLE = 0.05
"""[mm] by which a solid may lie deeper than its convex hull before the hull says too little."""


@dataclass(frozen=True, eq=False)
class Patches:
    """n patches of faces in cells.

    cell, face : (n,). low, high : (n, 2) share of the face across, and along the stretch. way : (n,) direction of
    growth, 0 where it has no meaning.
    """

    cell: Ints
    face: Ints
    low: Array
    high: Array
    way: Ints

    def __len__(self) -> int:
        return len(self.cell)

    def pick(self, which: Ints | NDArray[np.bool_]) -> Patches:
        """Some of them."""
        return Patches(*(getattr(self, f.name)[which] for f in fields(self)))

    def joined(self, other: Patches) -> Patches:
        """These and then others."""
        return Patches(
            *(np.concatenate([getattr(self, f.name), getattr(other, f.name)]) for f in fields(self))
        )

    def halves(self, side: Ints) -> Patches:
        """Two halves of each, across (0) or along (1)."""
        rows = range(len(self))
        middle = (self.low[rows, side] + self.high[rows, side]) / 2
        low, high = self.low.copy(), self.high.copy()
        high[rows, side] = middle
        low[rows, side] = middle
        first = Patches(self.cell, self.face, self.low, high, self.way)
        return first.joined(Patches(self.cell, self.face, low, self.high, self.way))

    def in_cells(self, first: Ints, second: Ints) -> Patches:
        """Each in both halves of its cell."""
        one = Patches(first, self.face, self.low, self.high, self.way)
        return one.joined(Patches(second, self.face, self.low, self.high, self.way))


@dataclass(frozen=True, eq=False)
class Spread:
    """What lies round n points: within the sum of any parts of four vectors, and a rest.

    sides : (n, 4, 3) half vectors across the face, along it, by travel and by steer [mm]. warp : (n,) by which a face
    is no plane. more : (n, 2) by which movements are not straight, by travel and by steer.
    """

    sides: Array
    warp: Array
    more: Array

    def below(self, solid: Solid, points: Array, which: Ints | slice = slice(None)) -> Array:
        """(n,) [mm] distance below which none round the points lies, for points `which` of the spread.

        By the size of the spread, or by the tangent of the distance from the convex hull, whichever says more.
        """
        rest = self.warp[which] + self.more[which].sum(axis=1)
        sides = self.sides[which]
        plain = solid.distance(points) - np.sqrt((sides**2).sum(axis=2)).sum(axis=1)
        hull, away = solid.hull(points)
        tangent = hull - np.abs(np.einsum("nkj,nj->nk", sides, away)).sum(axis=1)
        lowest: Array = np.maximum(plain, tangent) - rest
        return lowest

    def parts(self, solid: Solid, points: Array) -> Array:
        """(n, 4) [mm] what each side takes from the distance: its size, or its slope where that can say more."""
        sizes = np.sqrt((self.sides**2).sum(axis=2))
        distance, (hull, away) = solid.distance(points), solid.hull(points)
        sloping = np.abs(np.einsum("nkj,nj->nk", self.sides, away))
        lost = np.where(np.isfinite(hull), distance - hull, np.inf)
        plainer = (sizes.sum(axis=1) < lost + sloping.sum(axis=1)) | (lost > sloping.sum(axis=1) + HOLE)
        found: Array = np.where(plainer[:, None], sizes, sloping)
        found[:, 2:] += self.more
        found[:, :2] += self.warp[:, None]
        return found

    @property
    def size(self) -> Array:
        """(n,) [mm] from the points within which all lies."""
        size: Array = np.sqrt((self.sides**2).sum(axis=2)).sum(axis=1) + self.warp + self.more.sum(axis=1)
        return size


@dataclass(eq=False)
class Scene:
    """One mover, the stretches round it, and the cells made so far; cells are added as a search halves them.

    places : stretches in the middle pose of every cell.
    """

    mover: Mover
    span: Range
    stretches: Stretches
    cells: Cells
    places: Placed
    _halves: dict[tuple[int, int], int] = field(default_factory=dict)

    def points(self, patches: Patches) -> Array:
        """(n, 3) middles of patches, in the mover's frame."""
        s, cell, face = self.stretches, patches.cell, patches.face
        own = s.owner[face]
        across, along = ((patches.low + patches.high) / 2).T[:, :, None]
        near = (1 - across) * s.near[face, 0] + across * s.near[face, 1]
        far = (1 - across) * s.far[face, 0] + across * s.far[face, 1]
        plane = (1 - along) * near + along * far
        late = (1 - across) * s.mitre[face, :, 0] + across * s.mitre[face, :, 1]
        length = self.places.length[cell, own]
        x = (1 - along[:, 0]) * late[:, 0] + along[:, 0] * (length + late[:, 1])
        place: Array = self.places.start[cell, own] + x[:, None] * self.places.along[cell, own]
        place += plane[:, :1] * self.places.y[cell, own] + plane[:, 1:] * self.places.z[cell, own]
        return place

    def spread(self, patches: Patches) -> Spread:
        """What lies round the middles of patches within them and their cells."""
        s, cell, face = self.stretches, patches.cell, patches.face
        own = s.owner[face]
        share = (patches.high - patches.low) / 2
        across, along = ((patches.low + patches.high) / 2).T[:, :, None]
        near, far = s.near[face], s.far[face]
        wide = ((1 - along) * (near[:, 1] - near[:, 0]) + along * (far[:, 1] - far[:, 0])) * share[:, :1]
        lean = ((1 - across) * (far[:, 0] - near[:, 0]) + across * (far[:, 1] - near[:, 1])) * share[:, 1:]
        late = s.mitre[face]
        skew = (
            (1 - along[:, 0]) * (late[:, 0, 1] - late[:, 0, 0])
            + along[:, 0] * (late[:, 1, 1] - late[:, 1, 0])
        ) * share[:, 0]
        run = self.places.length[cell, own] + (1 - across[:, 0]) * (late[:, 1, 0] - late[:, 0, 0])
        run = (run + across[:, 0] * (late[:, 1, 1] - late[:, 0, 1])) * share[:, 1]
        axes = np.stack(
            [self.places.along[cell, own], self.places.y[cell, own], self.places.z[cell, own]], axis=1
        )
        sides = np.einsum(
            "nki,nij->nkj",
            np.stack([np.column_stack([skew, wide]), np.column_stack([run, lean])], axis=1),
            axes,
        )
        bent = (far[:, 1] - far[:, 0]) - (near[:, 1] - near[:, 0])
        cut = (late[:, 1, 1] - late[:, 1, 0]) - (late[:, 0, 1] - late[:, 0, 0])
        warp = np.sqrt((bent**2).sum(axis=1) + cut**2)
        patch = np.sqrt((sides**2).sum(axis=2)).sum(axis=1)
        half = self.cells.half[cell]
        moves = self._velocity(patches) * half[:, :, None]
        gone = np.sqrt((moves**2).sum(axis=2))
        turned = self.places.turn[cell, own] * half
        more = gone * np.minimum(MARGIN, gone / BEND) + turned * patch[:, None]
        return Spread(np.concatenate([sides, moves], axis=1), warp * share.prod(axis=1), more)

    def _velocity(self, patches: Patches) -> Array:
        """(n, 2, 3) velocity of the middles of patches for a unit of travel and of steer."""
        s, cell, face = self.stretches, patches.cell, patches.face
        own = s.owner[face]
        across, along = ((patches.low + patches.high) / 2).T[:, :, None]
        near = (1 - across) * s.near[face, 0] + across * s.near[face, 1]
        far = (1 - across) * s.far[face, 0] + across * s.far[face, 1]
        plane = (1 - along) * near + along * far
        p, x = self.places, along[:, 0] * self.places.length[cell, own]
        found: Array = p.start_rate[cell, :, own] + x[:, None, None] * p.along_rate[cell, :, own]
        found = (
            found + plane[:, :1, None] * p.y_rate[cell, :, own] + plane[:, 1:, None] * p.z_rate[cell, :, own]
        )
        longer = along * p.length_rate[cell, :, own]
        found += longer[:, :, None] * p.along[cell, own][:, None]
        return found

    def wander(self, cell: Ints, stretch: Ints) -> Array:
        """(n,) [mm] that points of stretches go at most from the middle of a cell to its corners."""
        gone = self.places.speed[cell, stretch] * self.cells.half[cell]
        far: Array = (gone * (1 + np.minimum(MARGIN, gone / BEND))).sum(axis=1)
        return far

    def turning(self, cell: Ints, stretch: Ints) -> Array:
        """(n,) [rad] by which stretches turn from the middle of a cell to its edge."""
        turn: Array = (1 + MARGIN) * (self.places.turn[cell, stretch] * self.cells.half[cell]).sum(axis=1)
        return turn

    def halved(self, cell: Ints, along: Ints) -> tuple[Ints, Ints]:
        """Numbers of the two halves of each cell along travel (0) or steer (1)."""
        keys = list(zip(cell.tolist(), along.tolist(), strict=True))
        new = [key for key in dict.fromkeys(keys) if key not in self._halves]
        if new:
            known, which = len(self.cells), np.array(new, dtype=np.intp)
            more = self.cells.split(which[:, 0], which[:, 1])
            self.places = self.places.joined(self._placed(more, np.tile(which[:, 0], 2)))
            self.cells = self.cells.joined(more)
            self._halves |= {key: known + k for k, key in enumerate(new)}
            self._second |= {known + k: known + len(new) + k for k in range(len(new))}
        first = np.array([self._halves[key] for key in keys], dtype=np.intp)
        return first, np.array([self._second[k] for k in first.tolist()], dtype=np.intp)

    def _placed(self, cells: Cells, parents: Ints) -> Placed:
        """Stretches in new cells: solved, or in small ones moved from where the parent's middle has them."""
        small = (self.span.size(self.cells.half[parents]) <= SMALL).all(axis=1)
        solved, moved = np.flatnonzero(~small), np.flatnonzero(small)
        parts = [
            self.places.pick(parents[moved]).moved(cells.middle[moved] - self.cells.middle[parents[moved]])
        ]
        if len(solved):
            parts.append(_place(self.mover, self.span, self.stretches, cells.pick(solved)))
        both = parts[0] if len(parts) == 1 else parts[0].joined(parts[1])
        return both.pick(np.argsort(np.concatenate([moved, solved])))

    _second: dict[int, int] = field(default_factory=dict)


@dataclass(frozen=True, eq=False)
class Stage:
    """One mover in the first cells of its range, solved once for all members."""

    mover: Mover
    span: Range
    cells: Cells
    poses: Poses

    def scene(self, stretches: Stretches) -> Scene:
        """The mover and some stretches."""
        seen = placed(stretches, self.poses, self.mover.frame(self.poses), self.span.mix(self.cells.mode))
        return Scene(self.mover, self.span, stretches, self.cells, seen)


def make_stage(mover: Mover, span: Range) -> Stage:
    """The first cells of a range.

    Raises
    ------
    OutOfReach : a travel or steer of the range that the suspension does not reach.
    """
    cells = first_cells(span)
    return Stage(mover, span, cells, poses_of(span, cells))


def _place(mover: Mover, span: Range, stretches: Stretches, cells: Cells) -> Placed:
    poses = poses_of(span, cells)
    return placed(stretches, poses, mover.frame(poses), span.mix(cells.mode))
