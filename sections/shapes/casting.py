"""What castings share: draft, and notes on dimensions that common practice avoids."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter

_SOURCE = "common practice, no source"
_THIN = 3.5
STEEPEST = np.radians(15.0)
"""Largest draft angle that is taken for one."""


def draft(of: str) -> Any:
    """Declares a draft angle."""
    return parameter(
        f"draft angle of {of}; their thickness is that at half their height", "deg", 0.0, tell=False
    )


def fillet_between() -> Any:
    """Declares the radius between web and flange."""
    return parameter(
        "radius between web and flange; default the thinner of both (common practice)", "mm", None
    )


def corner() -> Any:
    """Declares the radius of outside corners."""
    return parameter("radius of the outside corners", "mm", 0.0, tell=False)


def check_draft(faults: FaultList, angle: float) -> bool:
    """0 to 15 degrees."""
    if 0 <= angle <= STEEPEST + 1e-9:
        return True
    faults.add("draft", f"{np.degrees(angle):.4g} deg", f"must be from 0 to {np.degrees(STEEPEST):.0f} deg")
    return False


def casting_notes(
    thinnest: float, fillet: float, wall: float, rib: float | None = None, rise: float = 0.0
) -> Iterator[str]:
    """Walls, fillets and ribs that common practice avoids.

    Parameters
    ----------
    thinnest : thinnest wall. fillet : radius where walls meet. wall : the wall that ribs stand on, or the thinner of
        two that meet. rib, rise : thickness and height of ribs, if any [mm].
    """
    if thinnest < _THIN:
        yield (
            f"the thinnest wall has {thinnest:.3g} mm; usual for structural castings are 2.5 to 4 mm in aluminium "
            f"under pressure, 3.5 to 5 mm by gravity, 4 to 6 mm in ductile iron ({_SOURCE})"
        )
    if fillet < 0.5 * wall - 1e-9:
        yield f"fillets of {fillet:.3g} mm are under half the wall of {wall:.3g} mm, which casts badly ({_SOURCE})"
    if rib is None:
        return
    if not 0.5 - 1e-9 <= rib / wall <= 0.8 + 1e-9:
        yield f"ribs have {rib / wall:.2f} of the wall's thickness; 0.5 to 0.8 is usual ({_SOURCE})"
    if rise > 5 * rib + 1e-9:
        yield f"ribs are {rise / rib:.1f} times as high as thick; up to 5 is usual in pressure castings ({_SOURCE})"
