"""Wheels, masses and the body behind the mounts."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Literal

from loadpath.case.declare import Bounds, Direction, NotNegative, Positive
from loadpath.model import BARREL, FULL_TRAVEL, SHOULDER
from sections.fields import parameter

Slant = Annotated[float, Bounds(least=-math.radians(30), most=math.radians(30))]


@dataclass(frozen=True, kw_only=True)
class HalfShaftTable:
    """The shaft that drives the wheel."""

    inner: str = parameter("centre of its joint at the unit", refers="point")
    outer: str = parameter("centre of its joint at the wheel", refers="point")
    axis: Direction = parameter(
        "axis of the unit's output, either way round", default="left", refers="direction", tell=False
    )
    inner_limit: Positive | None = parameter(
        "largest angle of the inner joint", "deg", default=None, tell=False
    )
    outer_limit: Positive | None = parameter(
        "largest angle of the outer joint", "deg", default=None, tell=False
    )
    plunge_limit: Positive | None = parameter(
        "largest plunge from design height, either way", "mm", default=None, tell=False
    )
    diameter: Positive | None = parameter(
        "diameter of the room that it takes, boots included where they are near; default: not known",
        "mm",
        default=None,
        tell=False,
    )


@dataclass(frozen=True, kw_only=True)
class TyreTable:
    """The tyre's room, new and unloaded, by its size or measured; what is measured goes before the size."""

    size: str | None = parameter(
        'its size, such as "235/55R19": width, height in % of it, rim in inches', default=None, tell=False
    )
    width: Positive | None = parameter(
        "section width; needed where no size is given", "mm", default=None, tell=False
    )
    radius: Positive | None = parameter(
        "unloaded radius; needed where no size is given", "mm", default=None, tell=False
    )
    rim: Positive | None = parameter(
        f"clear radius within the rim, needed where no size is given; by size {BARREL:g} under the bead seat "
        "(common practice, no source)",
        "mm",
        default=None,
        tell=False,
    )
    shoulder: NotNegative | None = parameter(
        f"radius of its shoulders; default: {SHOULDER:g} of the width (common practice, no source)",
        "mm",
        default=None,
        tell=False,
    )


@dataclass(frozen=True, kw_only=True)
class WheelTable:
    """A wheel; its side follows from its centre."""

    part: str = parameter("the part that carries it", refers="part")
    centre: str = parameter("its centre", refers="point")
    radius: Positive = parameter("loaded radius", "mm")
    axle: Literal["front", "rear"] = parameter("its axle")
    brake: Literal["outboard", "inboard"] = parameter(
        "where the friction brake's torque goes: to the carrying part, or to brake_part", default="outboard"
    )
    brake_part: str | None = parameter(
        "part that takes the torque of an inboard brake", refers="part", default=None, tell=False
    )
    drive: Literal["none", "half-shaft", "hub"] = parameter("how it is driven", default="none")
    unit: str | None = parameter(
        "part whose housing takes the half-shaft's torque", refers="part", default=None, tell=False
    )
    half_shaft: HalfShaftTable | None = parameter("its half-shaft", default=None, tell=False)
    camber: Slant = parameter(
        "camber set at design height, top outward positive", "deg", default=0.0, tell=False
    )
    toe: Slant = parameter("toe set at design height, front inward positive", "deg", default=0.0, tell=False)
    jounce: Positive | None = parameter(
        f"full travel up from design height; default: {FULL_TRAVEL:g} (common practice, no source)",
        "mm",
        default=None,
        tell=False,
    )
    rebound: Positive | None = parameter(
        f"full travel down from design height; default: {FULL_TRAVEL:g} (common practice, no source)",
        "mm",
        default=None,
        tell=False,
    )
    tyre: TyreTable | None = parameter(
        "its tyre; without it the room of the wheel is not known", default=None, tell=False
    )
    steer_link: str | None = parameter(
        "link whose length sets its steering angle, where no rack does: the steering axis is told by it",
        refers="part",
        default=None,
        tell=False,
    )
    hub_tilt: Positive | None = parameter(
        "moment that tilts the hub bearing by a degree, about any axis square to the wheel's; default: rigid",
        "N*mm/deg",
        default=None,
        tell=False,
    )


@dataclass(frozen=True, kw_only=True)
class SensorTable:
    """A ride-height sensor: a lever on one part, moved by a rod that ends on another."""

    between: tuple[str, str] = parameter(
        "the part that carries the sensor, and the one that its rod ends on", refers="part or body"
    )
    pivot: str = parameter("pivot of its lever", refers="point")
    lever: str = parameter("end of its lever, where the rod begins", refers="point")
    rod: str = parameter("end of the rod on the second part", refers="point")
    axis: Direction | None = parameter(
        "axis of the pivot; default: square to lever and rod at design height",
        refers="direction",
        default=None,
        tell=False,
    )


@dataclass(frozen=True, kw_only=True)
class MassTable:
    """A mass on a part."""

    part: str = parameter("the part that carries it", refers="part")
    point: str = parameter("its centre", refers="point")
    mass: Positive = parameter("mass", "kg")
    inertia: tuple[NotNegative, NotNegative, NotNegative] = parameter(
        "moments of inertia about the centre, about x, y, z of the file; statics has no use for them",
        "kg*mm2",
        default=(0.0, 0.0, 0.0),
        tell=False,
    )


BodyRates = Literal["rigid"] | tuple[Positive, Positive, Positive]
BODY_RATES = (20000.0, 20000.0, 10000.0)
"""Default rates behind a mount [N/mm], forward, left, up (common practice, no source)."""


@dataclass(frozen=True, kw_only=True)
class BodyPointTable:
    """The body behind one point."""

    rates: BodyRates = parameter('rates forward, left and up, or "rigid"', "N/mm")


@dataclass(frozen=True, kw_only=True)
class BodyTable:
    """The vehicle's body behind the points that joints and struts put on it."""

    rates: BodyRates | None = parameter(
        'rates behind every point forward, left and up, or "rigid"; default: 20000, 20000, 10000 N/mm '
        "(common practice, no source)",
        "N/mm",
        default=None,
        tell=False,
    )
    at: Mapping[str, BodyPointTable] = parameter("other rates, point by point", refers="point")
