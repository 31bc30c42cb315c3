"""Anti-dive, anti-lift and anti-squat of one wheel in a sweep."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loadpath.loads import STANDARD_GRAVITY, axle_loads
from loadpath.model import Vehicle, Wheel
from loadpath.pose import Sweep, instants

Array = NDArray[np.float64]
Told = tuple[str, str, int, Array]

BRAKED_AT = 0.5
"""[g] at which the braking is shared as the axle loads are."""

_BRAKING = {"front": "anti-dive", "rear": "anti-lift"}
_DRIVING = {"front": "anti-lift", "rear": "anti-squat"}


def support_columns(
    sweep: Sweep, wheel: Wheel, vehicle: Vehicle | None
) -> tuple[list[Told], tuple[str, ...]]:
    """Columns (heading, unit, digits, values) and notes; angles where there is no vehicle to count against."""
    instant = instants(sweep.poses)[wheel.name]
    brake, drive = instant.brake(wheel), instant.drive(wheel)
    where = f"Brakes are {wheel.brake}: their force counts at the {_place(wheel.brake == 'outboard')}"
    columns: list[Told] = []
    if vehicle is None:
        columns.append((f"{_BRAKING[wheel.axle]} angle", "deg", 2, np.degrees(np.arctan(brake))))
        if wheel.drive != "none":
            columns.append((f"{_DRIVING[wheel.axle]} angle", "deg", 2, np.degrees(np.arctan(drive))))
        return columns, (f"{where}. Without vehicle data there are angles, not per cent.",)
    lever = vehicle.wheelbase / vehicle.cg_height
    share = brake_share(vehicle, wheel.axle)
    columns.append((f"{_BRAKING[wheel.axle]} braking", "%", 1, 100 * share * lever * brake))
    notes = f"{where}; {share:.0%} of it is at this axle (as the axle loads are at {BRAKED_AT:g} g)."
    if wheel.drive != "none":
        own = drive_share(vehicle, wheel.axle)
        columns.append((f"{_DRIVING[wheel.axle]} driving", "%", 1, 100 * own * lever * drive))
        notes += (
            f" Drive by {wheel.drive}: at the {_place(wheel.drive == 'hub')}, {own:.0%} of it at this axle."
        )
    return columns, (
        notes,
        "Per cent of the load that the force along the vehicle takes off or puts on the axle.",
    )


def _place(patch: bool) -> str:
    return "contact patch" if patch else "wheel centre"


def brake_share(vehicle: Vehicle, axle: str) -> float:
    """Share of the braking force at an axle where it follows the axle loads at BRAKED_AT."""
    loads = axle_loads(vehicle, -BRAKED_AT * STANDARD_GRAVITY)
    return loads[axle] / sum(loads.values())


def drive_share(vehicle: Vehicle, axle: str) -> float:
    """Share of the drive torque at a driven axle: by the torques where both are known, else all of it."""
    own, other = vehicle.axle(axle).torque, vehicle.axle("rear" if axle == "front" else "front").torque
    return 1.0 if own is None or other is None else own / (own + other)
