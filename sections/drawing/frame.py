"""The frame of a picture: sizes and places, the lines of words above and below, the legend."""

from __future__ import annotations

import re
import textwrap
from dataclasses import dataclass
from typing import Any

import numpy as np

from sections.acting import COLOURS, Acting, Colour
from sections.drawing.dimensions import Span, parameter_words
from sections.result import Array, Section
from sections.shapes.base import Shape

_LARGEST = 5.6
"""Larger side of the axes, inches."""
_BESIDE = 0.2
"""Room beside the section where there are no dimensions, in parts of its larger side."""
_TICKS, _BAR, _RIGHT, _ENTRY = 0.85, 1.15, 0.25, 2.15
"""Width of tick labels, of the colour bar, of the right margin and of an entry of the legend, inches."""
_LINE, _CHARACTER, _ROW = 0.17, 0.071, 0.2
"""Height of a line and width of a character of small text, and height of a row of the legend, inches."""
_SPACED = 1.15
_MEASURED = re.compile(r"(-?\d[\d.]*) (?=(?:mm|deg|MPa|k?N)\b)")
"""A number before its unit, with which it stays on one line."""
_UNBROKEN = re.compile(r" (-?\d[\d.]*) (?=k?N|mm)")
"""A force's number between its name and its unit, which stay on one line."""

Box = tuple[float, float, float, float]
"""Left, bottom, width and height as shares of the picture."""


@dataclass(frozen=True, eq=False)
class Frame:
    """Where everything of a picture is.

    Attributes
    ----------
    window : (2, 2) smallest and largest y, z shown [mm]. size : width and height of the picture, inches.
    axes, bar : places of the drawing and of the colour bar. title, lines : above it. notes : below.
    columns : of the legend.
    """

    window: Array
    size: tuple[float, float]
    axes: Box
    bar: Box
    title: str
    lines: tuple[str, ...]
    notes: tuple[str, ...]
    columns: int


def window_of(made: Section, measured: list[Span]) -> Array:
    """(2, 2) what the axes show: the section with room for what is beside it, and the shear centre."""
    size = float(np.ptp(made.box, axis=0).max())
    room = np.full((2, 2), _BESIDE)
    for span in measured:
        side, axis = int(span.beyond), 0 if span.upright else 1
        room[side, axis] = max(room[side, axis], span.gap + 0.09)
    low = np.minimum(made.box[0] - room[0] * size, made.shear_centre - 0.1 * size)
    high = np.maximum(made.box[1] + room[1] * size, made.shear_centre + 0.1 * size)
    return np.array([low, high])


def lines_above(shape: Shape, acting: Acting | None, colour: Colour) -> list[str]:
    """The shape's parameters, and what the colours are."""
    lines = [parameter_words(shape)]
    if acting is not None:
        words = _UNBROKEN.sub("\u00a0\\1\u00a0", acting.words)
        lines.append(f"Colours: {COLOURS[colour].split(',')[0]} under {words}")
    return [line for line in lines if line]


def frame_for(
    window: Array, title: str, lines: list[str], notes: list[str], has_bar: bool, entries: int
) -> Frame:
    """The frame round a drawing.

    Parameters
    ----------
    lines, notes : sentences above and below, broken here. entries : of the legend.
    """
    span = window[1] - window[0]
    width, height = (float(s) for s in span * _LARGEST / span.max())
    bar = _BAR if has_bar else 0.0
    across = max(_TICKS + width + bar + _RIGHT, 5.6)
    above, below = (_broken(text, int(across / _CHARACTER)) for text in (lines, notes))
    columns = max(2, int(across / _ENTRY))
    top = 0.22 + _LINE * _SPACED * (1 + len(above))
    bottom = 0.72 + _ROW * -(-entries // columns) + _LINE * len(below)
    up = bottom + height + top
    left = _TICKS + max(0.0, (across - _TICKS - width - _RIGHT - bar) / 2)
    return Frame(
        window=window,
        size=(across, up),
        axes=(left / across, bottom / up, width / across, height / up),
        bar=((left + width + 0.2) / across, (bottom + 0.1 * height) / up, 0.17 / across, 0.8 * height / up),
        title=title,
        lines=above,
        notes=below,
        columns=columns,
    )


def _broken(sentences: list[str], columns: int) -> tuple[str, ...]:
    whole = (_MEASURED.sub("\\1\u00a0", text) for text in sentences)
    return tuple(line for text in whole for line in textwrap.wrap(text, columns))


def finish(figure: Any, axes: Any, frame: Frame) -> None:
    """Limits and labels of the axes, words above and below, the legend."""
    axes.set_xlim(*frame.window[:, 0])
    axes.set_ylim(*frame.window[:, 1])
    axes.set_xlabel("y, mm", fontsize=9)
    axes.set_ylabel("z, mm", fontsize=9)
    axes.tick_params(labelsize=8)
    axes.spines[["top", "right"]].set_visible(False)
    width, height = frame.size
    left, up = 0.12 / width, height - 0.08
    figure.text(left, up / height, frame.title, fontsize=10.5, fontweight="bold", va="top")
    for k, line in enumerate(frame.lines, 1):
        figure.text(left, (up - _LINE * _SPACED * k) / height, line, fontsize=8.5, va="top")
    for k, line in enumerate(reversed(frame.notes)):
        figure.text(left, (0.06 + _LINE * k) / height, line, fontsize=8, color="0.35", va="bottom")
    figure.legend(
        loc="lower center",
        bbox_to_anchor=(0.5, (0.05 + _LINE * len(frame.notes)) / height),
        ncols=frame.columns,
        fontsize=8,
        frameon=False,
    )
