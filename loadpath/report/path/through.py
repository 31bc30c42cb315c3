"""Tables of one part: its free body, what comes in and which joint takes it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from loadpath.checks import Analysis, Solved
from loadpath.report.path.trace import Bodies, star_notes, starred
from loadpath.report.poses import case_words
from loadpath.report.table import Cell, Column, Table
from loadpath.trace import (
    Action,
    Contributions,
    Measure,
    Source,
    closing_error,
    moved,
    total,
    worth,
)

Array = NDArray[np.float64]

_FORCES = tuple(Column(f"F{i}", "kN", 2) for i in "xyz")
_MOMENTS = tuple(Column(f"M{i}", "N·m", 1) for i in "xyz")


def free_body_table(analysis: Analysis, bodies: Bodies, part: str, c: int) -> Table:
    """All that acts on a part in one load case, and its sum, which must vanish."""
    actions = bodies[c][part]
    about = next((a for a in actions if a.point and a.kind != "load"), actions[0] if actions else None)
    origin = np.zeros(3) if about is None else about.position
    rows: list[tuple[Cell, ...]] = []
    for action in actions:
        wrench = moved(action.wrench, action.position, origin) / 1e3
        rows.append(
            (starred(action), action.kind, action.source or "-", action.point or "-", *map(float, wrench))
        )
    rows.append(("sum", "", "", "", *map(float, total(actions, origin) / 1e3)))
    case = analysis.cases[c].name
    where = (
        f"moments about {about.point}" if about is not None and about.point else "moments about the origin"
    )
    error = closing_error(actions, worth(bodies[c]))
    return Table(
        f"free_body_{part}_{case}",
        f"Free body of {part}: all that acts on it, load case {case_words(analysis, c)}",
        (Column("what", width=44), Column("kind"), Column("from"), Column("at"), *_FORCES, *_MOMENTS),
        tuple(rows),
        (
            *star_notes(analysis, [a.name for a in actions]),
            f"Axes of the case file, {where}. The sum closes to {error:.0e} of the largest force.",
        ),
    )


def free_bodies_table(analysis: Analysis, bodies: Bodies) -> Table:
    """Every part in every load case, moments about each action's own point, for files."""
    rows: list[tuple[Cell, ...]] = [
        (
            *(part, analysis.cases[c].name, starred(a), a.kind, a.source or "-", a.point or "-"),
            *map(float, a.position),
            *map(float, a.wrench / 1e3),
        )
        for c, parts in bodies.items()
        for part, actions in parts.items()
        for a in actions
    ]
    return Table(
        "free_bodies",
        "Free bodies: all that acts on each part and on the body, axes of the case file",
        (
            *(Column(h) for h in ("part", "load case", "what", "kind", "from", "at")),
            *(Column(i, "mm", 1) for i in "xyz"),
            *_FORCES,
            *_MOMENTS,
        ),
        tuple(rows),
        ("Moments are about the place of each action.",),
    )


def closing_table(analysis: Analysis, bodies: Bodies) -> Table:
    """Closing sum of every part in every load case, for files; moments about the origin of the case file."""
    rows: list[tuple[Cell, ...]] = []
    for c, parts in bodies.items():
        for part in analysis.model.parts:
            actions: Sequence[Action] = parts[part]
            left = total(actions, np.zeros(3)) / 1e3
            error = closing_error(actions, worth(parts))
            rows.append((part, analysis.cases[c].name, *map(float, left), error))
    return Table(
        "free_body_sums",
        "Sum of all that acts on each part; must vanish",
        (Column("part"), Column("load case"), *_FORCES, *_MOMENTS, Column("closing error", "", 15)),
        tuple(rows),
    )


def contribution_table(analysis: Analysis, found: Contributions, measure: Measure, c: int) -> Table:
    """What each thing that comes into a part gives to each joint that the part stands on."""
    values = contribution_values(found, measure, analysis.at(c)[1]) / 1e3
    names = [n if sure else f"{n}*" for n, sure in zip(found.joints, found.sure, strict=True)]
    rows: list[tuple[Cell, ...]] = [
        (source.name, source.kind, source.source or "-", *map(float, row), float(row.sum()))
        for source, row in zip(found.sources, values, strict=True)
    ]
    rows.append(("sum", "", "", *map(float, values.sum(axis=0)), float(values.sum())))
    case = analysis.cases[c].name
    return Table(
        f"through_{found.part}_{case}_{measure.name}",
        f"Through {found.part}: what comes in and which joint takes it, {measure.title}, "
        f"load case {case_words(analysis, c)}",
        (
            Column("what comes in", width=40),
            Column("kind"),
            Column("from"),
            *(Column(n, measure.unit, 2) for n in (*names, "together")),
        ),
        tuple(rows),
        star_notes(analysis, found.joints),
    )


def contribution_values(found: Contributions, measure: Measure, k: int) -> Array:
    """(n_in, n_out) of one measure [N or N·mm] in load case number k of the pose that was followed."""
    return np.array(
        [
            [measure.of(w[:, k], at) for w, at in zip(row, found.positions, strict=True)]
            for row in found.wrenches
        ]
    ).reshape(len(found.sources), len(found.joints))


def through_notes(found: Contributions) -> tuple[str, ...]:
    """How a contribution is defined and how well they add up."""
    return (
        f"Each load is applied alone to {found.part}, held by {', '.join(found.joints)} with their rates and the "
        "body's as they are; forces on what it stands on. They add up to the forces of the whole model to "
        f"{found.closing.max(initial=0.0):.0e}.",
    )


def contributions_table(analysis: Analysis, found: Sequence[tuple[Solved, Contributions]]) -> Table:
    """All six components of every contribution in every load case, for files."""
    rows: list[tuple[Cell, ...]] = []
    for solved, one in found:
        for k, c in enumerate(solved.numbers):
            if c not in analysis.shown:
                continue
            for source, row in zip(one.sources, one.wrenches[:, :, :, k], strict=True):
                rows += [
                    (one.part, analysis.cases[c].name, *_named(source), joint, *map(float, wrench / 1e3))
                    for joint, wrench in zip(one.joints, row, strict=True)
                ]
    return Table(
        "contributions",
        "What comes into each part and which of its joints takes it, axes of the case file",
        (
            *(Column(h) for h in ("part", "load case", "what comes in", "kind", "from", "taken by")),
            *_FORCES,
            *_MOMENTS,
        ),
        tuple(rows),
        ("Forces on what the part stands on, moments about the joint's own point.",),
    )


def _named(source: Source) -> tuple[str, str, str]:
    return source.name, source.kind, source.source or "-"
