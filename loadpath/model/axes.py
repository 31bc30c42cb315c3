"""Axes of straight segments of members."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def segment_axes(start: Array, end: Array, up: Array) -> tuple[Array, Array]:
    """Axes (n, 3, 3) and lengths (n,) of straight segments from `start` to `end`, all (n, 3).

    Rows x, y, z: x along the segment, z the part of `up` square to it, y = z × x.
    """
    x = end - start
    length = np.sqrt(np.einsum("ni,ni->n", x, x))
    x = x / length[:, None]
    z = up - np.einsum("ni,ni->n", up, x)[:, None] * x
    z = z / np.sqrt(np.einsum("ni,ni->n", z, z))[:, None]
    y = np.cross(z, x)
    return np.stack([x, y, z], axis=1), length
