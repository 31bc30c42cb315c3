"""Thickness of the walls of a drawn section: an arrow on each face and a number."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from sections.drawing.bands import ALONG, Bands, is_free
from sections.drawing.dimensions import HAIR, INK, number
from sections.geometry import Walls
from sections.result import Array, Section

_REACH = 0.085
"""Distance of a thickness from its wall."""
_LONG = 0.15
"""A wall worth a thickness of its own is this part of the section's size, where any is."""
_NEARLY = 0.5
"""Else, as in arcs and scans, this part of the longest wall."""
_INNER = (ALONG > 0.2) & (ALONG < 0.8)
_AWAY = 0.25
"""Distance from other words that is far enough."""
_COVERED = 2.0
"""How much worse a face is that another layer covers."""
_MANY = 6
"""More different thicknesses than these are told by their range."""
_LOOKED_AT = 60
"""Walls of one thickness among which a place for it is looked for."""


def draw_thicknesses(axes: Any, walls: Walls, drawn: Bands, made: Section, taken: Array) -> None:
    """One thickness for each different one of the longer walls, or their range where many differ: an arrow on each
    face and a number outside.

    taken : (n, 2) places that the numbers keep away from.
    """
    size = float(np.ptp(made.box, axis=0).max())
    length = np.linalg.norm(walls.nodes[walls.ends[:, 1]] - walls.nodes[walls.ends[:, 0]], axis=1)
    mid, square = drawn.grid[:, :, 1], drawn.square
    outward = square * np.where(((mid - made.centroid) * square).sum(axis=-1) < 0, -1.0, 1.0)[..., None]
    worth = _worth(walls.thickness, length, size)
    fair = outward @ [-0.5, 0.6] + 0.2 * (length / length.max())[:, None] - np.abs(ALONG - 0.35)
    alike = [(_some(same), said) for same, said in _alike(walls.thickness, worth)]
    for wall in np.flatnonzero(np.any([same for same, _ in alike], axis=0)):
        inner, outer = (
            _covered(walls, int(wall), mid[wall] + side * walls.thickness[wall] * outward[wall])
            for side in (-1, 1)
        )
        outward[wall, outer & ~inner] *= -1
        fair[wall, outer] -= _COVERED
    words = mid + outward * (walls.thickness[:, None, None] / 2 + _REACH * size)
    for same, said in alike:
        away = np.linalg.norm(words[:, :, None] - taken, axis=-1).min(axis=-1) / size
        score = np.where(same[:, None] & _INNER, fair + 3 * np.minimum(away, _AWAY), -np.inf)
        wall, place = np.unravel_index(int(score.argmax()), score.shape)
        _thickness(axes, mid[wall, place], outward[wall, place], float(walls.thickness[wall]), said, size)
        taken = np.vstack([taken, words[wall, place]])


def _worth(thickness: Array, length: Array, size: float) -> NDArray[np.bool_]:
    """(m,) walls worth a thickness: long ones; where a thickness has none, as in arcs, the longer of its walls if
    together they make much of the section."""
    longest = float(length.max())
    if longest < _LONG * size:
        return length >= _NEARLY * longest
    worth = length >= _LONG * size
    for t in np.unique(thickness[~worth].round(6)):
        same = np.abs(thickness - t) < 1e-5
        if not worth[same].any() and float(length[same].sum()) >= size:
            worth |= same & (length >= _NEARLY * float(length[same].max()))
    return worth


def _alike(thickness: Array, worth: NDArray[np.bool_]) -> list[tuple[NDArray[np.bool_], str]]:
    """Walls worth a thickness with the same one, and its words; of many, as measured, all with the range."""
    values = np.unique(thickness[worth].round(6))
    if len(values) > _MANY:
        return [(worth, f"{number(float(values[0]))} to {number(float(values[-1]))}")]
    return [(worth & (np.abs(thickness - t) < 1e-5), number(float(t))) for t in values]


def _some(walls: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """At most some of many walls, spread evenly: a measured trace has thousands."""
    every = np.flatnonzero(walls)
    kept = np.zeros_like(walls)
    kept[every[:: -(-len(every) // _LOOKED_AT)]] = True
    return kept


def _covered(walls: Walls, wall: int, faces: Array) -> NDArray[np.bool_]:
    """(n,) whether another layer lies on a face of a wall, at places (n, 2) beside its mid-line."""
    return np.array([not is_free(walls, wall, face) for face in faces])


def _thickness(axes: Any, at: Array, outward: Array, thickness: float, said: str, size: float) -> None:
    arrow = {
        "arrowstyle": "-|>",
        "color": INK,
        "linewidth": HAIR,
        "shrinkA": 0,
        "shrinkB": 0,
        "mutation_scale": 6,
    }
    for side in (1.0, -1.0):
        face = at + side * thickness / 2 * outward
        axes.annotate("", face, face + side * 0.055 * size * outward, arrowprops=arrow)
    axes.text(
        *(at + (thickness / 2 + _REACH * size) * outward),
        f"t {said}",
        ha="center" if abs(outward[0]) < 0.7 else "right" if outward[0] < 0 else "left",
        va="center" if abs(outward[1]) < 0.7 else "bottom" if outward[1] > 0 else "top",
        fontsize=9,
        color=INK,
        bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.5},
    )
