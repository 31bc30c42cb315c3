"""Which points each part carries."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from loadpath.case.errors import listed, nearest
from loadpath.case.space import Space
from loadpath.model import Part


@dataclass(frozen=True, eq=False)
class Carriers:
    """Which points each good part carries."""

    parts: Mapping[str, Part]
    space: Space

    def carries(self, part: str, point: str, path: str) -> bool:
        """True where the part has the point or cannot be asked; else a mistake is noted at the path."""
        points = None if part not in self.parts else points_of(self.parts[part])
        if points is None or point in points:
            return True
        where = "none of its ends" if self.parts[part].kind == "link" else "neither on a member nor a bracket"
        what = f"point {point} is not on part {part}: it is {where}"
        self.space.log.mistake(path, what, f"one of {listed(points)}", self._next_to(point, points))
        return False

    def _next_to(self, point: str, points: Sequence[str]) -> str:
        """The nearest in space where all positions are known, else by name."""
        at = self.space.points
        if not self.space.known([point, *points]):
            return nearest(point, points)
        return min(points, key=lambda p: float(np.linalg.norm(at[p] - at[point])))


def points_of(part: Part) -> tuple[str, ...] | None:
    """Points of a frame or a link; None for a rigid part, which carries any."""
    if part.kind == "rigid":
        return None
    on_members = (p for m in part.members for p in m.path)
    return tuple(dict.fromkeys((*on_members, *(b.point for b in part.brackets))))
