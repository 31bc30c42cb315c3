"""Force over travel, or moment over angle, as measured points with a smooth line through them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Curve:
    """Piecewise cubic that keeps the rise and fall of its points; straight on beyond its ends.

    Attributes
    ----------
    x : (n,) rising travel [mm] or angle [rad]. y : (n,) force [N] or moment [N·mm]. slopes : (n,) at the points.
    """

    x: Array
    y: Array
    slopes: Array

    def value(self, at: Array | float) -> Array:
        """Force or moment, in the shape of `at`."""
        k, t, h, beyond = self._place(at)
        y0, y1, d0, d1 = self.y[k], self.y[k + 1], h * self.slopes[k], h * self.slopes[k + 1]
        rise = y1 - y0
        inside: Array = y0 + t * (d0 + t * (3 * rise - 2 * d0 - d1 + t * (d0 + d1 - 2 * rise)))
        value: Array = inside + beyond * np.where(beyond > 0, self.slopes[-1], self.slopes[0])
        return value

    def slope(self, at: Array | float) -> Array:
        """Rate, in the shape of `at`."""
        k, t, h, beyond = self._place(at)
        d0, d1 = self.slopes[k], self.slopes[k + 1]
        rise = (self.y[k + 1] - self.y[k]) / h
        inside: Array = d0 + t * (2 * (3 * rise - 2 * d0 - d1) + t * 3 * (d0 + d1 - 2 * rise))
        past = np.where(beyond < 0, self.slopes[0], inside)
        slope: Array = np.where(beyond > 0, self.slopes[-1], past)
        return slope

    def beyond(self, at: Array | float) -> Array:
        """How far a travel lies beyond the ends of the table, 0 within."""
        outside: Array = np.abs(self._place(at)[3])
        return outside

    def _place(self, at: Array | float) -> tuple[NDArray[np.intp], Array, Array, Array]:
        """Interval, share of it, its width, and what lies beyond the ends."""
        x = np.asarray(at, dtype=np.float64)
        held = np.clip(x, self.x[0], self.x[-1])
        k = np.clip(np.searchsorted(self.x, held, side="right") - 1, 0, len(self.x) - 2)
        h = self.x[k + 1] - self.x[k]
        return k, (held - self.x[k]) / h, h, x - held

    def reversed(self) -> Curve:
        """The same seen from the other end: y(−x) with the other sign."""
        return Curve(-self.x[::-1], -self.y[::-1], self.slopes[::-1])


def curve_through(x: Sequence[float], y: Sequence[float], *, both_ways: bool = False) -> Curve:
    """Curve through points.

    Slopes are the weighted harmonic means of the neighbouring secants, 0 at a turn, so that nothing overshoots
    (F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300-304, from memory).

    Parameters
    ----------
    x : (n,) rising, two or more. y : (n,).
    both_ways : points that begin at 0 stand for the other way too: y(−x) = −y(x).

    Raises
    ------
    ValueError : fewer than two points, lists of different lengths, or x that does not rise.
    """
    xs, ys = np.array(x, dtype=np.float64), np.array(y, dtype=np.float64)
    if len(xs) < 2 or xs.shape != ys.shape or not (np.diff(xs) > 0).all():
        raise ValueError("a curve takes two points or more, with rising travel and one force for each")
    if both_ways and xs[0] == 0:
        xs, ys = np.concatenate([-xs[:0:-1], xs]), np.concatenate([-ys[:0:-1], ys])
    return Curve(xs, ys, _slopes(np.diff(xs), np.diff(ys) / np.diff(xs)))


def _slopes(h: Array, secant: Array) -> Array:
    if len(h) == 1:
        return np.repeat(secant, 2)
    before, after = secant[:-1], secant[1:]
    w1, w2 = 2 * h[1:] + h[:-1], h[1:] + 2 * h[:-1]
    same = before * after > 0
    with np.errstate(divide="ignore", invalid="ignore"):
        mean = (w1 + w2) / (w1 / before + w2 / after)
    inner = np.where(same, mean, 0.0)
    first = _end(h[0], h[1], secant[0], secant[1])
    last = _end(h[-1], h[-2], secant[-1], secant[-2])
    return np.concatenate([[first], inner, [last]])


def _end(h0: float, h1: float, s0: float, s1: float) -> float:
    """Slope at an end by three points, kept from turning the curve back."""
    slope = ((2 * h0 + h1) * s0 - h0 * s1) / (h0 + h1)
    if slope * s0 <= 0:
        return 0.0
    return 3 * s0 if s0 * s1 <= 0 and abs(slope) > abs(3 * s0) else slope
