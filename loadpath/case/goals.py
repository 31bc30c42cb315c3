"""Targets of the case."""

from __future__ import annotations

from loadpath.case.carriers import Carriers
from loadpath.case.space import Space
from loadpath.case.tables import MassBudgetTable, StiffnessTable
from loadpath.case.words import join
from loadpath.model import MassTarget, StiffnessTarget, Target


def make_target(
    name: str, table: StiffnessTable | MassBudgetTable, space: Space, carriers: Carriers
) -> Target | None:
    """A target, or None where it cannot be made."""
    path, log = join("targets", name), space.log
    if isinstance(table, MassBudgetTable):
        if not table.parts:
            log.mistake(join(path, "parts"), "is empty", "one part or more")
        return MassTarget(name, table.parts, table.most, table.basis)
    carriers.carries(table.part, table.point, join(path, "point"))
    along = space.looking(table.along, table.point, join(path, "along"))
    if along is None:
        return None
    words = table.along if isinstance(table.along, str) else ", ".join(f"{c:g}" for c in table.along)
    return StiffnessTarget(name, table.part, table.point, along, words, table.held, table.least, table.basis)
