"""Base of what the case file says of a load case; the kinds live in the loads room."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from loadpath.model.loadcase import LoadClass
from loadpath.model.pose import PoseWish
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class LoadSpec:
    """What every kind of load case has.

    A subclass is a frozen, keyword-only dataclass whose fields are declared with `parameter`; its field types
    are float, bool, str, Literal, tuple[float, float, float], tuple[str, ...], Mapping[str, float], another
    dataclass of the same make, or a tuple of one.
    """

    part_acceleration: Mapping[str, tuple[float, float, float]] | None = parameter(
        "acceleration of single parts where it differs from the vehicle's, in the axes of the file",
        "g",
        default=None,
        refers="part",
        vector="polar",
        tell=False,
    )
    state: str | None = parameter(
        'loading state of the vehicle whose wheel loads it multiplies; default: "design", the vehicle as it is given',
        default=None,
        refers="state",
        tell=False,
    )
    pose: PoseWish | None = parameter(
        "where the wheels stand; default: at design height", default=None, tell=False
    )
    cls: LoadClass = parameter('class of the allowable: "rare", "abuse" or "repeated"', default="rare")
