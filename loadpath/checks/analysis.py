"""Everything that the checks read of one case: solved, recovered, self-checked."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from loadpath.frame import (
    Elements,
    Looks,
    Peaks,
    SelfCheck,
    Solution,
    look_along,
    self_checks,
    solve,
    stress_peaks,
)
from loadpath.model import LoadCase, Member, Model, Part, Target


@dataclass(frozen=True, eq=False)
class Stretch:
    """One member with its elements (n,)."""

    part: Part
    member: Member
    elements: NDArray[np.intp]

    @property
    def name(self) -> str:
        """Name for people: the part's own where it is a link."""
        return self.part.name if self.part.kind == "link" else f"{self.part.name}.{self.member.name}"

    def place(self, elements: Elements, element: int, fraction: float) -> str:
        """Distance along the member, or the name of a point that it is at."""
        k = int(np.flatnonzero(self.elements == element)[0])
        for end in (0, 1):
            if fraction == end:
                return f"at {self.member.path[k + end]}"
        at = elements.start[element] + fraction * elements.length[element]
        return f"{at:.0f} mm from {self.member.path[0]}"


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

    @cached_property
    def members(self) -> tuple[Stretch, ...]:
        """Every member with its elements, in the order of the model."""
        elements = self.solution.system.mesh.elements
        index: dict[tuple[str, str], list[int]] = {}
        for e, key in enumerate(zip(elements.part, elements.member, strict=True)):
            index.setdefault(key, []).append(e)
        return tuple(
            Stretch(part, member, np.array(index[part.name, member.name]))
            for part in self.model.parts.values()
            for member in part.members
        )

    @property
    def shown(self) -> list[int]:
        """Indices of the load cases that passed their self-checks."""
        return [c for c, case in enumerate(self.cases) if case.name not in self.refused]

    @cached_property
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
