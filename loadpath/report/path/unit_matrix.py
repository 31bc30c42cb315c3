"""The unit-load matrix: forces of mounts and joints per unit of what comes in at the wheels, in one pose."""

from __future__ import annotations

from collections.abc import Iterator

from loadpath.checks import Solved
from loadpath.model import BODY
from loadpath.report.path.mounts import AXES, AxesWord, components, in_axes
from loadpath.report.poses import pose_words
from loadpath.report.table import Cell, Column, Table
from loadpath.trace import Input, UnitLoads


def unit_load_table(solved: Solved, found: UnitLoads, word: AxesWord, body: bool, name: str) -> Table:
    """Answers of the mounts (body), or of all other joints, to unit inputs in one pose.

    A line is a component, a column an input.
    """
    rows: list[tuple[Cell, ...]] = []
    for one in found.outputs:
        if (one.target == BODY) != body:
            continue
        wrench = in_axes(one, word, solved.model.axes) / 1e3
        for k, component in enumerate(components(word)):
            unit = "kN" if k < 3 else "N·m"
            label = one.name if one.sure else f"{one.name}*"
            rows.append((label, one.source, one.target, component, unit, *map(float, wrench[k])))
    what = "mounts, force on the body" if body else "joints, force on the part named"
    return Table(
        name,
        f"Unit loads, {pose_words(solved.model)}: {what}, {AXES[word]}",
        (
            *(Column(h) for h in ("joint", "force of", "on", "component", "unit")),
            *(Column(heading(i), f"per {i.unit}" if i.unit else "", 4) for i in found.inputs),
        ),
        tuple(rows),
        tuple(_notes(found)),
    )


def heading(one: Input) -> str:
    """Name of an input: heading of its column, and of its line in the table of inputs."""
    return f"{one.where}, {one.direction}"


def _notes(found: UnitLoads) -> Iterator[str]:
    yield (
        "Linear, in this pose, locked struts at their length: force = sum of each column times its input. Fields "
        "act on every mass, 1 g forward, left, up: gravity is -1 up."
    )
    if any(not one.unit for one in found.inputs):
        yield "The last column stands once: what struts push with by themselves and what the pose has wound up."
    if found.at_rest:
        yield (
            f"Force tables of {', '.join(found.at_rest)} are taken as their rate at rest: load cases that go beyond "
            "it are not met."
        )


def unit_input_table(solved: Solved, found: UnitLoads, name: str) -> Table:
    """Each input with the place at which it acts in this pose and its direction, axes of the case file."""
    axes = {word: getattr(solved.model.axes, word) for word in ("forward", "left", "up")}
    rows: list[tuple[Cell, ...]] = []
    for one in found.inputs:
        at = one.case.loads[0].position if one.case.loads else None
        along = axes.get(one.direction.rsplit(" ", 1)[-1])
        place: list[Cell] = [None] * 3 if at is None else [float(x) for x in at]
        vector: list[Cell] = [None] * 3 if along is None else [float(x) for x in along]
        rows.append((heading(one), one.unit, *place, *vector))
    return Table(
        name,
        f"Inputs of the unit loads, {pose_words(solved.model)}: place and direction, axes of the case file",
        (
            Column("input"),
            Column("unit"),
            *(Column(i, "mm", 3) for i in "xyz"),
            *(Column(f"along {i}", "", 6) for i in "xyz"),
        ),
        tuple(rows),
    )
