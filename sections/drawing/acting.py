"""What acts on a drawn section, and which quantity its colours show."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from sections.result import Array

Colour = Literal["stress", "normal", "shear", "flow"]

COLOURS: dict[Colour, str] = {
    "stress": "von Mises stress, MPa",
    "normal": "normal stress σ, MPa, tension positive",
    "shear": "shear stress, MPa",
    "flow": "shear flow, N/mm",
}
"""What may be coloured, with the words for it: sqrt(σ² + 3τ²), σ, |τ|, and |q| along thin walls."""

SIGNS = (
    "Forces at the centroid on the face turned to you: N pulls, Vy to the right, Vz up; My > 0 pulls at the top, "
    "Mz > 0 at the left, T > 0 turns from y to z."
).replace(" > ", "\u00a0>\u00a0")


@dataclass(frozen=True, eq=False)
class Acting:
    """Section forces on the face whose outward normal is +x, towards the viewer.

    Attributes
    ----------
    forces : (6,) N, Vy, Vz [N], T, My, Mz [N·mm] at the centroid.
    words : what they are, for the picture.
    bimoment : [N·mm²] of restrained warping.
    """

    forces: Array
    words: str
    bimoment: float = 0.0
