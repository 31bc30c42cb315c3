"""Dimensions of a drawn section: overall and its own width; and all its parameters in words."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np

from sections.fields import parameters_of
from sections.result import Section
from sections.shapes.base import Shape, assumed_of

GAP = 0.23
"""Distance of the dimension lines from the section, in parts of its larger side."""
_ROW = 0.1
"""Distance between two dimension lines on one side."""
_SHORT = 0.1
"""A dimension shorter than this part of the section's size has its number beside it."""
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
        Span(y0, y1, upright=False, beyond=bool(below), words=number(y1 - y0)),
        Span(z0, z1, upright=True, beyond=not right, words=number(z1 - z0)),
    ]
    width = getattr(shape, "width", None)
    tiny = 1e-6 * float(np.ptp(made.box, axis=0).max())
    if (
        isinstance(width, float | int)
        and abs(width - (y1 - y0)) > tiny
        and _has_upright_faces(made, width, tiny)
    ):
        words = f"{number(width)} (width)"
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


def parameter_words(shape: Shape) -> str:
    """The shape's parameters with units, as a line of words."""
    lengths, others = [], []
    for declared in parameters_of(shape):
        value, about = getattr(shape, declared.name), declared.metadata
        if value is None or (value == declared.default and not about["tell"]):
            continue
        name = declared.name.replace("_", " ")
        if isinstance(value, bool):
            others += [name] if value else []
        elif isinstance(value, int | float) and about["unit"] == "mm":
            lengths.append(f"{name} {number(float(value))}")
        elif isinstance(value, int | float) and about["unit"] == "deg":
            others.append(f"{name} {number(float(np.degrees(value)))} deg")
        elif isinstance(value, int | float):
            others.append(f"{name} {number(float(value))} {about['unit']}".strip())
        elif isinstance(value, str):
            others.append(f"{name} {Path(value).name if about['refers'] == 'file' else value}")
    assumed = [f"{key.replace('_', ' ')} {number(value)}" for key, value in assumed_of(shape).items()]
    default = [f"by default {', '.join(assumed)} mm"] if assumed else []
    return "; ".join(([", ".join(lengths) + " mm"] if lengths else []) + others + default)


def number(value: float) -> str:
    """A length or another number as a picture tells it: to hundredths, small ones to three digits."""
    rounded = round(value, 2)
    return f"{value:.3g}" if abs(rounded - value) > _ROUGH * abs(value) else f"{rounded:.6g}"
