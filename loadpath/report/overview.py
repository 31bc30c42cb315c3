"""Tables of a checked case: verdicts, load cases, wheel loads, masses, pickup stiffness."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from loadpath.checks import Analysis, Capacity, CheckRow, governing, part_masses, point_stiffness
from loadpath.frame import FrameError
from loadpath.model import BODY
from loadpath.model.targets import Held
from loadpath.report.table import Cell, Column, Table

Array = NDArray[np.float64]

HELD: tuple[Held, ...] = ("mounts rigid", "body rates", "as mounted")


def verdict_table(rows: Sequence[CheckRow]) -> Table:
    """The worst row of each subject, worst first; what was not checked is counted in a note."""
    shown = [r for r in governing(list(rows)) if r.verdict != "not checked"]
    return Table(
        "verdicts",
        "Verdicts, worst first",
        (
            Column("verdict"),
            Column("util.", digits=2),
            Column("subject"),
            Column("load case"),
            Column("demand", digits=1),
            Column("allowable", digits=1),
            Column("unit"),
            Column("where", width=50),
        ),
        tuple(
            (r.verdict, r.utilisation, r.subject, r.case or "-", r.demand, r.allowable, r.unit, r.place)
            for r in shown
        ),
        _verdict_notes(rows, shown),
    )


def _verdict_notes(rows: Sequence[CheckRow], shown: Sequence[CheckRow]) -> tuple[str, ...]:
    notes = [f"Not valid: {r.subject}: {r.reason}." for r in shown if r.verdict == "not valid"]
    for basis in dict.fromkeys(r.basis for r in shown if r.basis):
        kinds = ", ".join(dict.fromkeys(r.kind for r in shown if r.basis == basis))
        notes.append(f"Basis ({kinds}): {basis}.")
    for reason in dict.fromkeys(r.reason for r in rows if r.verdict == "not checked"):
        subjects = dict.fromkeys(
            f"{r.subject} ({r.place})" if r.place else r.subject
            for r in rows
            if r.verdict == "not checked" and r.reason == reason
        )
        notes.append(f"Not checked: {'; '.join(subjects)}: {reason}.")
    return tuple(notes)


def all_checks_table(rows: Sequence[CheckRow]) -> Table:
    """Every row of every check, for files."""
    columns = ("kind", "subject", "place", "load case", "verdict")
    return Table(
        "checks",
        "All checks",
        (
            *(Column(c) for c in columns),
            *(Column(c, digits=3) for c in ("utilisation", "demand", "allowable")),
            *(Column(c) for c in ("unit", "basis", "reason")),
        ),
        tuple(
            (
                *(r.kind, r.subject, r.place, r.case, r.verdict),
                *(r.utilisation, r.demand, r.allowable, r.unit, r.basis, r.reason),
            )
            for r in rows
        ),
    )


def load_case_table(analysis: Analysis, capacities: Sequence[Capacity]) -> Table:
    """Each load case with what it has left before the first check is reached."""
    checks = {check.case: check for check in analysis.checks}
    rows: list[tuple[Cell, ...]] = []
    for case, capacity in zip(analysis.cases, capacities, strict=True):
        size = f"{capacity.size[1]:.2f} {capacity.size[0]}" if capacity.size else "-"
        first = capacity.first.subject if capacity.first else "-"
        refused = case.name in analysis.refused
        check = checks[case.name]
        closes = f"{max(check.equilibrium, check.balance):.0e}" + (" REFUSED" if refused else "")
        factor = None if refused else capacity.factor
        rows.append((case.name, case.kind, case.cls, factor, size, first, closes))
    return Table(
        "load_cases",
        "Load cases and their capacity",
        (
            Column("load case"),
            Column("kind"),
            Column("class"),
            Column("capacity, × case", digits=2),
            Column("that is"),
            Column("reached first at"),
            Column("forces close to"),
        ),
        tuple(rows),
        (
            "Capacity: factor on the whole load case, gravity included, at which its first check reaches 1.00.",
            "Forces close to: largest closing error of a part, or of wheels, masses and mounts, relative.",
        ),
    )


def wheel_load_table(analysis: Analysis) -> Table:
    """Ground forces on each wheel with the terms that make them."""
    axes = analysis.model.axes
    turn = np.array([axes.forward, axes.left, axes.up])
    rows: list[tuple[Cell, ...]] = []
    for case in analysis.cases:
        for load in case.wheel_loads:
            forward, left, up = (float(f) / 1e3 for f in turn @ load.force)
            terms = "; ".join(f"{label} {value / 1e3:.2f}" for label, value in load.terms)
            rows.append((case.name, load.wheel, forward, left, up, load.at, terms))
    forces = tuple(Column(f"F {word}", "kN", 2) for word in ("forward", "left", "up"))
    return Table(
        "wheel_loads",
        "Wheel loads, force of the ground on the wheel",
        (Column("load case"), Column("wheel"), *forces, Column("acts at"), Column("terms, kN", width=56)),
        tuple(rows),
    )


def balance_table(analysis: Analysis) -> Table:
    """What enters from outside, what the masses add in the field, and what the body's points take."""
    axes, solution = analysis.model.axes, analysis.solution
    turn = np.array([axes.forward, axes.left, axes.up])
    entering = np.array([sum((p.force for p in case.loads), np.zeros(3)) for case in analysis.cases])
    onto_body = -solution.ground_forces[:, :3].sum(axis=0).T
    rows: list[tuple[Cell, ...]] = []
    for c, case in enumerate(analysis.cases):
        if case.name in analysis.refused:
            continue
        masses = onto_body[c] - entering[c]
        values = [turn @ v / 1e3 for v in (entering[c], masses, onto_body[c])]
        rows.append((case.name, *(float(x) for v in values for x in v)))
    columns = [
        Column(f"{what} {word}", "kN", 2) for what in ("in", "mass", "body") for word in ("fwd", "left", "up")
    ]
    return Table(
        "balance",
        "Balance: loads that enter, masses in the field, forces on the body",
        (Column("load case"), *columns),
        tuple(rows),
    )


def mass_table(analysis: Analysis) -> Table:
    """Mass of every part."""
    masses = part_masses(analysis)
    rows: list[tuple[Cell, ...]] = [
        (part, analysis.model.parts[part].kind, mass * 1e3) for part, mass in masses.items() if mass
    ]
    rows.append(("total", "", sum(masses.values()) * 1e3))
    return Table(
        "masses",
        "Masses",
        (Column("part"), Column("kind"), Column("mass", "kg", 2)),
        tuple(rows),
        ("Members and lumped masses; brackets, welds and fixings weigh only what lumped masses give them.",),
    )


def stiffness_table(analysis: Analysis) -> Table:
    """Stiffness of the pickup points of every frame part that stands on the body, for all three holdings."""
    model = analysis.model
    words = (("forward", model.axes.forward), ("left", model.axes.left), ("up", model.axes.up))
    rows: list[tuple[Cell, ...]] = []
    for part, points in _pickups(analysis).items():
        at = [p for p in points for _ in words]
        along = [vector for _ in points for _, vector in words]
        found = [_stiffness_or_none(analysis, part, held, at, along) for held in HELD]
        for k, point in enumerate(at):
            word = words[k % 3][0]
            rows.append((part, point, word, *(None if f is None else float(f[k]) / 1e3 for f in found)))
    return Table(
        "stiffness",
        "Pickup stiffness, the part alone on its mounts",
        (
            Column("part"),
            Column("point"),
            Column("along"),
            *(Column(h, "kN/mm", 1) for h in HELD),
        ),
        tuple(rows),
        (
            "Upper bounds of a beam model. Mounts rigid: mount bushings fixed in translation on a rigid body; body "
            "rates: the same on the body's rates; as mounted: mount bushings and the body's rates.",
        ),
    )


def _pickups(analysis: Analysis) -> dict[str, list[str]]:
    """Points at which other parts are joined to each frame part that has joints to the body."""
    joints = analysis.model.joints.values()
    found: dict[str, list[str]] = {}
    for part in analysis.model.parts.values():
        own = [j for j in joints if part.name in j.between]
        mounted = sum(BODY in j.between for j in own)
        points = list(dict.fromkeys(j.point for j in own if BODY not in j.between))
        if part.kind == "frame" and mounted >= 3 and points:
            found[part.name] = points
    return found


def _stiffness_or_none(
    analysis: Analysis, part: str, held: Held, points: list[str], along: list[Array]
) -> Array | None:
    try:
        return point_stiffness(analysis.model, part, held, points, along)
    except FrameError:
        return None
