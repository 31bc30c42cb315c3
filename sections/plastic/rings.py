"""Plastic modulus of an outline, exact for its polygon."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from sections.midline import Array

_ONE_LEVEL = 1e-12
"""Corners nearer in height than this part of the whole are at one level: sides turned by rounding."""
_ROWS = 256
"""Levels worked out at once, which keeps the memory small."""


def plastic_modulus(rings: Sequence[Array]) -> float:
    """∫ |z − z0| dA [mm³] about the line z = z0 that halves the area.

    Between two levels of corners the width of a polygon is linear in z, so area and first moment of each such
    slab are closed forms.

    Parameters
    ----------
    rings : (k, 2) each, w and z of a ring's corners [mm], z square to the line.
    """
    start = np.vstack(rings)
    stop = np.vstack([np.roll(ring, -1, axis=0) for ring in rings])
    levels = np.unique(start[:, 1])
    levels = levels[np.diff(levels, prepend=-np.inf) > _ONE_LEVEL * np.ptp(levels)]
    low, high = levels[:-1], levels[1:]
    at_low, at_high = _widths(start, stop, low, high)
    slab = (high - low) * (at_low + at_high) / 2
    below = np.concatenate([[0.0], np.cumsum(slab)])
    half = below[-1] / 2
    k = min(int(np.searchsorted(below, half, side="right")) - 1, len(slab) - 1)
    z0 = low[k] + _height(half - below[k], at_low[k], at_high[k], high[k] - low[k])

    share = np.clip((z0 - low) / (high - low), 0.0, 1.0)
    cut, at_cut = low + share * (high - low), at_low + share * (at_high - at_low)
    return float(_moment(z0, low, cut, at_low, at_cut).sum() + _moment(z0, cut, high, at_cut, at_high).sum())


def _widths(start: Array, stop: Array, low: Array, high: Array) -> tuple[Array, Array]:
    """Width of the polygon just above each lower and just below each upper level, some levels at a time."""
    parts = [slice(first, first + _ROWS) for first in range(0, len(low), _ROWS)]
    made = [_some_widths(start, stop, low[part], high[part]) for part in parts]
    at_low, at_high = (np.concatenate(each) for each in zip(*made, strict=True))
    return at_low, at_high


def _some_widths(start: Array, stop: Array, low: Array, high: Array) -> tuple[Array, Array]:
    climb = stop[:, 1] - start[:, 1]
    # Sides within one level have no slope that is used.
    with np.errstate(divide="ignore", over="ignore", invalid="ignore"):
        slope = (stop[:, 0] - start[:, 0]) / climb
    middle = ((low + high) / 2)[:, None]
    crossed = (np.minimum(start[:, 1], stop[:, 1]) < middle) & (middle < np.maximum(start[:, 1], stop[:, 1]))
    side = np.sign(climb) * crossed
    slope, origin = np.where(crossed, slope, 0.0), np.where(crossed, start[:, 0], 0.0)
    at_low, at_high = (
        (side * (origin + slope * (level[:, None] - start[:, 1]))).sum(axis=1) for level in (low, high)
    )
    return at_low, at_high


def _height(area: float, width: float, end_width: float, height: float) -> float:
    """Height at which a trapezium has a given area below it."""
    slope = (end_width - width) / height
    root = np.sqrt(max(width * width + 2 * slope * area, 0.0))
    return float(2 * area / (width + root)) if width + root > 0 else 0.0


def _moment(z0: float, low: Array, high: Array, at_low: Array, at_high: Array) -> Array:
    """∫ |z − z0| w dz of slabs on one side of z0, the width linear in z."""
    a, b = np.abs(low - z0), np.abs(high - z0)
    return np.asarray((high - low) * (at_low * (2 * a + b) + at_high * (a + 2 * b)) / 6)
