"""A spanning tree of the walls and the cells that the other walls close."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from sections.geometry.walls import IntArray
from sections.result import Array


@dataclass(frozen=True, eq=False)
class Graph:
    """Flows in a graph of e edges between n nodes, by topology alone.

    Attributes
    ----------
    ends : (e, 2) nodes of each edge.
    paths : (n, e) edges on the way from node 0 to each node in the tree, 1 where they run that way, −1 against it. A
        unit of flow fed in at node 0 and taken out there runs so; potentials add up along it.
    cells : (c, e) round trips of a unit of flow, one for each edge that is not in the tree.
    """

    ends: IntArray
    paths: Array
    cells: Array


def graph_of(count: int, ends: IntArray) -> Graph:
    """The graph of `count` nodes, all connected; edges that come first are first taken into the tree.

    Raises
    ------
    numpy.linalg.LinAlgError : unconnected pieces.
    """
    meeting: list[list[tuple[int, int, float]]] = [[] for _ in range(count)]
    pairs: Sequence[Sequence[int]] = ends.tolist()
    for edge, (a, b) in enumerate(pairs):
        meeting[a].append((edge, b, 1.0))
        meeting[b].append((edge, a, -1.0))
    paths = np.zeros((count, len(ends)))
    reached, tree, queue = {0}, set[int](), [0]
    for node in queue:
        for edge, other, sense in meeting[node]:
            if other not in reached:
                paths[other] = paths[node]
                paths[other, edge] = sense
                reached.add(other)
                tree.add(edge)
                queue.append(other)
    if len(reached) < count:
        raise np.linalg.LinAlgError("unconnected pieces")
    closing = [edge for edge in range(len(ends)) if edge not in tree]
    cells = paths[ends[closing, 0]] - paths[ends[closing, 1]]
    cells[np.arange(len(closing)), closing] = 1.0
    return Graph(ends, paths, cells)
