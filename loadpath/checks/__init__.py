"""Checks of a solved case: one file for each kind, one row type, and how much each load case has left."""

from collections.abc import Callable, Iterator

from loadpath.checks.analysis import Analysis, Solved, Stretch, analyse, analyse_stands
from loadpath.checks.buckling import check_link_buckling
from loadpath.checks.capacity import Capacity, capacities
from loadpath.checks.mass import check_mass, part_masses
from loadpath.checks.plastic import LEAST_ELONGATION, plastic_demand, plate_rules
from loadpath.checks.row import CheckRow, Verdict, governing, worst_first
from loadpath.checks.stiffness import (
    HELD,
    PickupStiffness,
    check_stiffness,
    pickup_stiffnesses,
    point_stiffness,
    upper_bound,
)
from loadpath.checks.stress import check_member_stress
from loadpath.checks.unchecked import name_unchecked
from loadpath.checks.walls import check_wall_buckling, describe_wall

CHECKS: tuple[Callable[[Analysis], Iterator[CheckRow]], ...] = (
    check_member_stress,
    check_link_buckling,
    check_wall_buckling,
    check_stiffness,
    check_mass,
    name_unchecked,
)
"""All kinds of check, in the order in which they run. A new kind is one file and one line here."""


def run_checks(analysis: Analysis) -> list[CheckRow]:
    """Rows of all checks."""
    return [row for check in CHECKS for row in check(analysis)]


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
