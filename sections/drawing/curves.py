"""Arcs drawn round: chords of an arc, as the engines take them, become curves for the eye."""

from __future__ import annotations

import numpy as np

from sections.result import Array

SMOOTH = np.radians(25.0)
"""Two chords that turn less than this are parts of one arc; more is a corner."""
_STRAIGHT = 1.6
"""A side so many times as long as its neighbour is a straight, and the arc beside it starts in its direction."""
STEPS = 6
"""Points drawn for each chord."""


def joint_tangent(before: Array, after: Array, lengths: tuple[float, float]) -> Array | None:
    """(2,) direction at the joint of two sides with unit directions; None at a corner."""
    if before @ after < np.cos(SMOOTH):
        return None
    first, last = lengths
    if first > _STRAIGHT * last:
        return before
    if last > _STRAIGHT * first:
        return after
    mean = before + after
    return np.asarray(mean / np.linalg.norm(mean))


def curve(start: Array, stop: Array, leave: Array, arrive: Array, at: Array) -> tuple[Array, Array]:
    """Points (..., k, 2) and unit directions (..., k, 2), at fractions (k,), of curves between points (..., 2) with
    unit directions at both ends: a cubic that for a small turn is an arc."""
    chord = np.linalg.norm(stop - start, axis=-1)[..., None, None]
    t = at[:, None]
    p0, p1 = start[..., None, :], stop[..., None, :]
    m0, m1 = chord * leave[..., None, :], chord * arrive[..., None, :]
    points = (
        (2 * t**3 - 3 * t**2 + 1) * p0
        + (t**3 - 2 * t**2 + t) * m0
        + (3 * t**2 - 2 * t**3) * p1
        + (t**3 - t**2) * m1
    )
    run = (6 * t**2 - 6 * t) * (p0 - p1) + (3 * t**2 - 4 * t + 1) * m0 + (3 * t**2 - 2 * t) * m1
    return points, run / np.linalg.norm(run, axis=-1, keepdims=True)


def smooth_ring(ring: Array) -> Array:
    """(k, 2) a closed ring with its arcs as curves; straights and corners stay as they are."""
    run = np.roll(ring, -1, axis=0) - ring
    length = np.linalg.norm(run, axis=1)
    along = run / length[:, None]
    tangents = [
        joint_tangent(along[k - 1], along[k], (float(length[k - 1]), float(length[k])))
        for k in range(len(ring))
    ]
    at = np.arange(STEPS) / STEPS
    pieces = []
    for k in range(len(ring)):
        after = (k + 1) % len(ring)
        leave, arrive = tangents[k], tangents[after]
        leave = along[k] if leave is None else leave
        arrive = along[k] if arrive is None else arrive
        pieces.append(curve(ring[k], ring[after], leave, arrive, at)[0])
    return np.vstack(pieces)
