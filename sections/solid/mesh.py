"""Triangles for an outline: Delaunay through the cut boundary and inner points, boundary kept."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from sections.errors import Fault, ShapeError
from sections.geometry.outline import Outline
from sections.geometry.walls import IntArray
from sections.result import Array
from sections.solid.boundary import Boundary, boundary, distances, graded
from sections.solid.delaunay import delaunay

_CLEARANCE = 0.7
"""Least distance of inner points from boundary edges' middles, in local element sizes."""
_FINEST = 0.25
"""Finest spacing of inner points as part of the longest edge; smaller corners do with the boundary's own points."""
_SPLITS = 6
"""Rounds of splitting boundary edges before the shape is given up."""


@dataclass(frozen=True, eq=False)
class Triangles:
    """points (n, 2), the boundary's first; triangles (k, 3), anticlockwise."""

    boundary: Boundary
    points: Array
    triangles: IntArray


def triangulate(outline: Outline) -> Triangles:
    """Triangles that fill the outline and have every boundary edge as a side.

    Raises
    ------
    ShapeError : an outline with corners too sharp to be filled.
    """
    import shapely

    edges = boundary(outline)
    polygon = shapely.Polygon(outline.outer, outline.holes)
    shapely.prepare(polygon)
    inner = _inner_points(polygon, edges)
    for _ in range(_SPLITS):
        points = np.vstack([edges.points, inner])
        triangles = _filling(polygon, points, delaunay(points))
        missing = _missing_edges(edges, triangles, len(points))
        if not missing.any():
            return Triangles(edges, points, triangles)
        edges = _split(edges, missing)
        inner = inner[_clear(inner, edges, np.full(len(inner), edges.size.min()))]
    y, z = edges.points[np.flatnonzero(missing)[0]]
    place = f"near (y {y:.4g}, z {z:.4g})"
    raise ShapeError(
        "outline", [Fault("", "", f"has a corner too sharp, or walls too thin, to be meshed {place}")]
    )


def _filling(polygon: Any, points: Array, triangles: IntArray) -> IntArray:
    """The triangles in a polygon, anticlockwise, without slivers along straight sides."""
    import shapely

    corners = points[triangles]
    edge1, edge2 = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    twice = edge1[:, 0] * edge2[:, 1] - edge1[:, 1] * edge2[:, 0]
    centre = corners.mean(axis=1)
    inside = (np.abs(twice) > 1e-9 * polygon.area) & shapely.contains_xy(polygon, centre[:, 0], centre[:, 1])
    return np.asarray(np.where((twice > 0)[:, None], triangles, triangles[:, ::-1])[inside])


def _inner_points(polygon: Any, edges: Boundary) -> Array:
    """Points of nested hexagonal lattices where the material is deep for the size of its elements."""
    import shapely

    none = np.zeros((0, 2))
    start, stop = edges.points, edges.points[edges.follows]
    middle, run = (start + stop) / 2, stop - start
    inward = np.column_stack([-run[:, 1], run[:, 0]]) / np.linalg.norm(run, axis=1)[:, None]
    core = graded(middle + inward * edges.wall[:, None] / 2, middle, edges.size)
    core = np.minimum(core, edges.largest)
    deep = edges.wall / 2 > _CLEARANCE * core
    if not deep.any():
        return none
    box = np.reshape(polygon.bounds, (2, 2))
    levels = [none]
    coarsest = float(core[deep].max())
    spacing = max(float(core[deep].min()), _FINEST * edges.largest)
    while spacing <= coarsest:
        lattice = _lattice(box, spacing)
        lattice = lattice[shapely.contains_xy(polygon, lattice[:, 0], lattice[:, 1])]
        wanted = np.minimum(graded(lattice, middle, edges.size), edges.largest)
        fits = (wanted >= spacing) & (wanted < 2 * spacing)
        levels.append(lattice[fits][_clear(lattice[fits], edges, wanted[fits])])
        spacing *= 2
    return np.vstack(levels)


def _lattice(box: Array, spacing: float) -> Array:
    """Hexagonal lattice over a box through its centre; that of twice the spacing is part of it."""
    half = np.ptp(box, axis=0) / 2
    rows, columns = (np.ceil(half / spacing / [1.0, np.sqrt(0.75)]).astype(int) + 1)[::-1]
    row, column = np.mgrid[-rows : rows + 1, -columns : columns + 1]
    y = (column + (row % 2) / 2) * spacing
    return np.asarray(
        box.mean(axis=0) + np.column_stack([y.ravel(), (row * spacing * np.sqrt(0.75)).ravel()])
    )


def _clear(points: Array, edges: Boundary, size: Array) -> NDArray[np.bool_]:
    """Whether points keep clear of the boundary by a share of their element size."""
    ends = edges.points
    marks = np.vstack([ends, (ends + ends[edges.follows]) / 2])
    return np.asarray(distances(points, marks).min(axis=1) >= _CLEARANCE * size)


def _missing_edges(edges: Boundary, triangles: IntArray, count: int) -> NDArray[np.bool_]:
    """(n,) whether each boundary edge is no side of a triangle."""
    sides = np.sort(np.vstack([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]]), axis=1)
    rim = np.sort(np.column_stack([np.arange(len(edges.points)), edges.follows]), axis=1)
    return ~np.isin(rim @ [count, 1], sides @ [count, 1])


def _split(edges: Boundary, missing: NDArray[np.bool_]) -> Boundary:
    """Halve some boundary edges; the new points come after the old."""
    old = np.flatnonzero(missing)
    new = len(edges.points) + np.arange(len(old))
    follows = np.concatenate([edges.follows, edges.follows[old]])
    follows[old] = new
    size = np.concatenate([edges.size, edges.size[old]])
    size[old] /= 2
    size[new] /= 2
    return replace(
        edges,
        points=np.vstack([edges.points, (edges.points[old] + edges.points[edges.follows[old]]) / 2]),
        follows=follows,
        side=np.concatenate([edges.side, edges.side[old]]),
        size=size,
        wall=np.concatenate([edges.wall, edges.wall[old]]),
    )
