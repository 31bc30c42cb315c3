"""Vehicle data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from loadpath.case.declare import NotNegative, Positive, Share
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class AxleTable:
    """One axle of the vehicle."""

    track: Positive | None = parameter("track; default: between the wheels of the case", "mm", default=None)
    unsprung_mass: NotNegative = parameter("unsprung mass of both wheels", "kg", default=0.0)
    unsprung_height: NotNegative | None = parameter(
        "height of its centre above ground; default: the wheel's radius", "mm", default=None
    )
    roll_centre: float = parameter("height of the roll centre above ground", "mm", default=0.0)
    torque: Positive | None = parameter(
        "largest drive torque at both wheels together", "N*mm", default=None, tell=False
    )


@dataclass(frozen=True, kw_only=True)
class StateTable:
    """The vehicle in another loading state: kerb, gross or one of your own; load cases name it as `state`."""

    mass: Positive | None = parameter("mass; default: as in design", "kg", default=None, tell=False)
    front_share: Share | None = parameter(
        "share of the mass on the front axle, 0 to 1; default: as in design", default=None, tell=False
    )
    cg_height: Positive | None = parameter(
        "height of the centre of gravity above ground; default: as in design", "mm", default=None, tell=False
    )
    front_travel: float = parameter(
        "where the front wheels stand in it, as travel from design height, up against the body positive",
        "mm",
        default=0.0,
        tell=False,
    )
    rear_travel: float = parameter("the same of the rear wheels", "mm", default=0.0, tell=False)


@dataclass(frozen=True, kw_only=True)
class VehicleTable:
    """The vehicle in its design state, at the height at which the points of the file are given."""

    mass: Positive = parameter("mass", "kg")
    front_share: Share = parameter("share of the mass on the front axle, 0 to 1")
    wheelbase: Positive = parameter("wheelbase", "mm")
    cg_height: Positive = parameter("height of the centre of gravity above ground", "mm")
    ground: float = parameter(
        "height of the ground in the coordinates of the file; wheels are held against it", "mm", default=0.0
    )
    roll_stiffness: Positive | None = parameter(
        "roll stiffness of both axles together; without it no roll angle and no bar twist follows",
        "N*mm/deg",
        default=None,
    )
    front_roll_share: Share = parameter("share of the roll stiffness on the front axle", default=0.5)
    front: AxleTable = parameter("the front axle", default=AxleTable(), tell=False)
    rear: AxleTable = parameter("the rear axle", default=AxleTable(), tell=False)
    states: Mapping[str, StateTable] = parameter("other loading states by name")
