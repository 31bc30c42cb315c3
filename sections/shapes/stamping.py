"""What pressed and bent sheet shares: thinned side walls, and notes on dimensions that common practice avoids."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.result import Array

_SOURCE = "common practice, no source"
_TIGHT, _FLANGE, _THINNED = 0.5, 3.0, 0.2


def web_gauge(of: str = "the sheet") -> Any:
    """Declares the thickness of drawn side walls."""
    return parameter(
        f"thickness of the drawn side walls; default that of {of}. Drawing thins by 10 to 15 % (common practice, no "
        "source): measure it",
        "mm",
        None,
        thickness=True,
    )


def hat_gauges(flange_stretches: int, gauge: float, web: float) -> Array:
    """Gauges along a hat's path: flange, web, crown, web, flange."""
    return np.array([gauge] * flange_stretches + [web, gauge, web] + [gauge] * flange_stretches)


def check_web(faults: FaultList, web: float, gauge: float, name: str = "web_gauge") -> bool:
    """Drawing makes no wall thicker."""
    return faults.inside(name, web, high=gauge, why="the sheet's; drawing makes no wall thicker")


def bend_notes(radius: float, gauge: float, usual: float | None) -> Iterator[str]:
    """A default radius cut short, and bends tighter than most grades stand.

    usual : the default radius where none was given.
    """
    if usual is not None and radius < usual - 1e-9:
        yield f"the bends have room for a radius of {radius:.3g} mm only; {usual:.3g} mm would be usual"
    if radius < _TIGHT * gauge:
        yield (
            f"inside bend radius {radius:.3g} mm is under {_TIGHT:g} × the gauge, which few grades stand ({_SOURCE}; "
            "EN 10149-2 and EN 485-2 give the least for a grade)"
        )


def flange_notes(flange: float, radius: float, gauge: float) -> Iterator[str]:
    """Flanges too short to be pressed and welded."""
    least = radius + _FLANGE * gauge
    if flange < least - 1e-9:
        yield (
            f"flange {flange:.3g} mm is shorter than radius + {_FLANGE:g} × the gauge = {least:.3g} mm: hard "
            f"to press and no room for a weld ({_SOURCE})"
        )


def thinning_notes(web: float, gauge: float) -> Iterator[str]:
    """Walls thinner than drawing usually leaves them."""
    if web < (1 - _THINNED) * gauge - 1e-9:
        share = f"{1 - web / gauge:.0%} thinner than the sheet"
        yield f"side walls are {share}; over {_THINNED:.0%} is unusual ({_SOURCE})"
