"""What the case file asks of the structure beyond strength."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Held = Literal["mounts rigid", "body rates", "as mounted"]


@dataclass(frozen=True, eq=False)
class StiffnessTarget:
    """Least stiffness [N/mm] of a point of a part along a direction.

    held : what holds the part while all its other joints are off. "mounts rigid": its mount bushings fixed in
        translation on a rigid body; "body rates": the same on the body's rates; "as mounted": on its mount
        bushings and the body's rates.
    """

    name: str
    part: str
    point: str
    direction: NDArray[np.float64]
    direction_name: str
    held: Held
    least: float
    basis: str


@dataclass(frozen=True)
class MassTarget:
    """Most mass [t] of some parts together."""

    name: str
    parts: tuple[str, ...]
    most: float
    basis: str


Target = StiffnessTarget | MassTarget
