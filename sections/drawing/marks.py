"""Centroid, shear centre and principal axes."""

from __future__ import annotations

from typing import Any

import numpy as np

from sections.result import Array, Section

LINE, MARK = "0.45", "0.0"
_PAST = 0.10
"""How far principal axes reach beyond the section, in parts of its larger side."""
_CLEAR = 0.08
"""A number nearer to the shear centre moves to the axis's other end."""
_ROUND = 1e-6


def draw_marks(axes: Any, made: Section) -> None:
    """Both centres, and the principal axes of a section that has them, numbered beyond their ends."""
    for k, (name, ends, at) in enumerate(_principal_axes(made)):
        words = "principal axes, 1 the stiffer" if k == 0 else None
        axes.plot(*ends.T, color=LINE, linewidth=0.7, linestyle=(0, (9, 3, 1, 3)), label=words, zorder=4)
        axes.text(*at, name, color=LINE, ha="center", va="center", fontsize=9, zorder=6)
    for place, marker, label in ((made.shear_centre, "o", "shear centre"), (made.centroid, "+", "centroid")):
        for ink, width, words, order in (("white", 3.4, None, 5.9), (MARK, 1.2, label, 6.0)):
            axes.plot(
                *place,
                marker,
                color=ink,
                markersize=11 if marker == "+" else 7,
                fillstyle="none",
                markeredgewidth=width,
                linestyle="none",
                label=words,
                zorder=order,
            )


def taken(made: Section) -> Array:
    """(n, 2) places of marks and of the axes' numbers."""
    return np.array([made.centroid, made.shear_centre, *(label for _, _, label in _principal_axes(made))])


def _principal_axes(made: Section) -> list[tuple[str, Array, Array]]:
    """Number, ends (2, 2) and place of the number (2,) of each axis; none where every axis is one."""
    largest, smallest, angle = made.principal
    if largest - smallest <= _ROUND * largest:
        return []
    size = float(np.ptp(made.box, axis=0).max())
    low, high = made.box[0] - _PAST * size, made.box[1] + _PAST * size
    found = []
    for name, turn in (("1", angle), ("2", angle + np.pi / 2)):
        step = np.array([np.cos(turn), np.sin(turn)])
        step = np.where(np.abs(step) < 1e-9, 0.0, step)
        step = -step if step @ [-1.0, 1.0] < 0 else step
        ends = np.array([made.centroid + s * _reach(s, made.centroid, low, high) for s in (step, -step)])
        labels = ends + 0.035 * size * np.array([step, -step])
        near = np.linalg.norm(labels[0] - made.shear_centre) < _CLEAR * size
        found.append((name, ends, labels[1 if near else 0]))
    return found


def _reach(step: Array, start: Array, low: Array, high: Array) -> float:
    """How far a line from a point in a box runs to the box."""
    with np.errstate(divide="ignore", invalid="ignore"):
        way = np.where(step > 0, high - start, low - start) / step
    return float(way[step != 0].min())
