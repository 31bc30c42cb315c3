"""Outlines of movers and members as points, for pictures in any view."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.pose import Mechanism, pose_many
from loadpath.room.movers import Mover
from loadpath.room.solids import ShaftSolid, TyreSolid
from loadpath.room.stretches import stretches_of
from loadpath.room.sweep import Cells, poses_of, range_of

Array = NDArray[np.float64]

_ROUND = 48


@dataclass(frozen=True, eq=False)
class Silhouette:
    """Convex pieces whose shadows are those of something: each of them points (k, 3) [mm], case axes.

    name : a mover's, or "part.member". swept : a piece for each pose of a mover; design : those at design height.
    """

    name: str
    kind: str
    swept: tuple[Array, ...]
    design: tuple[Array, ...]


def silhouettes_of(mechanism: Mechanism, movers: Sequence[Mover], steps: int = 25) -> tuple[Silhouette, ...]:
    """Movers over their travel and steer, and members at design height.

    steps : poses over the travel where nothing steers, else over the steer at a third as many travels.

    Raises
    ------
    OutOfReach : full travel or full steer that the suspension does not reach.
    """
    return (*(_of_mover(mechanism, m, steps) for m in movers), *_of_members(mechanism))


def _of_mover(mechanism: Mechanism, mover: Mover, steps: int) -> Silhouette:
    span = range_of(mechanism, mover.wheel.name)
    count = max(steps // 3, 3) if span.steered else steps
    travel = np.linspace(span.low[span.wheel], span.high[span.wheel], count)
    steer = np.linspace(-1, 1, steps) if span.steered else np.zeros(1)
    grid = np.array([[t, s] for t in travel for s in steer])
    cells = Cells(
        np.concatenate([grid, [[0.0, 0.0]]]),
        np.zeros((len(grid) + 1, 2)),
        np.zeros(len(grid) + 1, dtype=np.intp),
    )
    frame = mover.frame(poses_of(span, cells))
    own = _points(mover)
    placed = frame.origin[:, None] + np.einsum("pij,kj->pki", frame.turn, own)
    return Silhouette(mover.name, mover.kind, tuple(placed[:-1]), (placed[-1],))


def _points(mover: Mover) -> Array:
    """(k, 3) points round the edges of a mover in its own frame."""
    solid, angle = mover.solid, np.linspace(0, 2 * np.pi, _ROUND, endpoint=False)
    if isinstance(solid, TyreSolid):
        t = solid.tyre
        corner = np.linspace(0, np.pi / 2, 4)
        half = t.width / 2 - t.shoulder + t.shoulder * np.sin(corner)
        radius = t.radius - t.shoulder + t.shoulder * np.cos(corner)
        rings = [(x, r) for x, r in zip(half, radius, strict=True)] + [
            (-x, r) for x, r in zip(half, radius, strict=True)
        ]
    elif isinstance(solid, ShaftSolid):
        rings = [(0.0, solid.radius), (solid.length, solid.radius)]
    else:
        rings = []
    return np.array([[x, r * np.cos(a), r * np.sin(a)] for x, r in rings for a in angle])


def _of_members(mechanism: Mechanism) -> list[Silhouette]:
    stretches = stretches_of(mechanism)
    poses = pose_many(mechanism, np.zeros((1, len(mechanism.drivers))))
    pieces: dict[int, list[Array]] = {}
    for k, member in enumerate(stretches.member):
        of = stretches.owner == k
        ends = [
            poses.points(stretches.carriers[k : k + 1, e], stretches.at[k, e][None])[0, 0] for e in (0, 1)
        ]
        along = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
        rings = [
            end + plane[of].reshape(-1, 2) @ stretches.axes[k] + stretches.mitre[of, n].reshape(-1, 1) * along
            for n, (end, plane) in enumerate(zip(ends, (stretches.near, stretches.far), strict=True))
        ]
        pieces.setdefault(int(member), []).append(np.concatenate(rings))
    return [
        Silhouette(".".join(dict.fromkeys(stretches.members[k])), "member", (), tuple(own))
        for k, own in pieces.items()
    ]
