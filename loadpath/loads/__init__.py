"""Wheel loads from vehicle data, and the load cases made of them."""

from loadpath.loads.cases import KINDS, build
from loadpath.loads.errors import Fault, LoadCaseError, NoSteadyState
from loadpath.loads.given import GivenForce
from loadpath.loads.kind import LoadKind, Site
from loadpath.loads.transfer import (
    STANDARD_GRAVITY,
    Lateral,
    RollMoments,
    axle_loads,
    lateral_transfer,
    longitudinal_transfer,
    roll_arm,
    sprung_mass,
    traction_limit,
)

__all__ = [
    "KINDS",
    "STANDARD_GRAVITY",
    "Fault",
    "GivenForce",
    "Lateral",
    "LoadCaseError",
    "LoadKind",
    "NoSteadyState",
    "RollMoments",
    "Site",
    "axle_loads",
    "build",
    "lateral_transfer",
    "longitudinal_transfer",
    "roll_arm",
    "sprung_mass",
    "traction_limit",
]
