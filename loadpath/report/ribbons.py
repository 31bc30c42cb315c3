"""A picture of boxes in columns and ribbons between them, as wide as what they carry."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from loadpath.report.layout import Box, Layout, Piece, Ribbon, lay_out

THINNEST = 0.6
BOX, STEP = 9.0, 205.0
_STRAIGHT, _PLAIN, _ARRIVE = 0.48, 0.08, 0.9
_TONES = {True: 0.25, False: 0.8}
_MAP = "cividis"


@dataclass(frozen=True)
class Words:
    """Title, the line under it, and what the two tones mean."""

    title: str
    under: str
    along: str
    against: str


def draw_ribbons(
    boxes: Sequence[Box], ribbons: Sequence[Ribbon], words: Words, path: Path, step: float = STEP
) -> None:
    """Draw boxes and ribbons to a file, ".png" or ".svg", with columns `step` apart."""
    from matplotlib.figure import Figure

    layout = lay_out(boxes, ribbons, step)
    columns = max(box.column for box in boxes) + 1
    low = min(layout.top[k] - layout.height[k] for k in layout.top)
    high = max(layout.top.values())
    wide, tall = max((columns - 1) * step + 150.0, 560.0), high - low + 110.0
    figure = Figure(figsize=(wide / 72, tall / 72), dpi=130)
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set_axis_off()
    axes.set_xlim(-20.0, wide - 20.0)
    axes.set_ylim(low - 42.0, high + 68.0)
    for piece in layout.pieces:
        _draw_piece(axes, layout, piece)
    for box in boxes:
        _draw_box(axes, layout, box)
    axes.text(0.0, high + 56.0, words.title, fontsize=12, va="center")
    axes.text(0.0, high + 40.0, words.under, fontsize=8.5, va="center", color="0.3")
    _draw_key(axes, words, low - 28.0)
    figure.savefig(path)


def _draw_piece(axes: Any, layout: Layout, piece: Piece) -> None:
    from matplotlib import colormaps
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path as Curve

    boxes = layout.boxes
    start = boxes[piece.source].column * layout.step + BOX
    end = boxes[piece.target].column * layout.step + (0.0 if boxes[piece.target].label else BOX)
    half = max(abs(piece.ribbon.value) * layout.unit, THINNEST) / 2
    (a, b), tone = piece.y, colormaps[_MAP](_TONES[piece.ribbon.along])
    straight = _STRAIGHT if piece.first and piece.ribbon.label else _PLAIN
    p, q = start + straight * (end - start), start + _ARRIVE * (end - start)
    m = (p + q) / 2
    there = [(start, a), (p, a), (m, a), (m, b), (q, b), (end, b)]
    outline = [(x, y + half) for x, y in there] + [(x, y - half) for x, y in reversed(there)]
    line, curve = Curve.LINETO, Curve.CURVE4
    codes = [Curve.MOVETO, line, curve, curve, curve, line, line, line, curve, curve, curve, line]
    axes.add_patch(PathPatch(Curve(outline, codes), facecolor=tone, edgecolor="none", alpha=0.72))
    if piece.first and piece.ribbon.label:
        plain = {"boxstyle": "square,pad=0.12", "facecolor": "white", "edgecolor": "none", "alpha": 0.78}
        axes.text(start + 4.0, a, piece.ribbon.label, fontsize=6.6, va="center", ha="left", bbox=plain)


def _draw_box(axes: Any, layout: Layout, box: Box) -> None:
    from matplotlib.patches import Rectangle

    x, y, high = box.column * layout.step, layout.top[box.key], layout.height[box.key]
    axes.add_patch(Rectangle((x, y - high), BOX, high, facecolor="0.25", edgecolor="none"))
    axes.text(x, y + 3.0, box.label, fontsize=7.6, va="bottom", ha="left", linespacing=1.1)


def _draw_key(axes: Any, words: Words, y: float) -> None:
    from matplotlib import colormaps
    from matplotlib.patches import Rectangle

    for n, (along, text) in enumerate(((True, words.along), (False, words.against))):
        x = 300.0 * n
        axes.add_patch(
            Rectangle((x, y - 4.0), 22.0, 8.0, facecolor=colormaps[_MAP](_TONES[along]), alpha=0.72)
        )
        axes.text(x + 28.0, y, text, fontsize=8.5, va="center")
