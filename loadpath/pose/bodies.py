"""Which parts move as one, which only turn or slide against the body, and which are mere rods.

Parts that their joints hold together in all six movements are one body; the first body is the ground, with the
vehicle's body in it. A rod is a part between two balls: to the others it is a distance, and its idle spin about
its own line is left out (it follows by the smallest turn).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Model
from loadpath.pose.ties import GROUND, Piece, Tie, between, null_twist, rank_of

Array = NDArray[np.float64]

_SAME_PLACE = 1e-6


@dataclass(frozen=True, eq=False)
class Rod:
    """A part between two balls. pieces : at its two ends. points : names there. ties : names of its two joints."""

    piece: Piece
    pieces: tuple[Piece, Piece]
    points: tuple[str, str]
    ties: tuple[str, str]


@dataclass(frozen=True, eq=False)
class Bodies:
    """What moves as one.

    Attributes
    ----------
    groups : pieces of each body; the first is the ground. rods : mere distances.
    freedom : (6, k) for each body: twists about the origin that it may have against the ground, moments' lengths
        in mm: all six, or the one that its joints to the ground leave.
    ties : those between different bodies that `freedom` does not already obey.
    """

    groups: tuple[frozenset[Piece], ...]
    rods: tuple[Rod, ...]
    freedom: tuple[Array, ...]
    ties: tuple[Tie, ...]

    def body_of(self, piece: Piece) -> int:
        """Number of the body that a piece belongs to; -1 for a rod."""
        return next((k for k, g in enumerate(self.groups) if piece in g), -1)


def make_bodies(
    model: Model, ties: Sequence[Tie], pieces: Sequence[Piece], origin: Array, length: float
) -> Bodies:
    """Rods, merged bodies and their freedoms.

    origin : (3,) about which twists are told. length : [mm] by which rotations are weighed.
    """
    rods = _rods(model, ties, pieces)
    loose = {r.piece for r in rods}
    kept = [t for t in ties if not loose & set(t.pieces)]
    groups = _merged([{p} for p in (GROUND, *pieces) if p not in loose], kept, origin, length)
    ground = groups[0]
    freedom: list[Array] = [np.zeros((6, 0))]
    absorbed: set[int] = set()
    for group in groups[1:]:
        own = between(kept, group, ground)
        twist = _only_twist(own, origin, length)
        freedom.append(np.eye(6) if twist is None else twist[:, None])
        if twist is not None:
            absorbed |= {id(t) for t in own}
    number = {p: k for k, g in enumerate(groups) for p in g}
    rest = [t for t in kept if id(t) not in absorbed and len({number.get(p, 0) for p in t.pieces}) > 1]
    return Bodies(tuple(frozenset(g) for g in groups), tuple(rods), tuple(freedom), tuple(rest))


def _rods(model: Model, ties: Sequence[Tie], pieces: Sequence[Piece]) -> list[Rod]:
    carriers = {w.part for w in model.wheels.values()}
    split = {p.name for p in model.parts.values() if p.split is not None}
    racks = {p for t in ties if t.rack for p in t.pieces}
    own: dict[Piece, list[Tie]] = {}
    for tie in ties:
        for piece in tie.pieces:
            own.setdefault(piece, []).append(tie)
    found: dict[Piece, Rod] = {}
    for piece in pieces:
        mine = own.get(piece, [])
        if piece.part in carriers or piece.part in split or piece in racks or len(mine) != 2:
            continue
        ends = [t.pieces[1] if t.pieces[0] == piece else t.pieces[0] for t in mine]
        apart = np.linalg.norm(mine[1].at - mine[0].at) > _SAME_PLACE
        if apart and all(t.kind == "ball" for t in mine) and not any(e in found for e in ends):
            points = tuple(model.joints[t.name].point for t in mine)
            found[piece] = Rod(
                piece, (ends[0], ends[1]), (points[0], points[1]), (mine[0].name, mine[1].name)
            )
    return list(found.values())


def _merged(groups: list[set[Piece]], ties: Sequence[Tie], origin: Array, length: float) -> list[set[Piece]]:
    """Groups joined as long as the ties between any two hold all six movements; the ground's comes first."""
    merging = True
    while merging:
        merging = False
        number = {p: k for k, g in enumerate(groups) for p in g}
        pairs: dict[tuple[int, int], list[Tie]] = {}
        for tie in ties:
            a, b = sorted(number[p] for p in tie.pieces)
            if a != b:
                pairs.setdefault((a, b), []).append(tie)
        for (a, b), own in pairs.items():
            rows = np.concatenate([t.rows(origin, length) for t in own])
            if len(rows) >= 6 and rank_of(rows) == 6:
                groups[a] |= groups.pop(b)
                merging = True
                break
    return groups


def _only_twist(ties: Sequence[Tie], origin: Array, length: float) -> Array | None:
    """(6,) the turn about a line or the slide that ties to the ground leave, of 1 rad or 1 mm; else None."""
    if not ties:
        return None
    twist = null_twist(np.concatenate([t.rows(origin, length) for t in ties]))
    if twist is None:
        return None
    push, turn = twist[:3] * length, twist[3:]
    size = float(np.linalg.norm(turn))
    if size < 1e-9:
        return np.concatenate([push / np.linalg.norm(push), np.zeros(3)])
    if abs(push @ turn) > 1e-9 * length * size:
        return None
    return np.concatenate([push, turn]) / size
