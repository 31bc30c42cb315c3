"""Least values over all poses and all faces, found to a tolerance: halve what may still hold the least.

Every patch in a cell of poses has the value in its middle, and a value that nothing in it goes below. What cannot be
less than the least known is left out; the rest is halved, in poses or in the face, whichever moves points more.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.room.scene import Patches, Scene, Spread

Array = NDArray[np.float64]
Ints = NDArray[np.intp]


@dataclass(frozen=True)
class Blur:
    """By how much a least value may be told too small: near [mm], and a share of it.

    point : [mm] size at which a patch and its cell count as a point; its least value is then taken.
    """

    near: float
    share: float
    point: float

    def of(self, value: Array) -> Array:
        """[mm]"""
        return self.near + self.share * np.abs(np.where(np.isfinite(value), value, 0.0))


Judge = Callable[[Patches, Array, Spread | None], Array]
"""Value (n,) at points (n, 3), one of each patch; with a spread the least value of anything round them."""


@dataclass(frozen=True, eq=False)
class Found:
    """Least value of each group, inf where nothing is near, and the patch (one a group) where it was found.

    where : index into patches, -1 for none.
    """

    least: Array
    where: Ints
    patches: Patches


def search(
    scene: Scene, patches: Patches, group: Callable[[Patches], Ints], groups: int, judge: Judge, blur: Blur
) -> Found:
    """Least value of each group of patches: never above the true one, below it by no more than `blur` of it.

    Raises
    ------
    OutOfReach : a pose in between that the suspension does not reach.
    """
    best = np.full(groups, np.inf)
    where = np.full(groups, -1, dtype=np.intp)
    kept = patches.pick(np.zeros(0, dtype=np.intp))
    while len(patches):
        owner = group(patches)
        points, spread = scene.points(patches), scene.spread(patches)
        value, least = judge(patches, points, None), judge(patches, points, spread)
        tiny = spread.size < blur.point
        value = np.where(tiny, least, value)
        better = _smallest(value, owner, best)
        where[owner[better]] = len(kept) + np.arange(len(better))
        kept = kept.joined(patches.pick(better))
        best[owner[better]] = value[better]
        open_ = np.flatnonzero((least < best[owner] - blur.of(best[owner])) & ~tiny)
        side = spread.parts(scene.mover.solid, points)[open_].argmax(axis=1)
        patches = _halved(scene, patches.pick(open_), side)
    return Found(best - blur.of(best), where, kept)


def _smallest(value: Array, owner: Ints, best: Array) -> Ints:
    """Index of the smallest value of each group that is below its best."""
    order = np.lexsort((value, owner))
    first = np.ones(len(order), dtype=bool)
    first[1:] = owner[order][1:] != owner[order][:-1]
    candidates = order[first]
    below: Ints = candidates[value[candidates] < best[owner[candidates]]]
    return below


def _halved(scene: Scene, patches: Patches, by: Ints) -> Patches:
    """Two halves of each patch: across (0) or along (1) its face, or in travel (2) or steer (3)."""
    in_pose = by >= 2
    halves = patches.pick(~in_pose).halves(by[~in_pose])
    if in_pose.any():
        chosen = patches.pick(in_pose)
        halves = halves.joined(chosen.in_cells(*scene.halved(chosen.cell, by[in_pose] - 2)))
    return halves
