"""A pose with the load cases that act in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from loadpath.model.entities import Model
from loadpath.model.loadcase import LoadCase


@dataclass(frozen=True, eq=False)
class Stand:
    """A model in one pose, the load cases that act in it, and their places among all of the case file."""

    model: Model
    cases: tuple[LoadCase, ...]
    numbers: tuple[int, ...]


def design_stand(model: Model, cases: Mapping[str, LoadCase]) -> Stand | None:
    """The load cases on the model as it is; None where one of them acts in another pose."""
    if any(case.pose is not None for case in cases.values()) or any(
        j.clamped_at for j in model.joints.values()
    ):
        return None
    return Stand(model, tuple(cases.values()), tuple(range(len(cases))))
