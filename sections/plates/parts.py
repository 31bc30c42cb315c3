"""Which walls of a section are plates: flat parts net of radii, how their edges are held, and curved parts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

import numpy as np

from sections.midline import Array, IntArray, Midline

STRAIGHT = 1e-6
"""Turn [rad] up to which two walls are one flat."""
_CHORD = np.radians(31.0)
"""Turn up to which two walls of about one length are chords of an arc."""
LEAST_LIP = 0.2
"""A lip shorter than this part of the flat beside it does not hold that flat's edge (EN 1993-1-3, 5.2 (5), from
memory)."""

_Ends = list[list[int]]


@dataclass(frozen=True, eq=False)
class PlatePart:
    """One flat or curved part.

    Attributes
    ----------
    kind : "internal" with both edges held, "outstand" with one free, or "curved", an arc.
    start, stop : (2,) its ends [mm]; of an outstand the held edge comes first.
    width : length along it, of a flat net of the bends beside it [mm]. thickness : [mm].
    radius : of an arc's mid-line [mm]; 0 for a flat.
    walls : numbers of its walls, in order. nodes : of its start and stop.
    lip : whether an outstand narrower than the part holds one of its edges: distortional buckling may go before.
    """

    kind: Literal["internal", "outstand", "curved"]
    start: Array
    stop: Array
    width: float
    thickness: float
    radius: float
    walls: tuple[int, ...]
    nodes: tuple[int, int]
    lip: bool = False

    @property
    def slender(self) -> float:
        """Width over thickness, of an arc outside diameter over thickness."""
        return (2 * self.radius / self.thickness + 1) if self.radius else self.width / self.thickness

    @property
    def middle(self) -> Array:
        """(2,) middle between its ends [mm]."""
        return (self.start + self.stop) / 2


def plate_parts(midline: Midline) -> tuple[PlatePart, ...]:
    """Flat and curved parts of thin walls.

    A flat runs straight on through joints of two walls of one thickness; it ends at bends, branches, changes of
    thickness and weld lines (seams), which hold it. Where nothing follows, or a row of holes, it is free. A lip holds
    the edge of the flat beside it unless it is shorter than a fifth of that flat. Short walls of about one length
    with small turns between them are an arc; the bend of a fold is one too.
    """
    chains = _chains(midline)
    ends = _walls_at(midline)
    tied = _tied(midline)
    free = [
        [len(ends[node]) == 1 and node not in tied for node in _outer(midline, chain)] for chain in chains
    ]
    parts = [_part(midline, chain, loose) for chain, loose in zip(chains, free, strict=True)]
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


def _chains(midline: Midline) -> list[tuple[list[int], bool]]:
    """Walls that make one flat or one arc, in order, and whether it is an arc."""
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
        chains.append((chain, arc))
    return chains


def _links(midline: Midline) -> list[list[tuple[int, bool]]]:
    """For each wall those that run on from it in one flat (False) or one arc (True)."""
    run = midline.stop - midline.start
    length, tied = midline.length, set(midline.seams.reshape(-1).tolist())
    links: list[list[tuple[int, bool]]] = [[] for _ in midline.ends]
    kinds: dict[int, set[bool]] = {}
    for node, walls in enumerate(_walls_at(midline)):
        if len(walls) != 2 or node in tied or midline.thickness[walls[0]] != midline.thickness[walls[1]]:
            continue
        a, b = walls
        sense = -1.0 if (midline.ends[a, 0] == node) == (midline.ends[b, 0] == node) else 1.0
        cross = run[a, 0] * run[b, 1] - run[a, 1] * run[b, 0]
        turn = abs(float(np.arctan2(sense * cross, sense * run[a] @ run[b])))
        alike = length[a] < 2 * length[b] and length[b] < 2 * length[a]
        if turn < STRAIGHT or (turn < _CHORD and alike):
            arc = turn >= STRAIGHT
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


def _outer(midline: Midline, chain: tuple[list[int], bool]) -> tuple[int, int]:
    """Nodes at the two ends of a chain."""
    walls, _ = chain
    pairs = [set(midline.ends[wall].tolist()) for wall in walls]
    if len(pairs) == 1:
        first, last = midline.ends[walls[0]].tolist()
        return first, last
    first = (pairs[0] - pairs[1]) or pairs[0]
    last = (pairs[-1] - pairs[-2]) or pairs[-1]
    return min(first), min(last)


def _part(midline: Midline, chain: tuple[list[int], bool], loose: Sequence[bool]) -> PlatePart:
    walls, arc = chain
    first, last = _outer(midline, chain)
    if loose[0] and not loose[1] and not arc:
        first, last = last, first
    width = float(midline.length[walls].sum())
    return PlatePart(
        kind="curved" if arc else "outstand" if any(loose) else "internal",
        start=midline.nodes[first],
        stop=midline.nodes[last],
        width=width,
        thickness=float(midline.thickness[walls[0]]),
        radius=width / _turning(midline, walls) if arc else 0.0,
        walls=tuple(walls),
        nodes=(first, last),
    )


def _turning(midline: Midline, walls: Sequence[int]) -> float:
    """Angle [rad] that an arc of chords turns through, half a chord at each end included."""
    run = (midline.stop - midline.start)[list(walls)]
    total = 0.0
    for a, b in pairwise(run):
        turn = abs(float(np.arctan2(a[0] * b[1] - a[1] * b[0], a @ b)))
        total += min(turn, np.pi - turn)
    return total * len(walls) / (len(walls) - 1)


def _held(parts: Sequence[PlatePart], tied: set[int], k: int) -> PlatePart:
    """An internal part whose edge a lip holds, or fails to hold."""
    part = parts[k]
    if part.kind != "internal":
        return part
    lips = [_lip_beside(parts, tied, k, node) for node in part.nodes]
    weak = [lip is not None and lip.width < LEAST_LIP * part.width for lip in lips]
    if any(weak):
        turned = replace(part, kind="outstand", start=part.stop, stop=part.start, nodes=part.nodes[::-1])
        return turned if weak[0] else replace(part, kind="outstand")
    return replace(part, lip=any(lip is not None and lip.width < part.width for lip in lips))


def _lip_beside(parts: Sequence[PlatePart], tied: set[int], k: int, node: int) -> PlatePart | None:
    """The outstand that alone follows part k at one of its nodes, across a bend or a sharp corner."""
    for _ in range(2):
        if node in tied:
            return None
        beside = [other for other, part in enumerate(parts) if other != k and node in part.nodes]
        if len(beside) != 1 or parts[beside[0]].kind != "curved":
            break
        k = beside[0]
        first, last = parts[k].nodes
        node = last if node == first else first
    return parts[beside[0]] if len(beside) == 1 and parts[beside[0]].kind == "outstand" else None


def part_numbers(parts: Sequence[PlatePart], count: int) -> IntArray:
    """(count,) the part that each wall belongs to."""
    number = np.zeros(count, dtype=np.intp)
    for k, part in enumerate(parts):
        number[list(part.walls)] = k
    return number
