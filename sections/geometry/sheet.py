"""Bent sheet: one mid-line path with a gauge and a bend radius, to walls and to outlines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sections.columns import agreed, arctan2, gathered, hypot, numbers, spread
from sections.geometry.bends import STEP, rounded, rounded_places
from sections.geometry.outline import Outline
from sections.geometry.walls import IntArray, Walls
from sections.result import Array

Seam = tuple[tuple[float, float], tuple[float, float], float]
"""Two points on the mid-lines that a weld ties, and its conductance [-]."""
_SAME = 1e-9
"""Points closer than this part of the shape's size are one."""


@dataclass(frozen=True, eq=False)
class Sheet:
    """A sheet along a path.

    Attributes
    ----------
    path : (n, 2) mid-line corners, unrounded [mm].
    gauge : [mm]; one for the whole sheet, or one for each stretch of the path between two corners. A bend between
        stretches of two gauges goes from one to the other.
    radius : inside bend radius [mm]; the mid-line bends at radius + gauge/2, the outer face at
        radius + gauge. 0 means a mitred corner, sharp inside and outside.
    closed : whether the last corner is joined to the first.
    """

    path: Array
    gauge: float | Array
    radius: float = 0.0
    closed: bool = False

    def midline(self) -> tuple[Array, Array]:
        """(k, 2) mid-line points with the bends as chords, and (k,) the gauge from each to the next."""
        gauges = self._gauges()
        left, right = self._corner_gauges()
        points, places = rounded_places(
            self.path, self._bend(np.minimum(left, right) / 2), self.closed, "length"
        )
        middle = (places + np.append(places[1:], len(self.path) + places[0])) / 2
        bend = np.rint(middle).astype(int)
        corner = bend % len(self.path)
        blend = left[corner] + (right - left)[corner] * (middle - bend + 0.5)
        in_bend = (np.abs(middle - bend) < 0.5 - 1e-9) & self._bends()[corner]
        return points, np.where(in_bend, blend, gauges[np.floor(middle).astype(int) % len(gauges)])

    def face(self, side: float) -> Array:
        """(k, 2) the face on the left (side 1) or right (side −1) of the path."""
        if np.ptp(self._gauges()) > 0:
            return self._uneven_face(side)
        gauge = float(self._gauges()[0])
        corners, turn = _offset(self.path, side * gauge / 2, self.closed)
        outward = np.where(turn * side > 0, 0.0, gauge)
        radii = np.where(np.abs(turn) > 1e-9, self._bend(0.0) + outward * (self.radius > 0), 0.0)
        return rounded(corners, radii, self.closed, "area")

    def _uneven_face(self, side: float) -> Array:
        """Half the local gauge from a mid-line in short chords; a step where the gauge changes on a straight."""
        gauges = self._gauges()
        left, right = self._corner_gauges()
        radii = self._bend(np.minimum(left, right) / 2)
        points, places = rounded_places(self.path, radii, self.closed, "area", STEP / 2)
        along = np.roll(points, -1, axis=0) - points
        along /= np.linalg.norm(along, axis=1)[:, None]
        before = np.roll(along, 1, axis=0)
        if not self.closed:
            before[0], along[-1] = along[0], along[-2]
        corner = np.rint(places).astype(int) % len(self.path)
        left, right = left[corner], right[corner]
        blend = left + (right - left) * (places - np.rint(places) + 0.5)
        bend, at_end = self._bends()[corner], np.abs(places % 1 - 0.5) < 1e-9
        inside, beside = np.where(bend, blend, left), np.where(bend, blend, right)
        straight = gauges[np.floor(places).astype(int) % len(gauges)]
        first, last = np.where(at_end, straight, inside), np.where(at_end, straight, beside)
        return _offset_points(points, before, along, side * first / 2, side * last / 2)

    def outline(self) -> Outline:
        """The sheet's true shape."""
        if self.closed:
            return Outline(self.face(-1.0), (self.face(1.0),))
        return Outline(np.vstack([self.face(-1.0), self.face(1.0)[::-1]]))

    def _bend(self, extra: float | Array) -> Array:
        return np.asarray(self.radius + extra if self.radius > 0 else 0.0 * np.asarray(extra))

    def _bends(self) -> NDArray[np.bool_]:
        """Whether each corner of the path is an arc."""
        _, turn = _offset(self.path, 0.0, self.closed)
        return np.asarray((np.abs(turn) > 1e-9) & (self.radius > 0))

    def _gauges(self) -> Array:
        """Gauge of each stretch of the path."""
        return np.asarray(np.broadcast_to(numbers(self.gauge), len(self.path) - (not self.closed)))

    def _corner_gauges(self) -> tuple[Array, Array]:
        """Gauges of the stretches before and after each corner; at open ends those of the one there is."""
        gauges = self._gauges()
        if self.closed:
            return np.roll(gauges, 1), gauges
        return np.append(gauges[0], gauges), np.append(gauges, gauges[-1])


def joined_walls(sheets: Sequence[Sheet], seams: Sequence[Seam] = ()) -> Walls:
    """Walls of several sheets; mid-line points that coincide become one node, seams tie nodes at their points.

    Raises
    ------
    ValueError : a seam where no mid-line has a point.
    """
    lines = [sheet.midline() for sheet in sheets]
    paths = [points for points, _ in lines]
    points = np.vstack(paths)
    span = gathered(np.ptp(spread(points), axis=1).max(axis=1))
    nodes, node = merged(points, span)
    ends, gauges, start = [], [], 0
    for sheet, (path, gauge) in zip(sheets, lines, strict=True):
        index = np.arange(start, start + len(path))
        pairs = np.column_stack([index, np.roll(index, -1)])
        ends.append(pairs if sheet.closed else pairs[:-1])
        gauges.append(gauge[: len(ends[-1])])
        start += len(path)
    tied = [[_node_at(nodes, a, span), _node_at(nodes, b, span)] for a, b, _ in seams]
    return Walls(
        nodes,
        node[np.vstack(ends)],
        np.concatenate(gauges),
        np.array(tied, dtype=np.intp).reshape(-1, 2),
        np.array([conductance for _, _, conductance in seams]),
    )


def fused(parts: Sequence[Outline | Array]) -> Outline:
    """One outline of parts that touch or overlap.

    Raises
    ------
    ValueError : parts that do not touch.
    """
    import shapely

    polygons = [
        shapely.Polygon(part.outer, part.holes) if isinstance(part, Outline) else shapely.Polygon(part)
        for part in parts
    ]
    whole = shapely.union_all(polygons, grid_size=1e-7).simplify(1e-7)
    if whole.geom_type != "Polygon":
        raise ValueError("the parts of the outline do not touch")
    rings = [shapely.get_coordinates(ring)[:-1] for ring in (whole.exterior, *whole.interiors)]
    return Outline(rings[0], tuple(rings[1:]))


def merged(points: Array, span: float) -> tuple[Array, IntArray]:
    """Distinct points in the order they come, and for each point the index of its own."""
    every = spread(points / span)
    _, first, which = np.unique(np.round(every[0], 9), axis=0, return_index=True, return_inverse=True)
    which = which.reshape(-1)
    if len(every) > 1:
        agreed((np.abs(every - every[:, first[which]]) < _SAME).all(axis=(1, 2)))
        agreed(_apart(every[:, first]))
    order = np.argsort(first)
    return points[first[order]], np.argsort(order)[which]


def _apart(points: Array) -> NDArray[np.bool_]:
    """(b,) whether no two of the points (b, k, 2) of a set are the same."""
    # Along an oblique line neighbours are found by sorting; only sets with two close ones there are looked at again.
    along = np.sort(points @ [1.0, np.sqrt(3) - 1], axis=1)
    apart = np.asarray((np.diff(along, axis=1) > 2 * _SAME).all(axis=1))
    a, b = np.triu_indices(points.shape[1], 1)
    for k in np.flatnonzero(~apart):
        apart[k] = (np.abs(points[k, a] - points[k, b]) >= _SAME).any(axis=1).all()
    return apart


def _node_at(nodes: Array, place: tuple[float, float], span: float) -> int:
    gap = spread((nodes - np.array(place)) / span)
    distance = np.hypot(gap[..., 0], gap[..., 1])
    if agreed(distance.min(axis=1) > 1e-6):
        raise ValueError(f"no mid-line point at {place}")
    nearest = distance.argmin(axis=1)
    agreed(nearest == nearest[0])
    return int(nearest[0])


def _offset(path: Array, distance: float, closed: bool) -> tuple[Array, Array]:
    """Mitred parallel of a path to its left, and the turn at each corner [rad], 0 at open ends."""
    along = np.roll(path, -1, axis=0) - path
    along = along / hypot(along[:, 0], along[:, 1])[:, None]
    before = np.roll(along, 1, axis=0)
    if not closed:
        before[0], along[-1] = along[0], along[-2]
    cross = before[:, 0] * along[:, 1] - before[:, 1] * along[:, 0]
    dot = np.einsum("ij,ij->i", before, along)
    left = np.column_stack([-(before + along)[:, 1], (before + along)[:, 0]])
    return path + distance * left / (1 + dot)[:, None], arctan2(cross, dot)


def _offset_points(points: Array, before: Array, after: Array, first: Array, last: Array) -> Array:
    """Points offset to the left by `first` along the stretch before them and by `last` along the one after.

    Where the two run on straight but their offsets differ, the point becomes two.
    """
    normals = np.stack([-before[:, 1], before[:, 0]], axis=1), np.stack([-after[:, 1], after[:, 0]], axis=1)
    straight = np.abs(before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]) < 1e-9
    found = []
    for k, point in enumerate(points):
        if straight[k]:
            found.append(point + first[k] * normals[0][k])
            if abs(first[k] - last[k]) > 1e-12:
                found.append(point + last[k] * normals[1][k])
        else:
            lines = np.array([normals[0][k], normals[1][k]])
            found.append(point + np.linalg.solve(lines, [first[k], last[k]]))
    return np.array(found)
