"""Checks of a solved case: one file for each kind, one row type, and how much each load case has left."""

from loadpath.checks.analysis import Analysis, Solved, Stretch, analyse, analyse_stands, locked_pushes
from loadpath.checks.capacity import Capacity, capacities
from loadpath.checks.kinds import CHECKS, run_checks
from loadpath.checks.mass import part_masses
from loadpath.checks.plastic import LEAST_ELONGATION, plastic_demand, plate_rules
from loadpath.checks.row import CheckRow, Verdict, governing, worst_first
from loadpath.checks.stiffness import (
    HELD,
    PickupStiffness,
    pickup_stiffnesses,
    point_stiffness,
    upper_bound,
)
from loadpath.checks.stress import TORSION_COUNTS
from loadpath.checks.walls import describe_wall


def unjudged(rows: list[CheckRow]) -> list[str]:
    """Subjects whose strength, stiffness or mass nothing stands for: not valid, or a member not checked."""
    return list(
        dict.fromkeys(
            r.subject
            for r in rows
            if r.verdict == "not valid" or (r.verdict == "not checked" and r.kind == "member stress")
        )
    )


__all__ = [
    "CHECKS",
    "HELD",
    "LEAST_ELONGATION",
    "TORSION_COUNTS",
    "Analysis",
    "Capacity",
    "CheckRow",
    "PickupStiffness",
    "Solved",
    "Stretch",
    "Verdict",
    "analyse",
    "analyse_stands",
    "capacities",
    "describe_wall",
    "governing",
    "locked_pushes",
    "part_masses",
    "pickup_stiffnesses",
    "plastic_demand",
    "plate_rules",
    "point_stiffness",
    "run_checks",
    "unjudged",
    "upper_bound",
    "worst_first",
]
