"""Which walls of a section are plates: flat parts net of radii, how their edges are held, and curved parts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from sections.midline import Array, Midline

CREASE = np.radians(4.0)
"""Turn up to which two walls are one flat, as in a trace: a crease holds nothing (common practice, no source)."""
_CHORD = np.radians(31.0)
"""Turn up to which two walls of about one length are chords of an arc."""
LEAST_LIP = 0.2
"""A lip shorter than this part of the flat beside it does not hold that flat's edge (EN 1993-1-3, 5.2 (5), from
memory)."""

_BEND, _EVEN = np.radians(30.0), np.radians(1.0)
"""Walls that turn on to one side by more than the first are a bend; turns under the second are none."""

_Ends = list[list[int]]


@dataclass(frozen=True, eq=False)
class PlatePart:
    """One flat or curved part.

    Attributes
    ----------
    kind : "internal" with both edges held, "outstand" with one free, or "curved", an arc with both held.
    start, stop : (2,) its ends [mm]; of an outstand the held edge comes first.
    width : length along it, of a flat net of the bends beside it [mm]. thickness : the least of its walls [mm].
    radius : of an arc's mid-line [mm]; 0 for a flat.
    walls : numbers of its walls, in order from start to stop. path : of their nodes.
    lip : whether an outstand narrower than the part holds one of its edges: distortional buckling may go before.
    """

    kind: Literal["internal", "outstand", "curved"]
    start: Array
    stop: Array
    width: float
    thickness: float
    radius: float
    walls: tuple[int, ...]
    path: tuple[int, ...]
    lip: bool = False

    @property
    def slender(self) -> float:
        """Width over thickness."""
        return self.width / self.thickness

    @property
    def round_slender(self) -> float:
        """Outside diameter of an arc over thickness."""
        return 2 * self.radius / self.thickness + 1

    @property
    def ends(self) -> tuple[int, int]:
        """Nodes of its start and stop."""
        return self.path[0], self.path[-1]

    def turned(self) -> PlatePart:
        """The same from its stop to its start."""
        return replace(self, start=self.stop, stop=self.start, walls=self.walls[::-1], path=self.path[::-1])

    @property
    def middle(self) -> Array:
        """(2,) middle between its ends [mm]."""
        return (self.start + self.stop) / 2


def plate_parts(midline: Midline) -> tuple[PlatePart, ...]:
    """Flat and curved parts of thin walls.

    A flat runs straight on through joints of two walls; it ends at bends, branches and weld lines (seams), which hold
    it. Where nothing follows, or a row of holes, it is free. A lip holds the edge of the flat beside it unless it is
    shorter than a fifth of that flat. Walls of about one length with small turns between them are one flat where
    those come to nothing, as in a trace, and a bend or an arc where they add up to more than 30 degrees.
    """
    ends, tied = _walls_at(midline), _tied(midline)
    parts = []
    for walls, arc in (piece for chain in _chains(midline) for piece in _pieces(midline, chain)):
        path = _path(midline, walls)
        free = tuple(len(ends[node]) == 1 and node not in tied for node in (path[0], path[-1]))
        parts.append(_part(midline, walls, path, free, arc))
    return tuple(_held(parts, tied, k) for k in range(len(parts)))


def _walls_at(midline: Midline) -> _Ends:
    meeting: _Ends = [[] for _ in midline.nodes]
    for wall, (a, b) in enumerate(midline.ends.tolist()):
        meeting[a].append(wall)
        meeting[b].append(wall)
    return meeting


def _tied(midline: Midline) -> set[int]:
    """Nodes that a weld holds. A seam that runs on between the ends of two walls stands for a row of holes, which
    leaves both edges free."""
    meeting, held = _walls_at(midline), set[int]()
    for pair in midline.seams.tolist():
        gap = midline.nodes[pair[1]] - midline.nodes[pair[0]]
        walls = [meeting[node] for node in pair]
        runs = [midline.stop[w[0]] - midline.start[w[0]] for w in walls if len(w) == 1]
        along = [
            abs(run[0] * gap[1] - run[1] * gap[0]) < 1e-6 * np.hypot(*run) * np.hypot(*gap) for run in runs
        ]
        if not (len(along) == 2 and all(along)):
            held.update(pair)
    return held


def _chains(midline: Midline) -> list[list[int]]:
    """Walls that run on from each other with small turns, in order."""
    links = _links(midline)
    seen: set[int] = set()
    chains = []
    for first in sorted(range(len(midline.ends)), key=lambda wall: len(links[wall])):
        if first in seen:
            continue
        chain = [first]
        seen.add(first)
        while ahead := [wall for wall in links[chain[-1]] if wall not in seen]:
            chain.append(ahead[0])
            seen.add(ahead[0])
        chains.append(chain)
    return chains


def _links(midline: Midline) -> list[list[int]]:
    """For each wall those that run on from it."""
    run = midline.stop - midline.start
    length, tied = midline.length, set(midline.seams.reshape(-1).tolist())
    links: list[list[int]] = [[] for _ in midline.ends]
    for node, walls in enumerate(_walls_at(midline)):
        if len(walls) != 2 or node in tied:
            continue
        a, b = walls
        sense = -1.0 if (midline.ends[a, 0] == node) == (midline.ends[b, 0] == node) else 1.0
        cross = run[a, 0] * run[b, 1] - run[a, 1] * run[b, 0]
        turn = abs(float(np.arctan2(sense * cross, sense * run[a] @ run[b])))
        alike = length[a] < 2 * length[b] and length[b] < 2 * length[a]
        if turn < CREASE or (turn < _CHORD and alike):
            links[a].append(b)
            links[b].append(a)
    return links


def _pieces(midline: Midline, chain: list[int]) -> list[tuple[list[int], bool]]:
    """A chain cut into flats (False) and bends or arcs (True)."""
    path = _path(midline, chain)
    turns = _turns(midline, path)
    closed = len(chain) > 2 and path[0] == path[-1]
    if closed:
        closing = _turns(midline, (path[-2], path[0], path[1]))
        sides = np.append(turns, closing)
        even = np.flatnonzero((np.abs(sides) < _EVEN) | (np.sign(sides) != np.sign(np.roll(sides, -1))))
        if not len(even):
            return [(chain, True)]
        first = (int(even[0]) + 1) % len(chain)
        chain = chain[first:] + chain[:first]
        turns = np.roll(sides, -first)[:-1]
    side = np.where(np.abs(turns) < _EVEN, 0.0, np.sign(turns))
    groups = np.split(np.arange(len(turns)), np.flatnonzero(np.diff(side)) + 1) if len(turns) else []
    bends = [g for g in groups if side[g[0]] != 0 and abs(turns[g].sum()) > _BEND]
    if len(bends) == 1 and len(bends[0]) == len(turns):
        return [(chain, True)]
    pieces: list[tuple[list[int], bool]] = []
    start = 0
    for joints in bends:
        # Joint k is between walls k and k + 1: the walls beside the outer joints are flats.
        low, high = int(joints[0]) + 1, int(joints[-1]) + 1
        pieces += [(chain[start:low], False), (chain[low:high], True)]
        start = high
    if closed and pieces:  # The flat in which the chain was cut open.
        pieces[0] = chain[start:] + pieces[0][0], False
    else:
        pieces.append((chain[start:], False))
    return [(walls, arc) for walls, arc in pieces if walls]


def _turns(midline: Midline, path: Sequence[int]) -> Array:
    """(k,) signed turn [rad] at each inner node of a path."""
    steps = np.diff(midline.nodes[list(path)], axis=0)
    ahead, before = steps[1:], steps[:-1]
    cross = before[:, 0] * ahead[:, 1] - before[:, 1] * ahead[:, 0]
    return np.asarray(np.arctan2(cross, (before * ahead).sum(axis=1)))


def _path(midline: Midline, walls: Sequence[int]) -> tuple[int, ...]:
    """Nodes along a chain of walls."""
    pairs = [tuple(midline.ends[wall].tolist()) for wall in walls]
    if len(pairs) == 1:
        return pairs[0]
    first = pairs[0] if pairs[0][1] in pairs[1] else pairs[0][::-1]
    path = list(first)
    for a, b in pairs[1:]:
        path.append(b if a == path[-1] else a)
    return tuple(path)


def _part(
    midline: Midline, walls: Sequence[int], path: tuple[int, ...], free: tuple[bool, ...], arc: bool
) -> PlatePart:
    width = float(midline.length[list(walls)].sum())
    # Half a chord's turn belongs to each end.
    turn = abs(float(_turns(midline, path).sum())) * len(walls) / max(len(walls) - 1, 1)
    curved = arc and turn > 0 and not any(free)
    part = PlatePart(
        kind="curved" if curved else "outstand" if any(free) else "internal",
        start=midline.nodes[path[0]],
        stop=midline.nodes[path[-1]],
        width=width,
        thickness=float(midline.thickness[list(walls)].min()),
        radius=width / turn if curved else 0.0,
        walls=tuple(walls),
        path=path,
    )
    return part.turned() if free == (True, False) else part


def _held(parts: Sequence[PlatePart], tied: set[int], k: int) -> PlatePart:
    """An internal part whose edge a lip holds, or fails to hold."""
    part = parts[k]
    if part.kind != "internal":
        return part
    lips = [_lip_beside(parts, tied, k, node) for node in part.ends]
    weak = [lip is not None and lip.width < LEAST_LIP * part.width for lip in lips]
    if any(weak):
        return replace(part.turned() if weak[0] else part, kind="outstand")
    return replace(part, lip=any(lip is not None and lip.width < part.width for lip in lips))


def _lip_beside(parts: Sequence[PlatePart], tied: set[int], k: int, node: int) -> PlatePart | None:
    """The outstand that alone follows part k at one of its nodes, across a bend or a sharp corner."""
    for _ in range(2):
        if node in tied:
            return None
        beside = [other for other, part in enumerate(parts) if other != k and node in part.ends]
        if len(beside) != 1 or parts[beside[0]].kind != "curved":
            break
        k = beside[0]
        first, last = parts[k].ends
        node = last if node == first else first
    return parts[beside[0]] if len(beside) == 1 and parts[beside[0]].kind == "outstand" else None
