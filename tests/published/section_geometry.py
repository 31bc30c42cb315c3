"""Geometry of the published section cases: exact mid-lines as walls, true shapes as outlines.

The cases have x to the right and y up; here those are y and z.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from sections import Outline, Section, ThinWalls, Walls, outline_section, solve_walls

Points = Sequence[Sequence[float]]


def path(points: Points, thickness: float | Sequence[float], closed: bool = False) -> Walls:
    """Walls from point to point."""
    count = len(points)
    ends = [(k, (k + 1) % count) for k in range(count if closed else count - 1)]
    return Walls(points, ends, thickness)


def midline_channel(b: float, h: float, t: float) -> Walls:
    """Web on y = 0, flanges to the right: bottom tip, corner, corner, top tip."""
    return path([(b, 0), (0, 0), (0, h), (b, h)], t)


def midline_box(b: float, h: float, t: float | Sequence[float]) -> Walls:
    """Bottom, right, top, left walls."""
    return path([(0, 0), (b, 0), (b, h), (0, h)], t, closed=True)


def midline_i(bottom: float, top: float, h: float, flange: float, web: float) -> Walls:
    nodes = [(-bottom / 2, 0), (0, 0), (bottom / 2, 0), (-top / 2, h), (0, h), (top / 2, h)]
    return Walls(nodes, [(0, 1), (1, 2), (3, 4), (4, 5), (1, 4)], [flange] * 4 + [web])


def midline_z(b: float, h: float, t: float) -> Walls:
    """Bottom flange to −y, top flange to +y."""
    return path([(-b, 0), (0, 0), (0, h), (b, h)], t)


def midline_arc(r: float, t: float, count: int) -> Walls:
    """Slit circle, the slit on the −y side."""
    angle = np.linspace(-np.pi, np.pi, count + 1)
    return path(r * np.column_stack([np.cos(angle), np.sin(angle)]), t)


def rectangle(b: float, h: float) -> Outline:
    return Outline([(0, 0), (b, 0), (b, h), (0, h)])


def ellipse(a: float, b: float, count: int) -> Outline:
    return Outline(_ellipse(a, b, count))


def ring(outer: float, inner: float, count: int) -> Outline:
    return Outline(_ellipse(outer, outer, count), (_ellipse(inner, inner, count),))


def semicircle(r: float, count: int) -> Outline:
    """Flat side on z = 0."""
    angle = np.linspace(0, np.pi, count + 1)
    return Outline(r * np.column_stack([np.cos(angle), np.sin(angle)]))


def filleted_i(h: float, b: float, web: float, flange: float, r: float, chords: int) -> Outline:
    """I with fillets of inscribed chords; r = 0 leaves the corners sharp."""
    y, w, z = b / 2, web / 2, h / 2
    corner = [(w, flange - z)]
    if r > 0:
        angle = np.linspace(1.5, 1.0, chords + 1) * np.pi
        arc = np.column_stack([w + r + r * np.cos(angle), flange - z + r + r * np.sin(angle)])
        corner = [(p[0], p[1]) for p in arc]
    quarter = np.array([(y, -z), (y, flange - z), *corner])
    right = np.vstack([quarter, quarter[::-1] * [1, -1]])
    return Outline(np.vstack([right, -right]))


def rounded_box(b: float, h: float, t: float, outer: float, inner: float, chords: int) -> Outline:
    """Rectangular hollow section with its corner radii."""
    return Outline(_rounded(b / 2, h / 2, outer, chords), (_rounded(b / 2 - t, h / 2 - t, inner, chords),))


def solved(outline: Outline, nu: float = 0.3) -> Section:
    return outline_section(outline, nu)


def solve(walls: Walls) -> ThinWalls:
    return solve_walls(walls.nodes, walls.ends, walls.thickness, walls.seams, walls.seam_conductance)


def sheet(points: Points, t: float) -> Outline:
    """True shape of a bent sheet with mitred sharp corners and flat ends."""
    band = shapely.LineString(points).buffer(t / 2, cap_style="flat", join_style="mitre")
    return Outline(shapely.get_coordinates(band.exterior)[:-1])


def _ellipse(a: float, b: float, count: int) -> np.ndarray:
    angle = 2 * np.pi * np.arange(count) / count
    return np.column_stack([a * np.cos(angle), b * np.sin(angle)])


def _rounded(y: float, z: float, r: float, chords: int) -> np.ndarray:
    quarter = np.linspace(0, np.pi / 2, chords + 1)
    arcs = []
    for turn, (cy, cz) in enumerate([(1, 1), (-1, 1), (-1, -1), (1, -1)]):
        angle = quarter + turn * np.pi / 2
        centre = [cy * (y - r), cz * (z - r)]
        arcs.append(centre + r * np.column_stack([np.cos(angle), np.sin(angle)]))
    return np.vstack(arcs)
