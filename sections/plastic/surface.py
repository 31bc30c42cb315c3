"""Which axial force and bending moments a fully plastic section carries together.

In a fully plastic section the stress is +fy on one side of a straight neutral line and −fy on the other. Every line
gives one point of the limit surface in (N, My, Mz), and all points between such points can be carried too (lower
bound theorem of plasticity; any textbook, such as B. G. Neal, The Plastic Methods of Structural Analysis). The
surface here is made of triangles between such points, so it lies inside the true one: on the safe side, by up to
0.5 % of the resistance. Shear and torsion are not in it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from sections.midline import Array, IntArray

_DIRECTIONS, _LEVELS = 24, 20
"""Steps of the neutral line's direction over half a turn, and of axial force from one end to the other."""
_SLACK = 1e-9
"""Distance of a neutral line from a place that it just misses, as part of the section's size."""
_FLAT = 1e-9
"""Triangles of less volume with the origin are left out: their corners are one point or one line."""
_COLUMNS = 100
_PLACES = 40
"""Places beside which neutral lines are looked at; of more, every second, third ... is."""


@dataclass(frozen=True, eq=False)
class PlasticSurface:
    """Half of the limit surface for a yield stress of 1 MPa; the other half is its mirror image in the origin.

    Attributes
    ----------
    centroid : (2,) that forces act at and fields are measured from [mm].
    fields : (v, 3) a, b, c of neutral lines a + b y + c z = 0, from the centroid; the section is in tension where
        that is positive.
    points : (v, 3) N, My, Mz [N, N·mm] of each. triangles : (t, 3) indices of them.
    """

    centroid: Array
    fields: Array
    points: Array
    triangles: IntArray
    _to_corners: Array

    def utilisation(self, forces: ArrayLike) -> Array:
        """(m,) yield stress [MPa] at which a fully plastic section just carries N, My, Mz (3, m)."""
        return self.reached(forces)[0]

    def reached(self, forces: ArrayLike) -> tuple[Array, Array]:
        """The fully plastic state that scaling N, My, Mz (3, m) leads to.

        Returns
        -------
        (m,) the yield stress [MPa] at which the forces are just carried, and (3, m) a, b, c of the neutral line
        a + b y + c z = 0 from the centroid, tension where that is positive.
        """
        given = np.asarray(forces, dtype=float)
        spans = [slice(k, k + _COLUMNS) for k in range(0, given.shape[1], _COLUMNS)]
        parts = [self._meet(given[:, span]) for span in spans]
        values = np.concatenate([value for value, _ in parts]) if parts else np.zeros(0)
        fields = np.concatenate([field for _, field in parts], axis=1) if parts else np.zeros((3, 0))
        return values, fields

    def _meet(self, forces: Array) -> tuple[Array, Array]:
        first, second, third = (self._to_corners[:, k] @ forces for k in range(3))
        least = np.minimum(np.minimum(first, second), third)
        most = np.maximum(np.maximum(first, second), third)
        # The triangle that is hit has shares of one sign; where its mirror image is hit, all are negative.
        inside = np.maximum(least, -most) / np.maximum(np.maximum(most, -least), 1e-300)
        best, column = inside.argmax(axis=0), np.arange(forces.shape[1])
        chosen = np.stack([share[best, column] for share in (first, second, third)])
        field: Array = np.einsum("km,mki->im", chosen, self.fields[self.triangles[best]])
        return np.abs(chosen.sum(axis=0)), field


def lines_surface(start: Array, stop: Array, weight: Array, centroid: Array) -> PlasticSurface:
    """Surface of thin walls without thickness of their own.

    Parameters
    ----------
    start, stop : (m, 2) ends of the walls [mm]. weight : (m,) area of each times its strength over the section's
        [mm²]. centroid : (2,) [mm].
    """
    a, b = start - centroid, stop - centroid
    size = np.sqrt(np.abs(weight @ (a * a + a * b + b * b)) / (3 * weight.sum()))

    def split(fields: Array) -> tuple[Array, Array]:
        """(v, m) ∫ sign f over each wall, and ∫ x sign f with x from 0 to 1 along it, per area. A wall along the
        neutral line goes from one sign to the other over _SLACK, evenly."""
        first, last = fields[:, :1] + fields[:, 1:] @ a.T, fields[:, :1] + fields[:, 1:] @ b.T
        sign, change = _change(first, last)
        half = _SLACK * np.ptp(np.hstack([first, last]), axis=1)[:, None]
        flat, even = np.abs(first - last) < half, np.clip((first + last) / 2 / half, -1, 1)
        return np.where(flat, even, sign * (2 * change - 1)), np.where(
            flat, even / 2, sign * (change**2 - 0.5)
        )

    def normal(slope: Array, offset: Array) -> Array:
        first, last = slope @ a.T, slope @ b.T
        half = _SLACK * np.ptp(np.hstack([first, last]), axis=1)[:, None]
        middle, reach = (first + last) / 2, np.maximum(np.abs(last - first) / 2, half)
        below = np.clip((offset[:, :, None] - (middle - reach)[:, None]) / (2 * reach)[:, None], 0.0, 1.0)
        return np.asarray(weight.sum() - 2 * (below @ weight))

    def resultants(fields: Array) -> Array:
        mean, along = split(fields)
        parts = [mean @ (weight * a[:, k]) + along @ (weight * (b - a)[:, k]) for k in (0, 1)]
        return np.stack([mean @ weight, *parts], axis=1)

    places = np.unique(np.vstack([a, b]), axis=0)
    return _surface(normal, resultants, float(weight.sum()), size, places, centroid)


def rings_surface(rings: Sequence[Array], area: float, inertia: Array, centroid: Array) -> PlasticSurface:
    """Surface of an outline, exact for its polygon at each neutral line.

    Area integrals go round the boundary: with g = (b, c) the divergence of g |f| is g² sign f, that of g f |f|/2 is
    g² |f|, and that of g |f| y is g² y sign f + b |f|.

    Parameters
    ----------
    rings : (k, 2) each [mm], material on the left. area : [mm²]. inertia : (2, 2) [[Izz, Iyz], [Iyz, Iyy]] [mm⁴].
    """
    a = np.vstack(rings) - centroid
    b = np.vstack([np.roll(ring, -1, axis=0) for ring in rings]) - centroid
    outward = np.column_stack([(b - a)[:, 1], -(b - a)[:, 0]])

    def edges(fields: Array) -> tuple[Array, Array, Array]:
        """(v, k) field at the start and stop of each edge, and flux of g/g² through it."""
        slope = fields[:, 1:]
        flux = slope @ outward.T / (slope**2).sum(axis=1)[:, None]
        return fields[:, :1] + slope @ a.T, fields[:, :1] + slope @ b.T, flux

    def normal(slope: Array, offset: Array) -> Array:
        first, last, flux = edges(_fields(slope, offset))
        size = np.abs(first) + np.abs(last)
        mean = np.where(first * last < 0, (first**2 + last**2) / np.maximum(size, 1e-300), size) / 2
        return np.asarray((flux * mean).sum(axis=1)).reshape(offset.shape)

    def resultants(fields: Array) -> Array:
        first, last, flux = edges(fields)
        magnitude, whole, along = _means(first, last, _change(first, last)[1])
        parts = [(flux * magnitude).sum(axis=1)]
        volume = (flux * whole).sum(axis=1) / 2 / (fields[:, 1:] ** 2).sum(axis=1)
        for k in (0, 1):
            weighted = magnitude * a[:, k] + along * (b - a)[:, k]
            parts.append((flux * weighted).sum(axis=1) - fields[:, 1 + k] * volume)
        return np.stack(parts, axis=1)

    return _surface(normal, resultants, area, np.sqrt(np.diag(inertia) / area), a, centroid)


def _change(first: Array, last: Array) -> tuple[Array, Array]:
    """Sign at the start, and the part of the way after which a linear field changes it; 1 where it does not."""
    crosses = first * last < 0
    difference = np.where(crosses, first - last, 1.0)
    larger = np.where(np.abs(first) >= np.abs(last), first, last)
    return np.sign(np.where(crosses, first, larger)), np.where(crosses, first / difference, 1.0)


def _means(first: Array, last: Array, change: Array) -> tuple[Array, Array, Array]:
    """Means along edges, place x from 0 to 1, of |f|, f |f| and x |f| for a field f linear along them."""
    a, b, crosses = np.abs(first), np.abs(last), first * last < 0
    near, far = np.where(crosses, change, 1.0), np.where(crosses, 1 - change, 1.0)
    cubes = (near * first * a + far * last * b) / 3
    squares = np.where(crosses, cubes, (first + last) * (a + b) / 4 + (first - last) * (a - b) / 12)
    along = np.where(crosses, a * near**2 + b * far * (2 + change), a + 2 * b) / 6
    return (near * a + far * b) / 2, squares, along


def _surface(
    normal: Callable[[Array, Array], Array],
    resultants: Callable[[Array], Array],
    area: float,
    size: Array,
    places: Array,
    centroid: Array,
) -> PlasticSurface:
    """Triangles between the points of neutral lines of all directions, at even steps of axial force.

    Parameters
    ----------
    normal : from slopes (d, 2) and offsets (d, k) of neutral lines to (d, k) ∫ sign f dA.
    resultants : from fields (v, 3), f = a + b y + c z, to (v, 3) ∫ sign f dA, ∫ y sign f dA, ∫ z sign f dA.
    size : (2,) by which y and z are measured, so that slender sections get lines of even spread [mm].
    places : (k, 2) from the centroid, all places where walls or edges begin or end [mm].
    """
    angle = np.linspace(0.0, np.pi, _DIRECTIONS + 1)
    slope = np.column_stack([np.cos(angle), np.sin(angle)]) / np.maximum(size, 1e-9 * size.max())
    table = _table(slope @ places.T)
    known = normal(slope, table)
    levels = area * np.linspace(1.0, -1.0, _LEVELS + 1)
    offset = np.array([np.interp(-levels, -n, at) for n, at in zip(known, table, strict=True)])
    fields = _fields(slope, offset)
    n, sy, sz = resultants(fields).T
    points = np.stack([n, sz, -sy], axis=1)
    scale = area * np.array([1.0, size[1], size[0]])
    triangles = _between(_DIRECTIONS, _LEVELS)
    corners = (points / scale)[triangles]
    thick = np.abs(np.linalg.det(corners)) > _FLAT
    # Columns of the matrix are the corners: shares of them add up to the force.
    inverse = np.linalg.inv(np.swapaxes(corners[thick], 1, 2)) / scale
    return PlasticSurface(centroid, fields, points, triangles[thick], inverse)


def _table(reach: Array) -> Array:
    """(d, k) rising offsets of neutral lines of d directions: just before and after places, and between."""
    low, high = reach.min(axis=1, keepdims=True), reach.max(axis=1, keepdims=True)
    slack = 2 * _SLACK * (high - low)
    evenly = low + (high - low) * np.linspace(0.0, 1.0, 2 * _LEVELS + 1)
    some = reach[:, :: 1 + reach.shape[1] // _PLACES]
    return np.sort(np.hstack([some - slack, some + slack, evenly]), axis=1)


def _fields(slope: Array, offset: Array) -> Array:
    """(d k, 3) fields of neutral lines of d directions (d, 2) at k offsets (d, k) each."""
    return np.column_stack([-offset.ravel(), np.repeat(slope, offset.shape[1], axis=0)])


def _between(rows: int, columns: int) -> IntArray:
    """(2 rows columns, 3) triangles of a grid of (rows + 1) (columns + 1) points."""
    corner = (np.arange(rows)[:, None] * (columns + 1) + np.arange(columns)).ravel()
    right, down = corner + 1, corner + columns + 1
    return np.vstack([np.column_stack([corner, right, down]), np.column_stack([right, down + 1, down])])
