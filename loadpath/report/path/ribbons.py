"""A picture of boxes in columns and ribbons between them, as wide as what they carry."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from loadpath.report.path.layout import Box, Layout, Piece, Ribbon, lay_out

THINNEST = 0.6
BOX, STEP = 9.0, 205.0
MARGIN, ABOVE, BELOW, KEY = 20.0, 76.0, 50.0, 240.0
LETTER = 4.6
"""Mean width of a letter of a box's label [pt]."""
_PLAIN, _ARRIVE = 14.0, 18.0
_TONES = {True: 0.25, False: 0.8}
_MAP = "cividis"


@dataclass(frozen=True)
class Words:
    """Title, the line under it, and what the two tones mean."""

    title: str
    under: str
    along: str
    against: str


@dataclass(frozen=True)
class Panel:
    """One picture of several: boxes in columns `step` apart, ribbons between them, and its words."""

    boxes: Sequence[Box]
    ribbons: Sequence[Ribbon]
    words: Words
    step: float = STEP


def draw_ribbons(panels: Sequence[Panel], path: Path, across: bool = False) -> None:
    """Draw panels to a file, ".png" or ".svg", one below the other or across; widths compare between them."""
    from matplotlib.figure import Figure

    largest = max((abs(r.value) for panel in panels for r in panel.ribbons), default=0.0)
    layouts = [lay_out(panel.boxes, panel.ribbons, panel.step, largest) for panel in panels]
    sizes = [_size(*both) for both in zip(panels, layouts, strict=True)]
    wide, tall = zip(*sizes, strict=True)
    whole = (sum(wide), max(tall)) if across else (max(wide), sum(tall))
    figure = Figure(figsize=(whole[0] / 72, whole[1] / 72), dpi=130)
    x, y = 0.0, whole[1]
    for panel, layout, (w, h) in zip(panels, layouts, sizes, strict=True):
        axes = figure.add_axes((x / whole[0], (y - h) / whole[1], w / whole[0], h / whole[1]))
        _draw_panel(axes, panel, layout, w)
        x, y = (x + w, y) if across else (x, y - h)
    figure.savefig(path)


def _size(panel: Panel, layout: Layout) -> tuple[float, float]:
    """Width and height [pt] that a panel needs, titles and labels included."""
    last = max(box.column for box in panel.boxes)
    labels = [len(line) for box in panel.boxes if box.column == last for line in box.label.split("\n")]
    drawn = last * panel.step + max(labels) * LETTER
    told = max(len(panel.words.title) * 1.55, len(panel.words.under) * 1.1) * LETTER
    low, high = _span(layout)
    return max(drawn, told, 2 * KEY) + 2 * MARGIN, high - low + ABOVE + BELOW


def _span(layout: Layout) -> tuple[float, float]:
    return min(layout.top[k] - layout.height[k] for k in layout.top), max(layout.top.values())


def _draw_panel(axes: Any, panel: Panel, layout: Layout, wide: float) -> None:
    low, high = _span(layout)
    axes.set_axis_off()
    axes.set_xlim(-MARGIN, wide - MARGIN)
    axes.set_ylim(low - BELOW, high + ABOVE)
    for piece in layout.pieces:
        _draw_piece(axes, layout, piece)
    for box in panel.boxes:
        _draw_box(axes, layout, box)
    axes.text(0.0, high + 56.0, panel.words.title, fontsize=12, va="center")
    axes.text(0.0, high + 40.0, panel.words.under, fontsize=8.5, va="center", color="0.3")
    _draw_key(axes, panel.words, low - 28.0)


def _draw_piece(axes: Any, layout: Layout, piece: Piece) -> None:
    from matplotlib import colormaps
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path as Curve

    boxes = layout.boxes
    start = boxes[piece.source].column * layout.step + BOX
    end = boxes[piece.target].column * layout.step + (0.0 if boxes[piece.target].label else BOX)
    half = max(abs(piece.ribbon.value) * layout.unit, THINNEST) / 2
    (a, b), tone = piece.y, colormaps[_MAP](_TONES[piece.ribbon.along])
    label = piece.ribbon.label if piece.first else ""
    p, q = start + _PLAIN + len(label) * LETTER, end - _ARRIVE
    m = (p + q) / 2
    there = [(start, a), (p, a), (m, a), (m, b), (q, b), (end, b)]
    outline = [(x, y + half) for x, y in there] + [(x, y - half) for x, y in reversed(there)]
    line, curve = Curve.LINETO, Curve.CURVE4
    codes = [Curve.MOVETO, line, curve, curve, curve, line, line, line, curve, curve, curve, line]
    axes.add_patch(PathPatch(Curve(outline, codes), facecolor=tone, edgecolor="none", alpha=0.72))
    if label:
        plain = {"boxstyle": "square,pad=0.12", "facecolor": "white", "edgecolor": "none", "alpha": 0.78}
        axes.text(start + 4.0, a, label, fontsize=6.6, va="center", ha="left", bbox=plain)


def _draw_box(axes: Any, layout: Layout, box: Box) -> None:
    from matplotlib.patches import Rectangle

    x, y, high = box.column * layout.step, layout.top[box.key], layout.height[box.key]
    axes.add_patch(Rectangle((x, y - high), BOX, high, facecolor="0.25", edgecolor="none"))
    axes.text(x, y + 3.0, box.label, fontsize=7.6, va="bottom", ha="left", linespacing=1.1)


def _draw_key(axes: Any, words: Words, y: float) -> None:
    from matplotlib import colormaps
    from matplotlib.patches import Rectangle

    for n, (along, text) in enumerate(((True, words.along), (False, words.against))):
        x = KEY * n
        axes.add_patch(
            Rectangle((x, y - 4.0), 22.0, 8.0, facecolor=colormaps[_MAP](_TONES[along]), alpha=0.72)
        )
        axes.text(x + 28.0, y, text, fontsize=8.5, va="center")
