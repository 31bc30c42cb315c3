"""Plastic modulus of thin walls."""

from __future__ import annotations

import numpy as np

from sections.midline import Array


def plastic_modulus(start: Array, stop: Array, wall_area: Array) -> float:
    """Σ ∫ |z − z0| t ds [mm³] about the line z = z0 that halves the area.

    Parameters
    ----------
    start, stop : (m,) distance of the wall ends from any parallel line [mm]. wall_area : (m,) [mm²].
    """
    low, high = np.minimum(start, stop), np.maximum(start, stop)
    # A wall along the line holds its area at one height: a step, made a very steep ramp.
    high = np.maximum(high, low + 1e-12 * (high.max() - low.min()))
    levels = np.sort(np.concatenate([low, high]))
    z0 = _halving(levels, low, high, wall_area)
    share = _share_below(z0, low, high)
    cut = np.clip(z0, low, high)
    under, over = share * (z0 - (low + cut) / 2), (1 - share) * ((cut + high) / 2 - z0)
    return float(wall_area @ (under + over))


def _halving(levels: Array, low: Array, high: Array, wall_area: Array) -> float:
    """The line that halves the area, between two of the sorted levels, found by halving their range."""

    def below(k: int) -> float:
        return float(_share_below(float(levels[k]), low, high) @ wall_area)

    half, first, last = float(wall_area.sum()) / 2, 0, len(levels) - 1
    while last - first > 1:
        middle = (first + last) // 2
        first, last = (middle, last) if below(middle) <= half else (first, middle)
    return float(np.interp(half, [below(first), below(last)], levels[[first, last]]))


def _share_below(level: float, low: Array, high: Array) -> Array:
    return np.clip((level - low) / (high - low), 0.0, 1.0)
