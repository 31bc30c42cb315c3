"""Springs, wheels, half-shafts and sensors, as frozen data."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from loadpath.model.springs import SpringLaw
from loadpath.model.tyre import Tyre

Array = NDArray[np.float64]

FULL_TRAVEL = 60.0
"""[mm] full travel of a wheel, and of a rack, where none is given (common practice, no source)."""


@dataclass(frozen=True)
class ForceElement:
    """A spring, damper or stop between two parts, acting along the line between its two points.

    Attributes
    ----------
    between : part names. ends : point names, on the first and on the second part.
    wheel : the wheel that it holds up.
    locked : held at its length in the pose of the load case; its force then follows from equilibrium.
    force : [N] push on both ends (compression positive) where it is not locked.
    rate : [N/mm] spring rate, for information; 0 where it has none.
    law : what it pushes with at any length; None where the case does not say enough for it.
    free_rate : [N/mm] by which the push of an element that is not locked grows as it is shortened; 0 where it
        acts with its given force whatever it does.
    """

    name: str
    between: tuple[str, str]
    ends: tuple[str, str]
    wheel: str
    locked: bool
    force: float
    rate: float
    law: SpringLaw | None = None
    free_rate: float = 0.0


@dataclass(frozen=True, eq=False)
class HalfShaft:
    """The shaft from a drive unit to a wheel.

    inner : point of its joint on the unit, outer : point of its joint on the carrying part.
    axis : (3,) unit vector of the unit's output, toward the wheel, at design height.
    inner_limit, outer_limit : [rad] largest angles of its joints. plunge_limit : [mm] either way. None: not given.
    diameter : [mm] of the room that it takes; None where it is not known.
    """

    inner: str
    outer: str
    axis: Array
    inner_limit: float | None = None
    outer_limit: float | None = None
    plunge_limit: float | None = None
    diameter: float | None = None


@dataclass(frozen=True)
class Wheel:
    """A wheel.

    Attributes
    ----------
    part : the carrying part (knuckle). centre : point name. radius : loaded radius [mm].
    axle : "front" or "rear". left : True on the left side.
    brake : where the friction brake's torque is reacted: "outboard" on the carrying part, "inboard" on
        `brake_part`.
    drive : "half-shaft" from `unit`, "hub" on the carrying part, or "none".
    camber, toe : [rad] in the pose of the model; camber positive with the top leaning outward, toe positive with
        the front pointing inward.
    jounce, rebound : [mm] full travel up and down from design height, both positive; None where not given: then
        FULL_TRAVEL.
    hub_tilt : moment [N·mm/rad] that tilts the hub bearing about any axis square to the spin axis; None where
        it is rigid.
    tyre : room that the tyre takes; None where it is not known.
    steer_link : part whose length sets the steering angle; None where a rack or the ball joints tell.
    """

    name: str
    part: str
    centre: str
    radius: float
    axle: Literal["front", "rear"]
    left: bool
    brake: Literal["outboard", "inboard"]
    brake_part: str | None
    drive: Literal["none", "half-shaft", "hub"]
    unit: str | None
    camber: float = 0.0
    toe: float = 0.0
    jounce: float | None = None
    rebound: float | None = None
    hub_tilt: float | None = None
    tyre: Tyre | None = None
    steer_link: str | None = None
    half_shaft: HalfShaft | None = None

    def travel(self) -> tuple[float, float]:
        """[mm] least and most travel: full rebound, negative, and full jounce."""
        down = FULL_TRAVEL if self.rebound is None else self.rebound
        return -down, FULL_TRAVEL if self.jounce is None else self.jounce


@dataclass(frozen=True, eq=False)
class HeightSensor:
    """A ride-height sensor: a lever on one part, drawn by a rod that ends on another.

    Attributes
    ----------
    between : the part that carries the sensor, and the part that its rod ends on.
    pivot : point of the lever's pivot, axis : (3,) its unit axis at design height; a turn about it lifts the lever.
    lever : point of the lever's end, rod : point of the rod's other end.
    """

    name: str
    between: tuple[str, str]
    pivot: str
    axis: Array
    lever: str
    rod: str
