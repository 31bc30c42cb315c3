"""Checks of a solved case: one file for each kind, one row type, and how much each load case has left."""

from collections.abc import Callable, Iterator

from loadpath.checks.analysis import Analysis, analyse
from loadpath.checks.capacity import Capacity, capacities
from loadpath.checks.mass import check_mass, part_masses
from loadpath.checks.row import CheckRow, Verdict, governing, worst_first
from loadpath.checks.stiffness import check_stiffness, point_stiffness
from loadpath.checks.stress import check_member_stress
from loadpath.checks.unchecked import name_unchecked

CHECKS: tuple[Callable[[Analysis], Iterator[CheckRow]], ...] = (
    check_member_stress,
    check_stiffness,
    check_mass,
    name_unchecked,
)
"""All kinds of check, in the order in which they run. A new kind is one file and one line here."""


def run_checks(analysis: Analysis) -> list[CheckRow]:
    """Rows of all checks."""
    return [row for check in CHECKS for row in check(analysis)]


__all__ = [
    "CHECKS",
    "Analysis",
    "Capacity",
    "CheckRow",
    "Verdict",
    "analyse",
    "capacities",
    "governing",
    "part_masses",
    "point_stiffness",
    "run_checks",
    "worst_first",
]
