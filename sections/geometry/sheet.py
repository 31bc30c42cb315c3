"""Bent sheet: one mid-line path with a gauge and a bend radius, to walls and to outlines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from sections.geometry.bends import rounded
from sections.geometry.outline import Outline
from sections.geometry.walls import IntArray, Walls
from sections.result import Array

Seam = tuple[tuple[float, float], tuple[float, float], float]
"""Two points on the mid-lines that a weld ties, and its conductance [-]."""


@dataclass(frozen=True, eq=False)
class Sheet:
    """A sheet of even gauge along a path.

    Attributes
    ----------
    path : (n, 2) mid-line corners, unrounded [mm].
    gauge : [mm].
    radius : inside bend radius [mm]; the mid-line bends at radius + gauge/2, the outer face at
        radius + gauge. 0 means a mitred corner, sharp inside and outside.
    closed : whether the last corner is joined to the first.
    """

    path: Array
    gauge: float
    radius: float = 0.0
    closed: bool = False

    def midline(self) -> Array:
        """(k, 2) mid-line points with the bends as chords."""
        return rounded(self.path, self._bend(self.gauge / 2), self.closed, "length")

    def face(self, side: float) -> Array:
        """(k, 2) the face on the left (side 1) or right (side −1) of the path."""
        corners, turn = _offset(self.path, side * self.gauge / 2, self.closed)
        outward = np.where(turn * side > 0, 0.0, self.gauge)
        radii = np.where(np.abs(turn) > 1e-9, self._bend(0.0) + outward * (self.radius > 0), 0.0)
        return rounded(corners, radii, self.closed, "area")

    def outline(self) -> Outline:
        """The sheet's true shape."""
        if self.closed:
            return Outline(self.face(-1.0), (self.face(1.0),))
        return Outline(np.vstack([self.face(-1.0), self.face(1.0)[::-1]]))

    def _bend(self, extra: float) -> float:
        return self.radius + extra if self.radius > 0 else 0.0


def joined_walls(sheets: Sequence[Sheet], seams: Sequence[Seam] = ()) -> Walls:
    """Walls of several sheets; mid-line points that coincide become one node, seams tie nodes at their points.

    Raises
    ------
    ValueError : a seam where no mid-line has a point.
    """
    paths = [sheet.midline() for sheet in sheets]
    points = np.vstack(paths)
    span = float(np.ptp(points, axis=0).max())
    nodes, node = merged(points, span)
    ends, gauges, start = [], [], 0
    for sheet, path in zip(sheets, paths, strict=True):
        index = np.arange(start, start + len(path))
        pairs = np.column_stack([index, np.roll(index, -1)])
        ends.append(pairs if sheet.closed else pairs[:-1])
        gauges.append(np.full(len(ends[-1]), sheet.gauge))
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
    _, first, which = np.unique(np.round(points / span, 9), axis=0, return_index=True, return_inverse=True)
    order = np.argsort(first)
    return points[first[order]], np.argsort(order)[which.reshape(-1)]


def _node_at(nodes: Array, place: tuple[float, float], span: float) -> int:
    distance = np.linalg.norm(nodes - np.array(place), axis=1)
    if distance.min() > 1e-6 * span:
        raise ValueError(f"no mid-line point at {place}")
    return int(distance.argmin())


def _offset(path: Array, distance: float, closed: bool) -> tuple[Array, Array]:
    """Mitred parallel of a path to its left, and the turn at each corner [rad], 0 at open ends."""
    along = np.roll(path, -1, axis=0) - path
    along /= np.linalg.norm(along, axis=1)[:, None]
    before = np.roll(along, 1, axis=0)
    if not closed:
        before[0], along[-1] = along[0], along[-2]
    cross = before[:, 0] * along[:, 1] - before[:, 1] * along[:, 0]
    dot = np.einsum("ij,ij->i", before, along)
    left = np.column_stack([-(before + along)[:, 1], (before + along)[:, 0]])
    return path + distance * left / (1 + dot)[:, None], np.arctan2(cross, dot)
