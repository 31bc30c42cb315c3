"""Finite-element frame of one pose: assemble, solve, recover, and say what does not hold."""

from loadpath.frame.errors import FrameError, IllConditioned, Mechanism, NearlyIncompatible
from loadpath.frame.recover import Looks, Peaks, look_along, section_forces, stress_peaks
from loadpath.frame.selfcheck import SelfCheck, self_checks
from loadpath.frame.solve import Solution, solve, solve_system
from loadpath.frame.system import System, build_system

__all__ = [
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
    "look_along",
    "section_forces",
    "self_checks",
    "solve",
    "solve_system",
    "stress_peaks",
]
