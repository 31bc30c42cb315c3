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

_CROOKED = np.radians(30.0)
"""Net turn up to which an arc is a flat that is not quite even."""

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
    it. Where nothing follows, or a row of holes, it is free. A lip holds
    the edge of the flat beside it unless it is shorter than a fifth of that flat. Short walls of about one length
    with small turns between them are an arc; the bend of a fold is one too.
    """
    ends, tied = _walls_at(midline), _tied(midline)
    parts = []
    for walls in _chains(midline):
        path = _path(midline, walls)
        free = tuple(len(ends[node]) == 1 and node not in tied for node in (path[0], path[-1]))
        parts.append(_part(midline, walls, path, free))
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
    """Walls that make one flat or one arc, in order."""
    links = _links(midline)
    seen: set[int] = set()
    chains = []
    for first in sorted(range(len(midline.ends)), key=lambda wall: len(links[wall])):
        if first in seen:
            continue
        chain, arc = [first], False
        seen.add(first)
        while True:
            ahead = [
                (w, kind) for w, kind in links[chain[-1]] if w not in seen and (len(chain) < 2 or kind == arc)
            ]
            if not ahead:
                break
            wall, arc = ahead[0]
            seen.add(wall)
            chain.append(wall)
        chains.append(chain)
    return chains


def _links(midline: Midline) -> list[list[tuple[int, bool]]]:
    """For each wall those that run on from it in one flat (False) or one arc (True)."""
    run = midline.stop - midline.start
    length, tied = midline.length, set(midline.seams.reshape(-1).tolist())
    links: list[list[tuple[int, bool]]] = [[] for _ in midline.ends]
    kinds: dict[int, set[bool]] = {}
    for node, walls in enumerate(_walls_at(midline)):
        if len(walls) != 2 or node in tied:
            continue
        a, b = walls
        sense = -1.0 if (midline.ends[a, 0] == node) == (midline.ends[b, 0] == node) else 1.0
        cross = run[a, 0] * run[b, 1] - run[a, 1] * run[b, 0]
        turn = abs(float(np.arctan2(sense * cross, sense * run[a] @ run[b])))
        alike = length[a] < 2 * length[b] and length[b] < 2 * length[a]
        if turn < CREASE or (turn < _CHORD and alike):
            arc = turn >= CREASE
            links[a].append((b, arc))
            links[b].append((a, arc))
            kinds.setdefault(a, set()).add(arc)
            kinds.setdefault(b, set()).add(arc)
    # A wall that runs straight on at one end and bends at the other belongs to the flat.
    mixed = {wall for wall, found in kinds.items() if len(found) > 1}
    return [
        [(other, arc) for other, arc in own if not (arc and (wall in mixed or other in mixed))]
        for wall, own in enumerate(links)
    ]


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


def _part(midline: Midline, walls: Sequence[int], path: tuple[int, ...], free: tuple[bool, ...]) -> PlatePart:
    steps = np.diff(midline.nodes[list(path)], axis=0)
    ahead, before = steps[1:], steps[:-1]
    cross = before[:, 0] * ahead[:, 1] - before[:, 1] * ahead[:, 0]
    # Half a chord's turn belongs to each end.
    share = len(steps) / max(len(steps) - 1, 1)
    turn = abs(float(np.arctan2(cross, (before * ahead).sum(axis=1)).sum())) * share
    width = float(midline.length[list(walls)].sum())
    curved = turn > _CROOKED and not any(free)
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
