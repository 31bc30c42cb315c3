"""How long every force element is in every pose, and how fast that changes with the travel."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import ForceElement
from loadpath.pose.poses import Poses

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Strut:
    """One force element.

    Attributes
    ----------
    length : (p,) [mm] between its ends. ratio : (p,) motion ratio: by how much it shortens for a unit travel of its
        own wheel, the others standing still; its inverse is the push of the strut over the wheel force it holds.
    """

    length: Array
    ratio: Array


def struts(poses: Poses) -> dict[str, Strut]:
    """Every force element of the model, by name."""
    return {name: _strut(poses, one) for name, one in poses.mechanism.model.force_elements.items()}


def line_of(poses: Poses, element: ForceElement) -> tuple[Array, tuple[Array, Array]]:
    """Unit vector (p, 3) from the first end to the second, and both ends (p, 3)."""
    first, second = (poses.point(part, p) for part, p in zip(element.between, element.ends, strict=True))
    apart = second - first
    return apart / np.sqrt((apart**2).sum(axis=-1))[:, None], (first, second)


def _strut(poses: Poses, element: ForceElement) -> Strut:
    line, (a, b) = line_of(poses, element)
    wheels = poses.mechanism.wheels
    length: Array = ((b - a) * line).sum(axis=-1)
    if element.wheel not in wheels:
        return Strut(length, np.zeros(len(poses)))
    k = wheels.index(element.wheel)
    first, second = (
        poses.velocity(part, p)[:, k] for part, p in zip(element.between, element.ends, strict=True)
    )
    ratio: Array = -((second - first) * line).sum(axis=-1)
    return Strut(length, ratio)
