"""Everything that the checks read of one case: solved, recovered, self-checked.

Load cases that act in one pose are solved together; parts, members, joints and elements are the same in all poses, in
the same order, so that their forces stand side by side whatever the pose.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from loadpath.frame import (
    Elements,
    FrameError,
    Looks,
    Peaks,
    SelfCheck,
    Solution,
    look_along,
    self_checks,
    solve,
    stress_peaks,
)
from loadpath.model import LoadCase, Member, Model, Part, Stand, Target
from sections import Section

Array = NDArray[np.float64]
_Number = TypeVar("_Number", bound=np.generic)


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
class Solved:
    """The load cases of one pose, solved.

    Attributes
    ----------
    numbers : of its load cases in `Analysis.cases`, in the order of the solution.
    looks : where stress may peak, with the section forces there. peaks : largest von Mises stress of each
        element.
    """

    numbers: tuple[int, ...]
    solution: Solution
    looks: Looks
    peaks: Peaks

    @property
    def model(self) -> Model:
        """The model in this pose."""
        return self.solution.system.model


@dataclass(frozen=True, eq=False)
class Analysis:
    """One model under its load cases.

    Attributes
    ----------
    model : at design height. cases : the load cases in the order of the case file and of every nc axis here.
    solved : them by pose. refused : those whose self-check failed; nothing of them may be shown as a result.
    """

    model: Model
    cases: tuple[LoadCase, ...]
    targets: tuple[Target, ...]
    solved: tuple[Solved, ...]
    checks: tuple[SelfCheck, ...]

    @property
    def elements(self) -> Elements:
        """Elements in the first pose; in the others only their axes differ."""
        return self.solved[0].solution.system.mesh.elements

    @cached_property
    def members(self) -> tuple[Stretch, ...]:
        """Every member with its elements, in the order of the model."""
        elements = self.elements
        index: dict[tuple[str, str], list[int]] = {}
        for e, key in enumerate(zip(elements.part, elements.member, strict=True)):
            index.setdefault(key, []).append(e)
        return tuple(
            Stretch(part, member, np.array(index[part.name, member.name]))
            for part in self.model.parts.values()
            for member in part.members
        )

    def places(self, solved: Solved) -> list[list[tuple[Section, NDArray[np.intp]]]]:
        """For each of `members`, its sections with the places (indices of `looks.rows`) that each serves."""
        owner = np.empty(len(self.elements.part), dtype=np.intp)
        for k, stretch in enumerate(self.members):
            owner[stretch.elements] = k
        elements, looks = solved.solution.system.mesh.elements, solved.looks
        key = owner[looks.rows] * len(elements.different) + elements.section_at[looks.rows, looks.stations]
        order = np.argsort(key, kind="stable")
        found: list[list[tuple[Section, NDArray[np.intp]]]] = [[] for _ in self.members]
        for at in np.split(order, np.flatnonzero(np.diff(key[order])) + 1):
            member, section = divmod(int(key[at[0]]), len(elements.different))
            found[member].append((elements.different[section], at))
        return found

    @property
    def shown(self) -> list[int]:
        """Indices of the load cases that passed their self-checks."""
        return [c for c, case in enumerate(self.cases) if case.name not in self.refused]

    @cached_property
    def refused(self) -> frozenset[str]:
        return frozenset(check.case for check in self.checks if check.refusals)

    def at(self, c: int) -> tuple[Solved, int]:
        """The pose of load case number c, and its number there."""
        return next((s, s.numbers.index(c)) for s in self.solved if c in s.numbers)

    def together(self, of: Callable[[Solved], NDArray[_Number]]) -> NDArray[_Number]:
        """Arrays of all poses with their load cases, the last axis, in the order of `cases`."""
        if len(self.solved) == 1:
            return of(self.solved[0])
        order = np.argsort([c for s in self.solved for c in s.numbers])
        return np.concatenate([of(s) for s in self.solved], axis=-1)[..., order]

    @property
    def joint_names(self) -> tuple[str, ...]:
        return self.solved[0].solution.joint_names

    @cached_property
    def joint_forces(self) -> Array:
        """(nj, 6, nc) force and moment about the joint's point, on the second part, case axes."""
        return self.together(lambda s: s.solution.joint_forces)

    @property
    def push_names(self) -> tuple[str, ...]:
        return self.solved[0].solution.push_names

    @cached_property
    def pushes(self) -> Array:
        """(nf, nc) push of each force element [N], compression positive."""
        return self.together(lambda s: s.solution.pushes)

    @cached_property
    def redundant(self) -> tuple[tuple[str, ...], ...]:
        """Groups of joints and locked force elements that are determinate only together, in any pose."""
        return tuple(dict.fromkeys(group for s in self.solved for group in s.solution.redundant))

    @cached_property
    def peaks(self) -> Peaks:
        """Largest von Mises stress of each element."""
        return Peaks(
            von_mises=self.together(lambda s: s.peaks.von_mises),
            fraction=self.together(lambda s: s.peaks.fraction),
            station=self.together(lambda s: s.peaks.station),
            point=self.together(lambda s: s.peaks.point),
            strength=self.together(lambda s: s.peaks.strength),
        )


def analyse(model: Model, cases: Mapping[str, LoadCase], targets: Iterable[Target] = ()) -> Analysis:
    """Solve a model for load cases that all act in its pose, and recover what the checks need.

    Raises
    ------
    FrameError : where the model cannot be solved as it stands.
    """
    ordered = tuple(cases.values())
    return analyse_stands(model, [Stand(model, ordered, tuple(range(len(ordered))))], targets)


def analyse_stands(model: Model, stands: Sequence[Stand], targets: Iterable[Target] = ()) -> Analysis:
    """The same for load cases in several poses of a model.

    Raises
    ------
    FrameError : where the model cannot be solved as it stands.
    """
    return gathered(model, [(stand.numbers, solve(stand.model, stand.cases)) for stand in stands], targets)


def gathered(
    model: Model, solutions: Sequence[tuple[Sequence[int], Solution]], targets: Iterable[Target]
) -> Analysis:
    """What the checks need of solutions, each with the places of its load cases among all."""
    order = sorted(n for numbers, _ in solutions for n in numbers)
    solved = tuple(_recovered([order.index(n) for n in numbers], s) for numbers, s in solutions)
    cases = {n: case for s in solved for n, case in zip(s.numbers, s.solution.cases, strict=True)}
    checks = {n: check for s in solved for n, check in zip(s.numbers, self_checks(s.solution), strict=True)}
    return Analysis(
        model=model,
        cases=tuple(cases[n] for n in range(len(order))),
        targets=tuple(targets),
        solved=solved,
        checks=tuple(checks[n] for n in range(len(order))),
    )


def locked_pushes(model: Model, case: LoadCase) -> dict[str, float]:
    """[N] what each locked force element carries in a load case.

    Raises
    ------
    FrameError : where the model cannot be solved as it stands, or the solution fails its self-check.
    """
    solution = solve(model, [case])
    refusals = [reason for check in self_checks(solution) for reason in check.refusals]
    if refusals:
        raise FrameError("what the struts hold cannot be told: " + "; ".join(refusals))
    pushes = zip(solution.push_names, solution.pushes[:, 0], strict=True)
    return {name: float(push) for name, push in pushes if model.force_elements[name].locked}


def _recovered(numbers: Sequence[int], solution: Solution) -> Solved:
    looks = look_along(solution)
    return Solved(tuple(numbers), solution, looks, stress_peaks(solution, looks))
