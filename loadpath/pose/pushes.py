"""Length of every force element in every pose, and what it pushes with there by its own law."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import ForceElement
from loadpath.pose.poses import Poses

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Reach:
    """One force element: length (p,) [mm], and how it changes with each driver (p, nd)."""

    length: Array
    rate: Array


def reach_of(poses: Poses, element: ForceElement) -> Reach:
    """How long a force element is, and how that changes with the drivers."""
    ends = list(zip(element.between, element.ends, strict=True))
    a, b = (poses.point(*end) for end in ends)
    moving = poses.velocity(*ends[1]) - poses.velocity(*ends[0])
    length = np.linalg.norm(b - a, axis=1)
    return Reach(length, np.einsum("pdi,pi->pd", moving, (b - a) / length[:, None]))


def design_length(poses: Poses, element: ForceElement) -> float:
    """Its length [mm] at design height."""
    model = poses.mechanism.model
    a, b = (model.at(part, point) for part, point in zip(element.between, element.ends, strict=True))
    return float(np.linalg.norm(b - a))


def law_pushes(poses: Poses) -> Mapping[str, Array]:
    """(p,) push [N] of each force element that has a law, compression positive."""
    return {
        name: element.law.push(reach_of(poses, element).length, design_length(poses, element))
        for name, element in poses.mechanism.model.force_elements.items()
        if element.law is not None
    }
