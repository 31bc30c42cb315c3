"""All kinds of check."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from loadpath.checks.analysis import Analysis
from loadpath.checks.buckling import check_link_buckling
from loadpath.checks.mass import check_mass
from loadpath.checks.row import CheckRow
from loadpath.checks.stiffness import check_stiffness
from loadpath.checks.stress import check_member_stress
from loadpath.checks.unchecked import name_unchecked
from loadpath.checks.walls import check_wall_buckling

Check = Callable[[Analysis], Iterator[CheckRow]]

IN_LOAD_CASES: tuple[Check, ...] = (check_member_stress, check_link_buckling, check_wall_buckling)
"""Those whose rows grow with a load case: they make its capacity."""
CHECKS: tuple[Check, ...] = (*IN_LOAD_CASES, check_stiffness, check_mass, name_unchecked)
"""All, in the order in which they run. A new kind is one file and one line here."""


def run_checks(analysis: Analysis) -> list[CheckRow]:
    """Rows of all checks."""
    return [row for check in CHECKS for row in check(analysis)]
