"""Wheel loads from vehicle data, and the load cases made of them."""

from loadpath.loads.cases import KINDS, build, with_parts
from loadpath.loads.errors import Fault, LoadCaseError, NoSteadyState
from loadpath.loads.given import GivenForce
from loadpath.loads.grip import gripped
from loadpath.loads.kerb_climb import step_ratio
from loadpath.loads.kerb_strike import overturning_force
from loadpath.loads.kind import LoadKind, Site
from loadpath.loads.places import Place
from loadpath.loads.road import static_load
from loadpath.loads.standard import LOAD_CASE, RowText, StandardRow, standard_set
from loadpath.loads.standing import pose_words
from loadpath.loads.terms import Corner
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
from loadpath.loads.twist import lifting_moment

__all__ = [
    "KINDS",
    "LOAD_CASE",
    "STANDARD_GRAVITY",
    "Corner",
    "Fault",
    "GivenForce",
    "Lateral",
    "LoadCaseError",
    "LoadKind",
    "NoSteadyState",
    "Place",
    "RollMoments",
    "RowText",
    "Site",
    "StandardRow",
    "axle_loads",
    "build",
    "gripped",
    "lateral_transfer",
    "lifting_moment",
    "longitudinal_transfer",
    "overturning_force",
    "pose_words",
    "roll_arm",
    "sprung_mass",
    "standard_set",
    "static_load",
    "step_ratio",
    "traction_limit",
    "with_parts",
]
