"""The picture as a whole: its frame, its words, and what is drawn in which order."""

from __future__ import annotations

import re
import textwrap
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

import numpy as np

from sections.acting import COLOURS, SIGNS, Acting, Colour
from sections.api import section
from sections.drawing.bands import Bands, bands, edges, shells
from sections.drawing.curves import smooth_ring
from sections.drawing.dimensions import Span, draw_spans, draw_thicknesses, parameter_words, spans
from sections.drawing.fields import field_in_outline, field_in_walls
from sections.drawing.joints import draw_joints, draw_weak_zones, joint_entries
from sections.drawing.marks import draw_marks, taken
from sections.drawing.paint import mark_largest, paint
from sections.drawing.rings import ring_path
from sections.geometry import Outline, Walls
from sections.result import Array, Section
from sections.shapes.base import Shape
from sections.shapes.traced import Traced

_MATERIAL, _EDGE = "0.86", "0.3"
_LARGEST = 5.6
"""Larger side of the axes, inches."""
_BESIDE = 0.2
"""Room beside the section where there are no dimensions, in parts of its larger side."""
_TICKS, _BAR, _RIGHT = 0.85, 1.15, 0.25
_UNBROKEN = re.compile(r" (-?\d[\d.]*) (?=k?N|mm)")
"""A quantity and its unit, which stay on one line."""
_LINE, _CHARACTER, _ROW = 0.17, 0.071, 0.2
"""Height of a line and width of a character of small text, and height of a row of the legend, inches."""


@dataclass(frozen=True, eq=False)
class _Drawn:
    """The geometry that a picture shows: walls as bands, or rings."""

    walls: Walls | None
    bands: Bands | None
    outline: Outline | None
    rings: tuple[Array, ...]


def draw(
    shape: Shape,
    file: str | Path | IO[bytes],
    *,
    kind: str | None = None,
    made: Section | None = None,
    acting: Acting | None = None,
    colour: Colour = "stress",
    title: str = "",
    nu: float = 0.3,
) -> None:
    """Draw a shape with its centroid, shear centre, principal axes and dimensions; coloured where something acts.

    Parameters
    ----------
    file : path, or a binary stream. kind : "png" or "svg"; default by the ending of the path.
    made : the shape's section by the engine that serves it where it is at hand; otherwise it is computed.
    acting : section forces; with them the material shows the quantity `colour`, and its largest value at the
        surface is marked.
    title : default the shape's name. nu : Poisson's ratio, for shear stress inside outlines.

    Raises
    ------
    ShapeError : shear flow asked of a shape that thin walls do not serve.
    """
    from matplotlib.figure import Figure

    result = section(shape, nu) if made is None else made
    drawn = _geometry(shape)
    measured = spans(shape, result)
    window = _window(result, measured)
    heading = _heading(title or shape.name, shape, acting, colour)
    notes = SIGNS if acting is not None else ""
    frame = _Frame(window, heading, notes, acting is not None, _entries(drawn, result, acting, colour))
    figure = Figure(figsize=frame.size, dpi=150)
    axes = figure.add_axes(frame.axes)
    if acting is None:
        _fill(axes, drawn)
    else:
        field = (
            field_in_outline(drawn.outline, result, acting, colour, nu)
            if drawn.outline is not None
            else field_in_walls(_known(drawn.bands), result, acting, colour)
        )
        bar = figure.add_axes(frame.bar)
        paint(axes, bar, field, result, acting, colour, None if drawn.outline is None else drawn.rings)
        mark_largest(axes, field, result, acting, colour)
    _lines(axes, drawn)
    draw_marks(axes, result)
    draw_spans(axes, result, measured)
    _thicknesses(axes, shape, drawn, result)
    _finish(figure, axes, frame, heading, notes)
    figure.savefig(file, format=kind)


def _geometry(shape: Shape) -> _Drawn:
    smooth = not isinstance(shape, Traced)
    made = shape.walls() if shape.serves == "walls" else shape.outline()
    if isinstance(made, Walls):
        return _Drawn(made, bands(made, smooth), None, ())
    if made is None:
        raise ValueError(f"{shape.name} has no geometry for the engine that serves it")
    rings = tuple(smooth_ring(ring) for ring in made.rings) if smooth else made.rings
    return _Drawn(None, None, made, rings)


def _thicknesses(axes: Any, shape: Shape, drawn: _Drawn, made: Section) -> None:
    """Thickness of the walls drawn, or of those that an outlined shape has too."""
    walls = shape.walls() if drawn.walls is None else drawn.walls
    if walls is not None:
        placed = bands(walls) if drawn.bands is None else drawn.bands
        draw_thicknesses(axes, walls, placed, made, taken(made))


def _known(drawn: Bands | None) -> Bands:
    if drawn is None:
        raise ValueError("no walls are drawn")
    return drawn


def _window(made: Section, measured: list[Span]) -> Array:
    """(2, 2) what the axes show: the section with room for what is beside it, and the shear centre."""
    size = float(np.ptp(made.box, axis=0).max())
    room = np.full((2, 2), _BESIDE)
    for span in measured:
        side, axis = int(span.beyond), 0 if span.upright else 1
        room[side, axis] = max(room[side, axis], span.gap + 0.09)
    low = np.minimum(made.box[0] - room[0] * size, made.shear_centre - 0.1 * size)
    high = np.maximum(made.box[1] + room[1] * size, made.shear_centre + 0.1 * size)
    return np.array([low, high])


Heading = list[tuple[str, bool]]
"""Lines above the picture, True for the title."""


class _Frame:
    """Sizes and places in a picture, inches turned to shares of the figure."""

    def __init__(
        self, window: Array, heading: list[tuple[str, bool]], notes: str, has_bar: bool, entries: int
    ) -> None:
        span = window[1] - window[0]
        scale = _LARGEST / float(span.max())
        width, height = (float(s) * scale for s in span)
        self.window = window
        total = max(_TICKS + width + (_BAR if has_bar else 0.0) + _RIGHT, 5.6)
        self.columns = int(total / _CHARACTER)
        self.lines = sum(len(textwrap.wrap(text, self.columns)) for text, _ in heading)
        self.note_lines = len(textwrap.wrap(notes, self.columns)) if notes else 0
        self.legend_columns = max(2, int(total / 2.15))
        rows = -(-entries // self.legend_columns)
        top = 0.22 + _LINE * 1.15 * self.lines
        bottom = 0.72 + _ROW * rows + _LINE * self.note_lines
        self.size = (total, bottom + height + top)
        left = _TICKS + max(0.0, (total - _TICKS - width - _RIGHT - (_BAR if has_bar else 0.0)) / 2)
        self.axes = self._share(left, bottom, width, height)
        self.bar = self._share(left + width + 0.2, bottom + 0.1 * height, 0.17, 0.8 * height)

    def _share(
        self, left: float, bottom: float, width: float, height: float
    ) -> tuple[float, float, float, float]:
        across, up = self.size
        return left / across, bottom / up, width / across, height / up


def _entries(drawn: _Drawn, made: Section, acting: Acting | None, colour: Colour) -> int:
    """How many things the legend tells."""
    joints = 0 if drawn.walls is None else joint_entries(drawn.walls)
    marked = 0 if acting is None else 2 if colour == "normal" else 1
    return 2 + joints + int(len(taken(made)) > 2) + marked


def _heading(title: str, shape: Shape, acting: Acting | None, colour: Colour) -> Heading:
    name = title if title == shape.name else f"{title}: {shape.name}"
    lines = [(name, True), (parameter_words(shape), False)]
    if acting is not None:
        words = _UNBROKEN.sub("\u00a0\\1\u00a0", acting.words)
        lines.append((f"Colours: {COLOURS[colour].split(',')[0]} under {words}", False))
    return [line for line in lines if line[0]]


def _fill(axes: Any, drawn: _Drawn) -> None:
    from matplotlib.collections import PolyCollection
    from matplotlib.patches import PathPatch

    if drawn.bands is not None:
        quads = list(shells(drawn.bands))
        axes.add_collection(PolyCollection(quads, facecolor=_MATERIAL, edgecolor=_MATERIAL, linewidth=0.5))
    else:
        axes.add_patch(PathPatch(ring_path(drawn.rings), facecolor=_MATERIAL, edgecolor="none"))


def _lines(axes: Any, drawn: _Drawn) -> None:
    """Faces and cuts of the material, welds between layers, holes, weak zones."""
    from matplotlib.collections import LineCollection

    lines = [np.vstack([r, r[:1]]) for r in drawn.rings] if drawn.bands is None else edges(drawn.bands)
    axes.add_collection(LineCollection(lines, colors=_EDGE, linewidths=0.8, zorder=3))
    if drawn.walls is not None and drawn.bands is not None:
        draw_joints(axes, drawn.walls)
        draw_weak_zones(axes, drawn.walls, drawn.bands)


def _finish(figure: Any, axes: Any, frame: _Frame, heading: Heading, notes: str) -> None:
    axes.set_xlim(*frame.window[:, 0])
    axes.set_ylim(*frame.window[:, 1])
    axes.set_xlabel("y, mm", fontsize=9)
    axes.set_ylabel("z, mm", fontsize=9)
    axes.tick_params(labelsize=8)
    axes.spines[["top", "right"]].set_visible(False)
    width, height = frame.size
    up = height - 0.08
    for text, bold in heading:
        for line in textwrap.wrap(text, frame.columns):
            weight = "bold" if bold else "normal"
            figure.text(
                0.12 / width, up / height, line, fontsize=10.5 if bold else 8.5, fontweight=weight, va="top"
            )
            up -= _LINE * 1.15
    for k, line in enumerate(reversed(textwrap.wrap(notes, frame.columns) if notes else [])):
        figure.text(0.12 / width, (0.06 + _LINE * k) / height, line, fontsize=8, color="0.35", va="bottom")
    figure.legend(
        loc="lower center",
        bbox_to_anchor=(0.5, (0.05 + _LINE * frame.note_lines) / height),
        ncols=frame.legend_columns,
        fontsize=8,
        frameon=False,
    )
