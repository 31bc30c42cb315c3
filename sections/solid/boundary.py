"""Cutting the rings of an outline into edges whose length suits the local wall."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sections.errors import Fault, ShapeError
from sections.geometry.outline import Outline
from sections.geometry.walls import IntArray
from sections.result import Array

SHARP = np.radians(30.0)
"""A corner that turns more than this is sharp; less is taken for a chord of an arc."""
_WALL = 1.0
"""Longest edge as part of the local wall thickness."""
_BULK = 0.15
"""Longest edge as part of the square root of the area, for solid shapes."""
_NOTCH = 0.2
"""Edges at a sharp re-entrant corner as part of the local wall."""
_SAMPLES = 3
"""Places at which an edge is looked at, for each longest edge length."""
_MOST = 3000
"""Edges beyond which a shape is given up: its matrices would fill the memory of a small machine."""
_GROWTH = 0.7
"""How fast edges may grow with the distance from shorter ones."""


@dataclass(frozen=True, eq=False)
class Boundary:
    """The rings cut into edges, material on the left.

    Attributes
    ----------
    points : (n, 2) [mm]; edge k runs from point k to point `follows[k]`.
    follows : (n,) index of the next point on the ring.
    side : (n,) index of the outline's own edge that edge k is part of.
    size : (n,) edge length aimed at [mm].
    wall : (n,) material thickness behind each edge [mm].
    corner : (m,) turn at the start of each of the outline's own edges [rad], positive where convex.
    starts, stops : (m,) points at which each of the outline's own edges starts and stops.
    chord : (m,) whether an own edge is a chord of an arc: it meets one of about its length at a small turn.
    largest : longest edge allowed anywhere, inside too [mm].
    """

    points: Array
    follows: IntArray
    side: IntArray
    size: Array
    wall: Array
    corner: Array
    starts: IntArray
    stops: IntArray
    chord: NDArray[np.bool_]
    largest: float


def boundary(outline: Outline) -> Boundary:
    """Cut an outline into edges no longer than the local wall, shorter at notches and in solid shapes.

    Raises
    ------
    ShapeError : walls so thin for their length that too many edges would be needed.
    """
    start = np.vstack(outline.rings)
    after = _next_in_ring([len(ring) for ring in outline.rings])
    stop = start[after]
    length = np.linalg.norm(stop - start, axis=1)
    along = (stop - start) / length[:, None]
    corner = np.empty(len(start))
    corner[after] = _turn(along, along[after])

    area = _cross(start, stop).sum() / 2
    largest = float(np.sqrt(area) * _BULK)
    pieces = np.ceil(length / largest * _SAMPLES).astype(int)
    mean_wall = float(2 * area / length.sum())
    _bounded(pieces.sum() / _SAMPLES, length.sum(), mean_wall)
    side, at = _midpoints(pieces)
    samples = start[side] * (1 - at)[:, None] + stop[side] * at[:, None]
    wall = _depth(samples, along[side], start, stop)
    wanted = np.minimum(np.minimum(wall * _WALL, largest), length[side])

    notch = corner < -SHARP
    beside = np.minimum.reduceat(wall, np.cumsum(pieces) - pieces)
    notch_size = _NOTCH * np.minimum(beside, beside[np.argsort(after)])[notch]
    size = graded(samples, np.vstack([samples, start[notch]]), np.concatenate([wanted, notch_size]))

    step = (length / pieces)[side]
    _bounded((step / size).sum(), length.sum(), mean_wall)
    count, place, sample = _cut(side, step, size)
    starts = np.cumsum(count) - count
    own = np.repeat(np.arange(len(count)), count)
    return Boundary(
        points=start[own] + (stop - start)[own] * place[:, None],
        follows=_next_in_ring([int(count[ring].sum()) for ring in _ring_slices(outline)]),
        side=own,
        size=size[sample],
        wall=wall[sample],
        corner=corner,
        starts=starts,
        stops=starts[after],
        chord=_chords(length, corner, after),
        largest=largest,
    )


def _bounded(edges: float, around: float, wall: float) -> None:
    if edges > _MOST:
        words = (
            f"needs {edges:.0f} edges, over the {_MOST} that are allowed: {around:.4g} mm of outline are too "
            f"long for walls of about {wall:.3g} mm; give it as thin walls"
        )
        raise ShapeError("outline", [Fault("", "", words)])


def graded(at: Array, places: Array, sizes: Array) -> Array:
    """Element size at points `at` that grows no faster than allowed from the sizes at places."""
    return np.asarray((sizes + _GROWTH * distances(at, places)).min(axis=1, initial=np.inf))


def distances(a: Array, b: Array) -> Array:
    """(len(a), len(b)) distances between two sets of points."""
    return np.asarray(np.hypot(a[:, 0, None] - b[:, 0], a[:, 1, None] - b[:, 1]))


def _cut(side: IntArray, step: Array, size: Array) -> tuple[IntArray, Array, IntArray]:
    """Divide own edges into odd numbers of pieces, so that one has its middle at the edge's, as the sizes ask.

    Parameters
    ----------
    side, step, size : (k,) own edge, length and size wanted of the samples, in order along the edges.

    Returns
    -------
    (m,) number of pieces; for each piece its start as a part of the own edge, and the sample at its middle.
    """
    need = np.bincount(side, step / size)
    count = np.ceil(need - 1e-9).astype(int)
    count += count % 2 == 0
    density = np.concatenate([[0.0], np.cumsum(step / size * (count / need)[side])])
    run = np.concatenate([[0.0], np.cumsum(step)])
    first = np.concatenate([[0.0], np.cumsum(np.bincount(side, step))])
    piece = np.arange(count.sum())
    own = np.repeat(np.arange(len(count)), count)
    place = (np.interp(piece, density, run) - first[own]) / np.diff(first)[own]
    place[np.cumsum(count) - count] = 0.0
    sample = np.searchsorted(density, piece + 0.5, side="right") - 1
    return count, place, np.minimum(sample, len(size) - 1)


def _ring_slices(outline: Outline) -> list[slice]:
    stops = np.cumsum([len(ring) for ring in outline.rings]).tolist()
    return [slice(start, stop) for start, stop in zip([0, *stops], stops, strict=False)]


def _chords(length: Array, corner: Array, after: IntArray) -> NDArray[np.bool_]:
    alike = (length < 2 * length[after]) & (length[after] < 2 * length)
    turn = np.abs(corner[after])
    at_end = alike & (turn > 1e-6) & (turn < SHARP)
    at_start = np.empty_like(at_end)
    at_start[after] = at_end
    return np.asarray(at_end | at_start)


def _depth(points: Array, along: Array, start: Array, stop: Array) -> Array:
    """Material thickness behind boundary points: the way to the first edge met square to the boundary."""
    inward = np.column_stack([-along[:, 1], along[:, 0]])
    edge = stop - start
    to = start[None, :, :] - points[:, None, :]
    across = inward[:, None, 0] * edge[None, :, 1] - inward[:, None, 1] * edge[None, :, 0]
    # Parallel to an edge or off it by next to nothing: it is never met, or further away than numbers go.
    with np.errstate(divide="ignore", over="ignore", invalid="ignore"):
        way = _cross(to, edge[None, :, :]) / across
        part = _cross(to, inward[:, None, :]) / across
    span = np.ptp(start, axis=0).max()
    met = (way > 1e-9 * span) & (part >= -1e-9) & (part <= 1 + 1e-9)
    return np.asarray(np.where(met, way, span).min(axis=1))


def _midpoints(pieces: IntArray) -> tuple[IntArray, Array]:
    """For edges cut into equal pieces: the edge of each piece and the middle of the piece along it."""
    edge = np.repeat(np.arange(len(pieces)), pieces)
    rank = np.arange(len(edge)) - np.repeat(np.cumsum(pieces) - pieces, pieces)
    return edge, (rank + 0.5) / pieces[edge]


def _next_in_ring(counts: list[int]) -> IntArray:
    """For points of closed rings stored one after the other: the index of the next one."""
    after = np.arange(1, sum(counts) + 1)
    last = np.cumsum(counts)
    after[last - 1] = last - counts
    return after


def _turn(a: Array, b: Array) -> Array:
    return np.asarray(np.arctan2(_cross(a, b), np.einsum("ij,ij->i", a, b)))


def _cross(a: Array, b: Array) -> Array:
    return np.asarray(a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0])
