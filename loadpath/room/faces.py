"""The outline of a section as straight faces with the direction in which each looks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sections import Midline, Section

Array = NDArray[np.float64]

_CORNER = np.cos(np.radians(25))
"""Walls that meet at more than this angle have a corner to fill."""


@dataclass(frozen=True, eq=False)
class Faces:
    """n faces of an outline: ends (n, 2, 2), y and z from the centroid [mm]; normal (n, 2) out of the material."""

    ends: Array
    normal: Array


def faces_of(section: Section) -> Faces:
    """Both faces of every wall, or the rings of an outline; the drawn box where a section has neither."""
    if section.rings:
        ends = np.concatenate([np.stack([r, np.roll(r, -1, axis=0)], axis=1) for r in section.rings])
    elif section.midline is not None:
        ends = _walls(section.midline)
    else:
        (y0, z0), (y1, z1) = section.box
        ring = np.array([[y0, z0], [y1, z0], [y1, z1], [y0, z1]])
        ends = np.stack([ring, np.roll(ring, -1, axis=0)], axis=1)
    run = ends[:, 1] - ends[:, 0]
    length = np.hypot(*run.T)
    kept = length > 0
    across = np.stack([run[:, 1], -run[:, 0]], axis=1)[kept] / length[kept, None]
    return Faces(ends[kept] - section.centroid, across)


def _walls(line: Midline) -> Array:
    """(2m, 2, 2) left and right faces, material on the left of each."""
    run = (line.stop - line.start) / line.length[:, None]
    left = np.stack([-run[:, 1], run[:, 0]], axis=1) * line.thickness[:, None] / 2
    longer = _filling(line, run) * line.thickness[:, None] / 2
    start, stop = line.start - run * longer[:, :1], line.stop + run * longer[:, 1:]
    right = np.stack([start - left, stop - left], axis=1)
    return np.concatenate([right, np.stack([stop + left, start + left], axis=1)])


def _filling(line: Midline, run: Array) -> Array:
    """(m, 2) 1 where a wall's end meets another at a corner, else 0."""
    needs = np.zeros((len(run), 2))
    at: dict[int, list[tuple[int, int]]] = {}
    for wall, ends in enumerate(line.ends):
        for end in (0, 1):
            at.setdefault(int(ends[end]), []).append((wall, end))
    for meeting in at.values():
        for wall, end in meeting:
            away = run[wall] * (1 if end else -1)
            others = [run[w] * (-1 if e else 1) for w, e in meeting if w != wall]
            needs[wall, end] = float(any(away @ other < _CORNER for other in others))
    return needs


def paired(first: Section, last: Section) -> tuple[Faces, Faces]:
    """Faces at both ends of a taper; both outlines all along it where their faces do not match."""
    a, b = faces_of(first), faces_of(last)
    if len(a.ends) == len(b.ends):
        return a, b
    both = Faces(np.concatenate([a.ends, b.ends]), np.concatenate([a.normal, b.normal]))
    return both, both
