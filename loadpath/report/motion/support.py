"""Anti-dive, anti-lift and anti-squat of one wheel."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loadpath.loads import STANDARD_GRAVITY, axle_loads
from loadpath.model import Vehicle, Wheel
from loadpath.sweep import Instant

Array = NDArray[np.float64]

BRAKED_AT = 0.5
"""[g] at which the braking is shared as the axle loads are."""

_BRAKING = {"front": "anti-dive", "rear": "anti-lift"}
_DRIVING = {"front": "anti-lift", "rear": "anti-squat"}


def support(instant: Instant, wheel: Wheel, vehicle: Vehicle | None) -> list[tuple[str, str, Array]]:
    """What, unit and values (p,): per cent, or angles where there is no vehicle to count against."""
    found = [(_BRAKING[wheel.axle], "braking", instant.brake(wheel), brake_share)]
    if wheel.drive != "none":
        found.append((_DRIVING[wheel.axle], "driving", instant.drive(wheel), drive_share))
    if vehicle is None:
        return [(f"{what} angle {of}", "deg", np.degrees(np.arctan(t))) for what, of, t, _ in found]
    lever = vehicle.wheelbase / vehicle.cg_height
    return [
        (f"{what} {of}", "%", 100 * share(vehicle, wheel.axle) * lever * t) for what, of, t, share in found
    ]


def support_notes(wheel: Wheel, vehicle: Vehicle | None) -> tuple[str, ...]:
    """Where the forces act and which share of them is at the axle."""
    brakes = f"Brakes are {wheel.brake}: their force counts at the {_place(wheel.brake == 'outboard')}"
    if vehicle is None:
        return (f"{brakes}. Without vehicle data there are angles, not per cent.",)
    share = brake_share(vehicle, wheel.axle)
    notes = f"{brakes}; {share:.0%} of it is at this axle (as the axle loads are at {BRAKED_AT:g} g)."
    if wheel.drive != "none":
        own = drive_share(vehicle, wheel.axle)
        notes += (
            f" Drive by {wheel.drive}: at the {_place(wheel.drive == 'hub')}, {own:.0%} of it at this axle."
        )
    return notes, "Per cent of the load that the force along the vehicle takes off or puts on the axle."


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
