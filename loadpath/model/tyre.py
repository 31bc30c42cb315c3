"""The tyre as the room that a wheel takes."""

from __future__ import annotations

import re
from dataclasses import dataclass

INCH = 25.4
SHOULDER = 0.1
"""Radius of a shoulder over the tyre's width (common practice, no source)."""
BARREL = 18.0
"""[mm] from a rim's nominal radius, at the bead seats, in to the clear radius within (common practice, no source)."""

_SIZE = re.compile(r"(\d{3})\s*/\s*(\d{2})\s*Z?R\s*(\d{2})(C?)(\s+.*)?")


@dataclass(frozen=True)
class Tyre:
    """A tyre on its rim, new and unloaded: a body of revolution about the wheel's axis, in the wheel's middle.

    Attributes
    ----------
    width : [mm] of the section. radius : [mm] outside, unloaded.
    rim : [mm] clear radius within the rim, into which arms may reach. shoulder : [mm] radius of its shoulders.
    """

    width: float
    radius: float
    rim: float
    shoulder: float


def tyre_of_size(size: str) -> Tyre:
    """A tyre by its designation, such as 235/55R19: section width [mm] / height [% of width] R rim diameter [in].

    ISO 4000-1 (from memory).

    Raises
    ------
    ValueError : a text that is no such designation.
    """
    found = _SIZE.fullmatch(size.strip().upper())
    if found is None:
        raise ValueError("a size such as 235/55R19: width in mm, height in % of it, rim in inches")
    width, height, rim = (float(found[k]) for k in (1, 2, 3))
    bead = rim * INCH / 2
    return Tyre(width, bead + width * height / 100, bead - BARREL, SHOULDER * width)
