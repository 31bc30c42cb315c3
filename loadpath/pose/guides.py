"""Rods that slide through a guide: in a pose their members end where the guide holds them.

The rod of a guided strut is written from its guide to its top. When the wheel travels, the guide stays with the part
that the rod slides in, and another length of rod stands out of it: that length bends.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Joint, Model, Part

Array = NDArray[np.float64]
Owned = tuple[str, str]

_ASIDE = 1e-3
"""Sine of the angle to the axis of a slider within which a member lies along it."""
_LEAST = 0.05
"""Share of its length at design height that must stand out of the guide."""


class Guide(NamedTuple):
    """A rod's end and far end, and the point of the part that it slides in, as (part, point)."""

    end: Owned
    far: Owned
    holder: Owned


def guides_of(model: Model, uses: Iterable[Owned]) -> tuple[Guide, ...]:
    """Rods whose end at a slider carries nothing but that joint, so that it may be any point of the rod.

    uses : a (part, point) for every use that something makes of it. Where both parts of a slider could be the rod,
    the first named one is.
    """
    count = Counter(uses)
    found = (_guide(model, joint, count) for joint in model.joints.values())
    return tuple(guide for guide in found if guide is not None)


def _guide(model: Model, joint: Joint, count: Counter[Owned]) -> Guide | None:
    if joint.kind != "slider" or joint.rack:
        return None
    for name, other in (joint.between, joint.between[::-1]):
        part = model.parts.get(name)
        far = None if part is None or part.split else far_end(part, joint.point)
        if far is not None and count[name, joint.point] == 2 and _along(model, joint, name, far):
            return Guide((name, joint.point), (name, far), (other, joint.point))
    return None


def far_end(part: Part, point: str) -> str | None:
    """The next point of the member of a part that ends at a point; None where none or several do."""
    found = [path[1] for m in part.members for path in (m.path, m.path[::-1]) if path[0] == point]
    return found[0] if len(found) == 1 else None


def _along(model: Model, joint: Joint, part: str, far: str) -> bool:
    rod = model.at(part, far) - model.at(part, joint.point)
    return bool(np.linalg.norm(np.cross(joint.axes[0], rod)) <= _ASIDE * np.linalg.norm(rod))


def held_in_guides(guides: Iterable[Guide], owned: Sequence[Owned], positions: Array) -> Array:
    """Positions (p, k, 3) of k owned points, rods ending at their guides where enough of them stands out."""
    moved = positions.copy()
    for guide in guides:
        end, far, holder = (owned.index(one) for one in guide)
        rod = positions[:, end] - positions[:, far]
        share = ((positions[:, holder] - positions[:, far]) * rod).sum(axis=1) / (rod * rod).sum(axis=1)
        out = share >= _LEAST
        moved[out, end] = positions[out, holder]
    return moved


def short_rods(model: Model) -> dict[str, float]:
    """Of each rod of a posed model that does not end at its guide: by which share the true length is another."""
    found = {}
    for joint in model.joints.values():
        if joint.kind != "slider" or joint.rack:
            continue
        for name, other in (joint.between, joint.between[::-1]):
            part = model.parts.get(name)
            far = None if part is None else far_end(part, joint.point)
            if far is None:
                continue
            top = model.at(name, far)
            ends = (model.at(p, joint.point) - top for p in (other, name))
            true, taken = (float(np.linalg.norm(end)) for end in ends)
            if abs(true - taken) > _ASIDE * taken:
                found[name] = true / taken - 1
            break
    return found
