"""Stress concentration at holes in a wall under tension."""

from __future__ import annotations

import numpy as np

from sections.midline import Array


def hole_factor(ratio: Array | float) -> Array:
    """Peak stress over the mean stress of the net section beside a round hole in the middle of a strip.

    3 − 3.13 x + 3.66 x² − 1.53 x³ with x = diameter/width: the fit of Peterson and of Roark to Howland (1930), from
    memory. At a hole off the middle, or under bending, it is another.

    Parameters
    ----------
    ratio : diameter over width of the strip, from 0 to under 1.

    Raises
    ------
    ValueError : outside that range.
    """
    x = np.asarray(ratio, dtype=float)
    if np.any(~((x >= 0) & (x < 1))):
        raise ValueError(f"ratio = {ratio}: the hole's diameter must be from 0 to under the width")
    return np.asarray(3 - 3.13 * x + 3.66 * x**2 - 1.53 * x**3)
