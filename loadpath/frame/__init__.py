"""Finite-element frame of one pose: assemble, solve, recover, and say what does not hold."""

from loadpath.frame.errors import FrameError, IllConditioned, Mechanism, NearlyIncompatible
from loadpath.frame.joints import line_of
from loadpath.frame.mesh import Elements
from loadpath.frame.recover import (
    Looks,
    Peaks,
    largest_of,
    look_along,
    section_forces,
    squared_von_mises,
    stress_peaks,
    torque_about_shear_centre,
)
from loadpath.frame.selfcheck import WILD, SelfCheck, self_checks
from loadpath.frame.solution import Solution
from loadpath.frame.solve import solve, solve_system
from loadpath.frame.system import System, build_system
from loadpath.frame.warping import STRAIGHT, warping_section

__all__ = [
    "STRAIGHT",
    "WILD",
    "Elements",
    "FrameError",
    "IllConditioned",
    "Looks",
    "Mechanism",
    "NearlyIncompatible",
    "Peaks",
    "SelfCheck",
    "Solution",
    "System",
    "build_system",
    "largest_of",
    "line_of",
    "look_along",
    "section_forces",
    "self_checks",
    "solve",
    "solve_system",
    "squared_von_mises",
    "stress_peaks",
    "torque_about_shear_centre",
    "warping_section",
]
