"""Changes to thin walls: holes in a row, patches welded on, weak zones beside welds.

Holes and patches also take columns of numbers, see `sections.columns`; weak zones, which cut walls at places found by
a search, do not.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from sections.columns import hypot, numbers
from sections.geometry.walls import PER_WALL, IntArray, Walls
from sections.result import Array

WELDED = 1.0
"""Conductance of a continuous weld between two layers: its throat equals the distance of their mid-lines."""
_NU = 0.3
_BESIDE = 1e-6
"""Distance from a wall, over its length, up to which a place is on it."""


def hole_conductance(thickness: float, diameter: float, pitch: float) -> float:
    """Shear flow through the strip of a row of round holes for a unit slip across it, over G [-].

    The strip of width d stands for t/(d (1 + c)) where a whole one has t/d, with
    c = π (d/p)/(1 + ν) (1 − (d/p)²)^(−3/2), ν = 0.3. The first factor is the closed form of sparse holes in plane
    stress under shear (strain energy that a hole adds; Kachanov, from memory, derived again here); the second, for
    neighbours in the row, is fitted to plane-stress finite elements on one pitch of the wall. Against those the
    wall's shear stiffness is at most 1 % high and 14 % low for diameters up to 0.7 of the wall's width and pitches
    from 1.5 diameters (tests/published).
    """
    near = diameter / pitch
    softened: float = 1 + np.pi * near / (1 + _NU) * (1 - near**2) ** -1.5
    return thickness / (diameter * softened)


def with_holes(walls: Walls, at: Sequence[float], diameter: float, pitch: float) -> Walls:
    """A row of holes along the member in the straight wall through `at`.

    The strip of the holes carries no axial stress, so that area, second moments and bending stress are those of the
    net section; shear flows through it by `hole_conductance`. Beside it shear is raised to what is left of the wall
    in the net section, or between two holes where that is more. Material between the holes counts for mass.

    Raises
    ------
    ValueError : no straight wall there that is wider than the hole.
    """
    wall, edges, length = _strip(walls, at, diameter)
    start, stop = walls.ends[wall].tolist()
    count = len(walls.nodes)
    ends, source = _instead(walls, wall, [(start, count), (count + 1, stop)])
    thickness = walls.thickness[wall]
    each = _each(walls, source)
    rise = max(length / (length - diameter), pitch / (pitch - diameter))
    each["shear_rise"] = numbers([*each["shear_rise"][:-2], rise, rise])
    return Walls(
        nodes=np.vstack([walls.nodes, edges]),
        ends=ends,
        seams=np.vstack([walls.seams, [(count, count + 1)]]),
        seam_conductance=np.append(
            walls.seam_conductance, hole_conductance(thickness, diameter, pitch) * walls.G_ratio[wall]
        ),
        **each,
        idle_area=walls.idle_area
        + thickness * (diameter - np.pi * diameter**2 / (4 * pitch)) * walls.density_ratio[wall],
    )


def with_patch(
    walls: Walls, at: Sequence[float], width: float, gauge: float, outward: Sequence[float]
) -> Walls:
    """A flat patch on the straight wall through its middle `at`, welded along both edges.

    outward : the side of the wall on which it lies.

    Raises
    ------
    ValueError : no straight wall there as wide as the patch.
    """
    wall, edges, _ = _strip(walls, at, width)
    start, stop = walls.ends[wall].tolist()
    count = len(walls.nodes)
    ends, source = _instead(walls, wall, [(start, count), (count, count + 1), (count + 1, stop)])
    lift = np.array(outward) * (walls.thickness[wall] + gauge) / 2
    each = _each(walls, np.append(source, wall))
    each["thickness"] = numbers([*each["thickness"][:-1], gauge])
    each["shear_rise"] = numbers([*each["shear_rise"][:-1], 1.0])
    return Walls(
        nodes=np.vstack([walls.nodes, edges, edges + lift]),
        ends=np.vstack([ends, [(count + 2, count + 3)]]),
        seams=np.vstack([walls.seams, [(count, count + 2), (count + 1, count + 3)]]),
        seam_conductance=np.append(walls.seam_conductance, [WELDED, WELDED]),
        **each,
        idle_area=walls.idle_area,
    )


def with_weak_zones(walls: Walls, welds: Array, width: float, strength: float) -> Walls:
    """Walls that have less strength within a distance of welds, measured along the mid-lines.

    Parameters
    ----------
    welds : (k, 2) places of the welds, each at a node [mm].
    """
    far = _way_from(walls, welds)
    nodes, ends, source, weak = list(walls.nodes), [], [], []
    for wall, (start, stop) in enumerate(walls.ends.tolist()):
        a, b = walls.nodes[start], walls.nodes[stop]
        length = float(np.linalg.norm(b - a))
        first = min(max(width - far[start], 0.0) / length, 1.0)
        last = max(1.0 - max(width - far[stop], 0.0) / length, 0.0)
        cuts = [0.0, 1.0] if first >= last else sorted({0.0, first, last, 1.0})
        index = [start]
        for cut in cuts[1:-1]:
            index.append(len(nodes))
            nodes.append(a + cut * (b - a))
        index.append(stop)
        for k in range(len(cuts) - 1):
            middle = (cuts[k] + cuts[k + 1]) / 2
            ends.append((index[k], index[k + 1]))
            source.append(wall)
            weak.append(first >= last or middle < first or middle > last)
    each = _each(walls, np.array(source))
    each["strength"] = np.minimum(each["strength"], np.where(weak, strength, 1.0))
    return Walls(
        nodes=np.array(nodes),
        ends=np.array(ends, dtype=np.intp),
        seams=walls.seams,
        seam_conductance=walls.seam_conductance,
        **each,
        idle_area=walls.idle_area,
    )


def _each(walls: Walls, source: IntArray) -> dict[str, Array]:
    """What is known of each wall, for walls made of those of `source`."""
    return {name: getattr(walls, name)[source] for name in PER_WALL}


def _way_from(walls: Walls, places: Array) -> Array:
    """(n,) shortest way along the mid-lines from each node to the nearest of the places [mm]."""
    far = np.linalg.norm(walls.nodes[:, None] - places, axis=2).min(axis=1)
    far[far > 1e-6 * np.ptp(walls.nodes)] = np.inf
    length = np.linalg.norm(np.diff(walls.nodes[walls.ends], axis=1)[:, 0], axis=1)
    for _ in range(len(far)):
        before = far.copy()
        for one, other in ((0, 1), (1, 0)):
            np.minimum.at(far, walls.ends[:, one], far[walls.ends[:, other]] + length)
        if np.array_equal(far, before):
            break
    return np.asarray(far)


def _strip(walls: Walls, at: Sequence[float], width: float) -> tuple[int, Array, float]:
    """The wall through `at`, the (2, 2) edges of a strip of it around that place, and the wall's length."""
    place = numbers(at)
    a, b = walls.nodes[walls.ends[:, 0]], walls.nodes[walls.ends[:, 1]]
    length = hypot(*(b - a).T)
    along = (b - a) / length[:, None]
    before = ((place - a) * along).sum(axis=1)
    beside = np.abs(along[:, 0] * (place - a)[:, 1] - along[:, 1] * (place - a)[:, 0])
    for wall in np.flatnonzero(beside <= _BESIDE * length).tolist():
        if before[wall] > width / 2 and length[wall] - before[wall] > width / 2:
            step = along[wall] * width / 2
            return wall, numbers([place - step, place + step]), length[wall]
    raise ValueError(f"no straight wall at {tuple(at)} is wider than {width:g} mm")


def _instead(walls: Walls, wall: int, pairs: Sequence[tuple[int, int]]) -> tuple[IntArray, IntArray]:
    """Ends of the walls with some put in place of one, last, and for each wall the one that it comes from."""
    others = np.delete(np.arange(len(walls.ends)), wall)
    ends = np.vstack([walls.ends[others], np.array(pairs, dtype=np.intp)])
    return ends, np.concatenate([others, np.full(len(pairs), wall)])
