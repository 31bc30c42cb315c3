"""Dimensions of a drawn section: overall, its own width, thickness of walls; and all its parameters in words."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from sections.drawing.bands import ALONG, Bands, is_free
from sections.geometry import Walls
from sections.result import Array, Section
from sections.shapes.base import Shape, assumed_of

GAP = 0.23
"""Distance of the dimension lines from the section, in parts of its larger side."""
_ROW = 0.1
"""Distance between two dimension lines on one side."""
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
_SHORT = 0.1
"""A dimension shorter than this part of the section's size has its number beside it."""
_LOOKED_AT = 60
"""Walls of one thickness among which a place for it is looked for."""
_ROUGH = 0.01
"""Rounding to hundredths may change a number by this part of it."""
INK, HAIR = "0.25", 0.7


@dataclass(frozen=True)
class Span:
    """One dimension line: from start to stop along y (or z), at a distance from the section on one side."""

    start: float
    stop: float
    upright: bool
    beyond: bool
    words: str
    gap: float = GAP


def spans(shape: Shape, made: Section) -> list[Span]:
    """Overall width and height, and the shape's own width where flanges reach beyond it.

    They keep to the sides where the shear centre is not.
    """
    (y0, z0), (y1, z1) = made.box
    below, right = made.shear_centre[1] < z0, made.shear_centre[0] > y1
    above = made.shear_centre[1] > z1
    found = [
        Span(y0, y1, upright=False, beyond=bool(below), words=_number(y1 - y0)),
        Span(z0, z1, upright=True, beyond=not right, words=_number(z1 - z0)),
    ]
    width = getattr(shape, "width", None)
    tiny = 1e-6 * float(np.ptp(made.box, axis=0).max())
    if (
        isinstance(width, float | int)
        and abs(width - (y1 - y0)) > tiny
        and _has_upright_faces(made, width, tiny)
    ):
        words = f"{_number(width)} (width)"
        both = below or above
        found.append(Span(-width / 2, width / 2, False, bool(below) if both else True, words))
        if both:  # on one side, the overall width outside
            found[0] = replace(found[0], gap=GAP + _ROW)
    return found


def _has_upright_faces(made: Section, width: float, tiny: float) -> bool:
    """Whether upright walls have their outer faces at half a width on both sides."""
    if made.midline is None:
        return False
    line = made.midline
    ends = line.nodes[line.ends][:, :, 0]
    found = [
        np.abs(side * ends + line.thickness[:, None] / 2 - width / 2).max(axis=1).min() < tiny
        for side in (1, -1)
    ]
    return all(found)


def draw_spans(axes: Any, made: Section, found: list[Span]) -> None:
    """Dimension lines with their arrows, extension lines and numbers."""
    size = float(np.ptp(made.box, axis=0).max())
    low, high = made.box
    arrow = {
        "arrowstyle": "<->",
        "color": INK,
        "linewidth": HAIR,
        "shrinkA": 0,
        "shrinkB": 0,
        "mutation_scale": 8,
    }
    for span in found:
        across = 0 if span.upright else 1
        edge, sign = (high[across], 1.0) if span.beyond else (low[across], -1.0)
        at = edge + sign * span.gap * size
        ends = [_point(span, x, at) for x in (span.start, span.stop)]
        axes.annotate("", *ends, arrowprops=arrow)
        for x in (span.start, span.stop):
            line = np.array([_point(span, x, edge + sign * s * size) for s in (0.03, span.gap + 0.025)])
            axes.plot(*line.T, color=INK, linewidth=0.4)
        short = span.stop - span.start < _SHORT * size
        middle = span.stop + _SHORT * size / 2 if short else (span.start + span.stop) / 2
        axes.text(
            *_point(span, middle, at),
            span.words,
            rotation=90 if span.upright and not short else 0,
            ha="center",
            va="center",
            fontsize=9,
            color=INK,
            bbox={"facecolor": "white", "edgecolor": "none", "pad": 1.5},
        )


def _point(span: Span, along: float, at: float) -> tuple[float, float]:
    return (at, along) if span.upright else (along, at)


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
    alike = [(_some(same), number) for same, number in _alike(walls.thickness, worth)]
    for wall in np.flatnonzero(np.any([same for same, _ in alike], axis=0)):
        inner, outer = (
            _covered(walls, int(wall), mid[wall] + side * walls.thickness[wall] * outward[wall])
            for side in (-1, 1)
        )
        outward[wall, outer & ~inner] *= -1
        fair[wall, outer] -= _COVERED
    words = mid + outward * (walls.thickness[:, None, None] / 2 + _REACH * size)
    for same, number in alike:
        away = np.linalg.norm(words[:, :, None] - taken, axis=-1).min(axis=-1) / size
        score = np.where(same[:, None] & _INNER, fair + 3 * np.minimum(away, _AWAY), -np.inf)
        wall, place = np.unravel_index(int(score.argmax()), score.shape)
        _thickness(axes, mid[wall, place], outward[wall, place], float(walls.thickness[wall]), number, size)
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
        return [(worth, f"{_number(float(values[0]))} to {_number(float(values[-1]))}")]
    return [(worth & (np.abs(thickness - t) < 1e-5), _number(float(t))) for t in values]


def _some(walls: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """At most some of many walls, spread evenly: a measured trace has thousands."""
    every = np.flatnonzero(walls)
    kept = np.zeros_like(walls)
    kept[every[:: -(-len(every) // _LOOKED_AT)]] = True
    return kept


def _covered(walls: Walls, wall: int, faces: Array) -> NDArray[np.bool_]:
    """(n,) whether another layer lies on a face of a wall, at places (n, 2) beside its mid-line."""
    return np.array([not is_free(walls, wall, face) for face in faces])


def _thickness(axes: Any, at: Array, outward: Array, thickness: float, number: str, size: float) -> None:
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
        f"t {number}",
        ha="center" if abs(outward[0]) < 0.7 else "right" if outward[0] < 0 else "left",
        va="center" if abs(outward[1]) < 0.7 else "bottom" if outward[1] > 0 else "top",
        fontsize=9,
        color=INK,
        bbox={"facecolor": "white", "edgecolor": "none", "pad": 0.5},
    )


def parameter_words(shape: Shape) -> str:
    """The shape's parameters with units, as a line of words."""
    lengths, others = [], []
    for declared in fields(shape):  # type: ignore[arg-type]
        value, about = getattr(shape, declared.name), declared.metadata
        if "doc" not in about or (
            value is None or (value == declared.default and not about.get("tell", True))
        ):
            continue
        name = declared.name.replace("_", " ")
        if isinstance(value, bool):
            others += [name] if value else []
        elif isinstance(value, int | float) and about["unit"] == "mm":
            lengths.append(f"{name} {_number(float(value))}")
        elif isinstance(value, int | float) and about["unit"] == "deg":
            others.append(f"{name} {_number(float(np.degrees(value)))} deg")
        elif isinstance(value, int | float):
            others.append(f"{name} {_number(float(value))} {about['unit']}".strip())
        elif isinstance(value, str):
            others.append(f"{name} {Path(value).name if about['refers'] == 'file' else value}")
    assumed = [f"{key.replace('_', ' ')} {_number(value)}" for key, value in assumed_of(shape).items()]
    default = [f"by default {', '.join(assumed)} mm"] if assumed else []
    return "; ".join(([", ".join(lengths) + " mm"] if lengths else []) + others + default)


def _number(value: float) -> str:
    rounded = round(value, 2)
    return f"{value:.3g}" if abs(rounded - value) > _ROUGH * abs(value) else f"{rounded:.6g}"
