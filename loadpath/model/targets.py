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

    held : what holds the part while all its other joints are off. "mounts rigid": its mounts fixed in
        translation; "body rates": its mounts on the body's rates; "as mounted": on mount bushings and body.
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
