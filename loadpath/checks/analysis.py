"""Everything that the checks read of one case: solved, recovered, self-checked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from loadpath.frame import Looks, Peaks, SelfCheck, Solution, look_along, self_checks, solve, stress_peaks
from loadpath.model import LoadCase, Model, Target


@dataclass(frozen=True, eq=False)
class Analysis:
    """One model under its load cases.

    Attributes
    ----------
    cases : the load cases in the order of every nc axis. refused : those whose self-check failed; nothing of
        them may be shown as a result.
    looks : where stress may peak, with the section forces there. peaks : largest von Mises stress of each
        element.
    """

    model: Model
    cases: tuple[LoadCase, ...]
    targets: tuple[Target, ...]
    solution: Solution
    looks: Looks
    peaks: Peaks
    checks: tuple[SelfCheck, ...]

    @property
    def refused(self) -> frozenset[str]:
        return frozenset(check.case for check in self.checks if check.refusals)


def analyse(model: Model, cases: Mapping[str, LoadCase], targets: Iterable[Target] = ()) -> Analysis:
    """Solve a model for its load cases and recover what the checks need.

    Raises
    ------
    FrameError : where the model cannot be solved as it stands.
    """
    ordered = tuple(cases.values())
    solution = solve(model, ordered)
    looks = look_along(solution)
    return Analysis(
        model=model,
        cases=ordered,
        targets=tuple(targets),
        solution=solution,
        looks=looks,
        peaks=stress_peaks(solution, looks),
        checks=self_checks(solution),
    )
