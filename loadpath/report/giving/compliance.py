"""Tables of elasto-kinematics: how wheels give way, the usual figures, and what brings how much."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from loadpath.compliance import (
    ANSWERS,
    FIGURES,
    LOADS,
    TOGETHER,
    Answers,
    Loaded,
    Ride,
    Shares,
    alike,
    picked,
    reciprocity,
)
from loadpath.model import Model
from loadpath.report.table import Cell, Column, Table

Array = NDArray[np.float64]

COMPLIANCE_SIGNS = (
    "Loads on the wheel from the ground: lateral force inward (as on the outer wheel in a corner), braking and "
    "impact rearward, driving forward, aligning moment towards toe-in, vertical upward. Toe-in positive; camber "
    "positive with the top leaning outward; wind-up positive with the top of the carrying part turning forward; "
    "movements rearward, inward, upward. The same for both sides."
)
COMPLIANCE_LIMITS = (
    "Small loads about the pose, with straight laws: the tyre is rigid, the carrying parts are rigid, the load that "
    "springs, bushings and tie rods already carry has no stiffness of its own, friction is left out."
)
_NO_SOLUTION = "cannot be solved with"
SAME = 0.05
"""Share of the largest answer by which wheels that are printed in one line may differ."""


def _number(value: float) -> float | None:
    return None if np.isnan(value) else float(value)


def _label(answers: Answers, group: Sequence[int]) -> str:
    return ", ".join(answers.wheels[i] for i in group)


def answers_table(model: Model, answers: Answers, how: Loaded, within: float = SAME) -> Table:
    """Everything a wheel does under each unit load."""
    values, wheels = answers.shown(how), list(model.wheels.values())
    rows: list[tuple[Cell, ...]] = []
    for group in alike(answers, within):
        i = group[0]
        for k, load in enumerate(answers.loads):
            if np.isnan(values[i, :, k]).all():
                continue
            cells = map(_number, values[i, :, k])
            rows.append(
                (_label(answers, group), f"{load.name}, 1 {load.unit}", load.where(wheels[i]), *cells)
            )
    return Table(
        f"compliance_{how}",
        f"How the wheels give way: {TOGETHER[how]}",
        (
            Column("wheel", width=16),
            Column("load"),
            Column("acts at", width=20),
            *(Column(a.name, a.unit, 3 if a.unit == "deg" else 2, width=9) for a in ANSWERS),
        ),
        tuple(rows),
        _one_line(alike(answers, within)),
    )


def _one_line(groups: Sequence[Sequence[int]]) -> tuple[str, ...]:
    """Says what wheels in one line mean, where there are any."""
    if all(len(group) == 1 for group in groups):
        return ()
    return (
        f"Wheels in one line differ by no more than {100 * SAME:g} % of the largest angle or movement; the first "
        "is shown, files have each.",
    )


def figures_table(model: Model, answers: Answers, how: Loaded, ride: Ride, within: float = SAME) -> Table:
    """The usual figures, each with what is usual."""
    values, wheels = answers.shown(how), list(model.wheels.values())
    rows: list[tuple[Cell, ...]] = []
    for group in alike(answers, within):
        i, who = group[0], _label(answers, group)
        for figure, value in zip(FIGURES, picked(values[i]), strict=True):
            if not np.isnan(value):
                rows.append(
                    (who, figure.name, float(value), figure.unit, figure.usual.get(wheels[i].axle, "-"))
                )
        rows.append((who, "lateral stiffness at the patch", *_stiffness(answers, how, i, "lateral"), "-"))
        if ride.springs:
            rows.append((who, "wheel rate, tyre rigid", *_stiffness(answers, how, i, "vertical"), "-"))
    return Table(
        f"compliance_figures_{how}",
        f"Figures: {TOGETHER[how]}",
        (
            Column("wheel", width=16),
            Column("figure"),
            Column("value", digits=3),
            Column("per", width=8),
            Column("usual", width=44),
        ),
        tuple(rows),
    )


def _stiffness(answers: Answers, how: Loaded, i: int, load: str) -> tuple[float | None, str]:
    """1 / movement along the load, in kN/mm, or N/mm for the wheel rate."""
    moves = {"lateral": "patch inward", "vertical": "centre upward"}[load]
    row = next(k for k, a in enumerate(ANSWERS) if a.name == moves)
    column = next(k for k, one in enumerate(LOADS) if one.name == load)
    movement = float(answers.shown(how)[i, row, column])
    if not movement > 0:
        return None, "kN/mm" if load == "lateral" else "N/mm"
    return (1 / movement, "kN/mm") if load == "lateral" else (1e3 / movement, "N/mm")


def brought_table(shares: Shares, how: Loaded, within: float = SAME) -> Table:
    """What each group brings to each figure, what travel on the springs leaves, and the remainder."""
    base = shares.base.shown(how)
    columns = [base, *shares.brought(how), shares.on_springs(how), shares.remainder(how)]
    values = picked(np.array(columns))
    rows: list[tuple[Cell, ...]] = []
    for group in alike(shares.base, within):
        for k, figure in enumerate(FIGURES):
            cells = values[:, group[0], k]
            if not np.isnan(cells[0]):
                who = _label(shares.base, group)
                rows.append((who, figure.name, figure.unit, *map(_number, cells)))
    return Table(
        f"compliance_shares_{how}",
        f"What gives way, by making each group rigid in turn: {TOGETHER[how]}",
        (
            Column("wheel", width=16),
            Column("figure"),
            Column("per", width=8),
            Column("as built", digits=4, width=9),
            *(Column(s.group.name, digits=4, width=9) for s in shares.shares),
            Column("on springs", digits=4, width=9),
            Column("remainder", digits=4, width=9),
        ),
        tuple(rows),
        (
            "Each group: as built less the value with that group rigid. On springs: what is left with everything "
            "rigid, the wheel's travel on its springs. Remainder: as built less all of these; it is not 0 where a "
            "stiffer group sends the load another way.",
            *_failed(shares),
        ),
    )


def _failed(shares: Shares) -> list[str]:
    failed = [f"{s.group.name}: {s.reason}" for s in shares.shares if s.answers is None]
    if shares.rigid is None:
        failed.append(f"everything rigid: {shares.why_not}")
    return [f"Not known: the model {_NO_SOLUTION} {text}." for text in failed]


def single_table(shares: Shares, how: Loaded, within: float = SAME, most: int | None = None) -> Table:
    """What every single thing brings to each figure; the `most` largest of each where that is given."""
    base, brought = picked(shares.base.shown(how)), picked(shares.brought(how))
    rows: list[tuple[Cell, ...]] = []
    for group in alike(shares.base, within):
        i, who = group[0], _label(shares.base, group)
        for k, figure in enumerate(FIGURES):
            if np.isnan(base[i, k]):
                continue
            order = np.argsort(-np.nan_to_num(np.abs(brought[:, i, k])), kind="stable")[:most]
            for s in order:
                value = _number(brought[s, i, k])
                percent = None if value is None or not base[i, k] else 100 * value / base[i, k]
                name = shares.shares[s].group.name
                rows.append((who, figure.name, figure.unit, float(base[i, k]), name, value, percent))
    return Table(
        f"compliance_singles_{how}",
        f"What gives way, by making each thing rigid in turn: {TOGETHER[how]}",
        (
            Column("wheel", width=16),
            Column("figure"),
            Column("per", width=8),
            Column("as built", digits=4),
            Column("rigid"),
            Column("it brings", digits=4),
            Column("share", "%", 1),
        ),
        tuple(rows),
        ("Side by side these do not add up: what is stiffer takes load from the rest.", *_failed(shares)),
    )


def compliance_lines(model: Model, ride: Ride, answers: Answers) -> list[str]:
    """Self-check, what carries the wheels, and what was taken as rigid or straight."""
    lines = [
        f"Self-check: movements at one wheel load for another and the reverse agree to "
        f"{reciprocity(model, answers):.0e} of the largest (Maxwell)."
    ]
    if ride.springs:
        rates = ", ".join(f"{name} {rate:.1f}" for name, rate in ride.springs.items())
        lines.append(
            "Height: the body is clamped, pads keep their vertical load and move freely, the wheels ride on their "
            f"springs (common practice, no source); rates in N/mm: {rates}."
        )
    if ride.locked:
        lines.append(f"Height: {', '.join(ride.locked)} locked at length: no travel on the springs.")
    if ride.curved:
        lines.append(f"Of {', '.join(ride.curved)} only the slope of the table at rest is taken.")
    rigid = [w.name for w in model.wheels.values() if w.hub_tilt is None]
    if rigid:
        lines.append(f"Hub bearings taken as rigid, no hub_tilt is given: {', '.join(rigid)}.")
    free = [j.name for j in model.joints.values() if j.rates is not None and j.moves_as == "free"]
    if free:
        lines.append(f"Never made rigid, as the kinematics do without them: {', '.join(free)}.")
    return [*lines, COMPLIANCE_SIGNS, COMPLIANCE_LIMITS]
