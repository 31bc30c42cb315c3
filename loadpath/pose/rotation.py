"""Finite rotations in batches: (..., 3) rotation vectors [rad] and (..., 3, 3) matrices."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


_NEXT, _LAST = np.array([1, 2, 0]), np.array([2, 0, 1])


def cross(a: Array, b: Array) -> Array:
    """(..., 3) vector products; on the small arrays of a linkage several times as fast as numpy's general one."""
    product: Array = a[..., _NEXT] * b[..., _LAST] - a[..., _LAST] * b[..., _NEXT]
    return product


def skew(v: Array) -> Array:
    """(..., 3, 3) matrices with m @ a = v × a."""
    m = np.zeros((*v.shape, 3))
    m[..., 0, 1], m[..., 0, 2] = -v[..., 2], v[..., 1]
    m[..., 1, 0], m[..., 1, 2] = v[..., 2], -v[..., 0]
    m[..., 2, 0], m[..., 2, 1] = -v[..., 1], v[..., 0]
    return m


def rotation(vector: Array) -> Array:
    """(..., 3, 3) rotation by a rotation vector (Rodrigues)."""
    angle = np.sqrt((vector**2).sum(axis=-1))[..., None, None]
    k = skew(vector)
    turned: Array = np.eye(3) + np.sinc(angle / np.pi) * k + 0.5 * np.sinc(angle / 2 / np.pi) ** 2 * (k @ k)
    return turned


def rotation_vector(matrix: Array) -> Array:
    """(..., 3) rotation vector of a rotation by less than half a turn."""
    across = 0.5 * np.stack(
        [
            matrix[..., 2, 1] - matrix[..., 1, 2],
            matrix[..., 0, 2] - matrix[..., 2, 0],
            matrix[..., 1, 0] - matrix[..., 0, 1],
        ],
        axis=-1,
    )
    sine = np.sqrt((across**2).sum(axis=-1))
    cosine = 0.5 * (np.trace(matrix, axis1=-2, axis2=-1) - 1)
    angle = np.arctan2(sine, cosine)
    factor = np.where(sine > 1e-8, angle / np.where(sine > 1e-8, sine, 1.0), 1.0)
    vector: Array = factor[..., None] * across
    return vector


def shortest(start: Array, end: Array) -> Array:
    """(..., 3, 3) smallest rotation that turns one unit vector (..., 3) into another; not for opposite ones."""
    axis = cross(start, end)
    cosine = (start * end).sum(axis=-1)[..., None, None]
    k = skew(axis)
    turned: Array = np.eye(3) + k + (k @ k) / (1 + cosine)
    return turned


def transposed(matrix: Array) -> Array:
    """(..., 3, 3) transposes."""
    return np.swapaxes(matrix, -1, -2)
