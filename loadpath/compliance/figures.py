"""The figures by which a suspension's compliance is told, with what is usual."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from loadpath.compliance.answers import ANSWERS, Answers
from loadpath.compliance.loads import LOADS

Array = NDArray[np.float64]

_PRACTICE = "common practice, no source"


@dataclass(frozen=True)
class Figure:
    """One answer to one load.

    name : for people. load, answer : their names. usual : what is usual by axle, in words with where that is from.
    """

    name: str
    load: str
    answer: str
    usual: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))

    @property
    def unit(self) -> str:
        """Unit of the answer for each unit of the load."""
        return f"{ANSWERS[self.row].unit}/{LOADS[self.column].unit}"

    @property
    def row(self) -> int:
        """Index of the answer."""
        return next(k for k, a in enumerate(ANSWERS) if a.name == self.answer)

    @property
    def column(self) -> int:
        """Index of the load."""
        return next(k for k, load in enumerate(LOADS) if load.name == self.load)


def _both(text: str) -> Mapping[str, str]:
    return MappingProxyType({"front": text, "rear": text})


FIGURES = (
    Figure(
        "toe by lateral force",
        "lateral",
        "toe",
        MappingProxyType(
            {
                "front": f"-0.1 to 0, toe-out ({_PRACTICE})",
                "rear": f"about 0 to slight toe-in ({_PRACTICE})",
            }
        ),
    ),
    Figure(
        "camber by lateral force",
        "lateral",
        "camber",
        MappingProxyType({"front": f"0.15 to 0.35 ({_PRACTICE})"}),
    ),
    Figure("patch inward by lateral force", "lateral", "patch inward"),
    Figure(
        "toe by braking",
        "braking",
        "toe",
        MappingProxyType(
            {
                "front": f"up to 0.1 either way ({_PRACTICE})",
                "rear": f"up to 0.1, toe-in preferred ({_PRACTICE})",
            }
        ),
    ),
    Figure("camber by braking", "braking", "camber"),
    Figure("wind-up by braking", "braking", "wind-up"),
    Figure("toe by driving", "driving", "toe"),
    Figure("camber by driving", "driving", "camber"),
    Figure(
        "toe by aligning moment",
        "aligning moment",
        "toe",
        _both("0.5 to 1.5 in production cars (public lesson page, weak source)"),
    ),
    Figure("recession by impact", "impact", "centre rearward", _both(f"2 to 6 ({_PRACTICE})")),
    Figure("toe by impact", "impact", "toe"),
)
"""The figures, in the order in which they are shown."""


def picked(values: Array) -> Array:
    """(..., nf) the figures out of values (..., na, nl)."""
    rows, columns = [f.row for f in FIGURES], [f.column for f in FIGURES]
    chosen: Array = values[..., rows, columns]
    return chosen


def alike(answers: Answers, within: float = 0.0) -> list[tuple[int, ...]]:
    """Wheels in groups whose answers are the same, so that each group is shown once.

    within : share of the largest angle, or the largest movement, under a load by which its answers may differ;
        with 0 every wheel is a group of its own.
    """
    groups: list[tuple[int, ...]] = []
    every = [answers.loaded("together"), answers.loaded("alone")]
    for i in range(len(answers.wheels)):
        for k, group in enumerate(groups):
            if within and all(_same(found[i], found[group[0]], within) for found in every):
                groups[k] = (*group, i)
                break
        else:
            groups.append((i,))
    return groups


def _same(one: Array, other: Array, within: float) -> bool:
    """True for answers (na, nl) that agree, angles and movements each by their own size."""
    if (np.isnan(one) != np.isnan(other)).any():
        return False
    turns = np.array([a.unit == "deg" for a in ANSWERS])
    gaps, sizes = np.nan_to_num(np.abs(one - other)), np.nan_to_num(np.abs(other))
    return all(bool((gaps[of] <= within * sizes[of].max(axis=0)).all()) for of in (turns, ~turns))
