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
    below = _share_below(levels[:, None], low, high) @ wall_area
    z0 = float(np.interp(wall_area.sum() / 2, below, levels))
    share = _share_below(z0, low, high)
    cut = np.clip(z0, low, high)
    under, over = share * (z0 - (low + cut) / 2), (1 - share) * ((cut + high) / 2 - z0)
    return float(wall_area @ (under + over))


def _share_below(level: Array | float, low: Array, high: Array) -> Array:
    return np.clip((level - low) / (high - low), 0.0, 1.0)
