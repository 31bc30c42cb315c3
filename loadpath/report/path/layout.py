"""Where boxes and ribbons go in a picture, so that nothing lies on a label.

All lengths are points (1/72 inch). A ribbon is as wide as its value; its ends have slots of their own at the
boxes, high enough for a label, and run straight there, so that only the space between labels is crossed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

WIDEST = 46.0
LABELLED, SPACE, PASSING, GAP = 10.0, 2.5, 2.0, 28.0


@dataclass(frozen=True)
class Box:
    """A box in a column, counted from the left; `label` stands above it."""

    key: str
    column: int
    label: str


@dataclass(frozen=True)
class Ribbon:
    """A ribbon between two boxes; `along` tells the two tones apart; `label` stands on its left end."""

    source: str
    target: str
    value: float
    along: bool
    label: str = ""


@dataclass
class Piece:
    """A ribbon's way from one column to the next; `y` of its two ends."""

    ribbon: Ribbon
    source: str
    target: str
    first: bool
    y: list[float]


@dataclass(frozen=True)
class Layout:
    """Boxes with those that ribbons pass through, by key: top and height; pieces; width of a unit; column step."""

    boxes: Mapping[str, Box]
    top: Mapping[str, float]
    height: Mapping[str, float]
    pieces: Sequence[Piece]
    unit: float
    step: float


def lay_out(boxes: Sequence[Box], ribbons: Sequence[Ribbon], step: float, largest: float) -> Layout:
    """Places of all boxes and ribbons; a ribbon that skips a column has a place of its own there.

    largest : the value that is drawn widest.
    """
    unit = WIDEST / (largest or 1.0)
    known = {box.key: box for box in boxes}
    pieces: list[Piece] = []
    for k, ribbon in enumerate(ribbons):
        start, end = known[ribbon.source].column, known[ribbon.target].column
        stops = [ribbon.source, *(f"pass {k} {c}" for c in range(start + 1, end)), ribbon.target]
        for c, stop in enumerate(stops[1:-1], start + 1):
            known[stop] = Box(stop, c, "")
        for n, (a, b) in enumerate(pairwise(stops)):
            pieces.append(Piece(ribbon, a, b, n == 0, [0.0, 0.0]))
    order = _ordered(known, pieces)
    height = {key: _height(key, pieces, unit) for key in known}
    top: dict[str, float] = {}
    for keys in order:
        whole = sum(height[k] for k in keys) + GAP * (len(keys) - 1)
        at = whole / 2
        for key in keys:
            top[key] = at
            at -= height[key] + GAP
    _give_slots(pieces, top, height, unit)
    return Layout(known, top, height, pieces, unit, step)


def _ordered(known: Mapping[str, Box], pieces: Sequence[Piece]) -> list[list[str]]:
    """Keys of each column from top to bottom, so that ribbons cross little: by the mean place of neighbours.

    Wide ribbons count for more. Columns keep the given order where the means are the same.
    """
    columns = [
        [k for k, b in known.items() if b.column == c]
        for c in range(max(b.column for b in known.values()) + 1)
    ]
    near: dict[str, list[tuple[str, float]]] = {key: [] for key in known}
    for piece in pieces:
        near[piece.source].append((piece.target, abs(piece.ribbon.value)))
        near[piece.target].append((piece.source, abs(piece.ribbon.value)))
    for sweep in range(8):
        for c in range(len(columns)) if sweep % 2 == 0 else reversed(range(len(columns))):
            place = {k: (n + 0.5) / len(keys) for keys in columns for n, k in enumerate(keys)}
            means = {k: _mean([(place[o], w) for o, w in near[k]], place[k]) for k in columns[c]}
            columns[c] = sorted(columns[c], key=means.__getitem__)
    return columns


def _mean(places: Sequence[tuple[float, float]], otherwise: float) -> float:
    weight = sum(w for _, w in places)
    return sum(p * w for p, w in places) / weight if weight > 0 else otherwise


def _slot(piece: Piece, unit: float, end: int) -> float:
    """Height that one end of a piece needs at its box."""
    width = abs(piece.ribbon.value) * unit
    own = piece.first and end == 0 and piece.ribbon.label
    return max(width, LABELLED if own else PASSING) + SPACE


def _height(key: str, pieces: Sequence[Piece], unit: float) -> float:
    out = sum(_slot(p, unit, 0) for p in pieces if p.source == key)
    into = sum(_slot(p, unit, 1) for p in pieces if p.target == key)
    return max(out, into, LABELLED)


def _give_slots(
    pieces: Sequence[Piece], top: Mapping[str, float], height: Mapping[str, float], unit: float
) -> None:
    """Slots of each box in the order of what lies at the other ends, in the middle of the box's height."""
    middle = {key: top[key] - height[key] / 2 for key in top}
    for key in top:
        for end in (0, 1):
            own = [p for p in pieces if (p.source, p.target)[end] == key]
            own.sort(key=lambda p: -middle[(p.target, p.source)[end]])
            at = middle[key] + sum(_slot(p, unit, end) for p in own) / 2
            for piece in own:
                high = _slot(piece, unit, end)
                piece.y[end] = at - high / 2
                at -= high
