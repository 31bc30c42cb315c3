"""Thin walls as bands of their thickness, arcs drawn round."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from sections.drawing.curves import curve, joint_tangent
from sections.geometry import Walls
from sections.midline import Midline
from sections.result import Array
from sections.walls.faces import corner, directions, wall_ends

ALONG = np.linspace(0.0, 1.0, 13)
"""Places along each wall."""
ACROSS = np.array([1.0, 0.0, -1.0])
"""Places across: left face, mid-line, right face."""
_STRAIGHT_ON = 0.05
"""Sine of a turn under which walls of different thickness meet in a step."""


@dataclass(frozen=True, eq=False)
class Bands:
    """Walls to their thickness on a grid of places.

    Attributes
    ----------
    grid : (m, len(ALONG), len(ACROSS), 2) y, z [mm]. square : (m, len(ALONG), 2) unit vector to the left face.
    free : (k, 2) wall and end (0 start, 1 stop) of those that no other wall meets.
    shear_rise, E_ratio, G_ratio : (m,) see `Walls`.
    """

    grid: Array
    square: Array
    free: tuple[tuple[int, int], ...]
    shear_rise: Array
    E_ratio: Array
    G_ratio: Array


def bands(walls: Walls, smooth: bool = True) -> Bands:
    """Bands of walls; `smooth` draws chords of arcs as curves.

    Two walls that meet in a corner are mitred.
    """
    along, length = directions(walls)
    tangent = np.stack([along, along], axis=1)
    reach = np.full((len(along), 2, 2), np.nan)
    free = []
    for ends in wall_ends(walls):
        if len(ends) == 1:
            free.append(ends[0])
        found = corner(ends, along, np.ones(len(along)))  # of any thickness, unlike the engine's
        if found is None:
            continue
        wall, end, other, sense = found
        other_end = 1 - end if sense == 1 else end
        onward = sense * along[other]
        first, second = (along[wall], onward) if end == 1 else (onward, along[wall])
        sizes = (float(length[wall]), float(length[other]))
        alike = walls.thickness[wall] == walls.thickness[other]
        shared = None
        if smooth and alike:
            shared = joint_tangent(first, second, sizes if end == 1 else sizes[::-1])
        if shared is None:
            left = _mitre(along[wall], onward, walls.thickness[[wall, other]])
            reach[wall, end], reach[other, other_end] = left, sense * left
        else:
            tangent[wall, end], tangent[other, other_end] = shared, sense * shared
    start, stop = walls.nodes[walls.ends[:, 0]], walls.nodes[walls.ends[:, 1]]
    mid, run = curve(start, stop, tangent[:, 0], tangent[:, 1], ALONG)
    square = np.stack([-run[..., 1], run[..., 0]], axis=-1)
    left = square * walls.thickness[:, None, None] / 2
    for end, share in ((0, 1 - ALONG), (1, ALONG)):
        place = 0 if end == 0 else -1
        more = np.where(np.isnan(reach[:, end]), 0.0, reach[:, end] - left[:, place])
        left = left + share[None, :, None] * more[:, None, :]
    grid = mid[:, :, None, :] + ACROSS[None, None, :, None] * left[:, :, None, :]
    return Bands(grid, square, tuple(free), walls.shear_rise, walls.E_ratio, walls.G_ratio)


def _mitre(wall: Array, onward: Array, thickness: Array) -> Array:
    """(2,) from the mid-line to where the left faces of two walls with unit directions meet; NaN where they run on in
    one direction."""
    square = np.array([[-wall[1], wall[0]], [-onward[1], onward[0]]])
    if abs(np.linalg.det(square)) < _STRAIGHT_ON:
        return np.full(2, np.nan)
    return np.asarray(np.linalg.solve(square, thickness / 2))


def shells(drawn: Bands) -> Array:
    """(m, k, 2) closed outline of each band."""
    return np.concatenate([drawn.grid[:, :, 0], drawn.grid[:, ::-1, -1]], axis=1)


def edges(drawn: Bands) -> list[Array]:
    """Lines to be drawn: both faces of every wall, and the cuts at free ends."""
    faces = [*drawn.grid[:, :, 0], *drawn.grid[:, :, -1]]
    return faces + [drawn.grid[wall, -1 if end else 0][[0, -1]] for wall, end in drawn.free]


def is_free(line: Walls | Midline, wall: int, place: Array) -> bool:
    """Whether no other wall lies at a place, as the next layer of a joint may."""
    start = line.nodes[line.ends[:, 0]]
    run = line.nodes[line.ends[:, 1]] - start
    at = np.clip(((place - start) * run).sum(axis=1) / (run * run).sum(axis=1), 0.0, 1.0)
    gap = np.linalg.norm(place - start - at[:, None] * run, axis=1)
    return bool(np.delete(gap - line.thickness, wall).min(initial=np.inf) > 0)
