"""Tables of a checked case: verdicts, load cases, wheel loads, balance, masses, pickup stiffness."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from loadpath.checks import (
    HELD,
    Analysis,
    Capacity,
    CheckRow,
    governing,
    part_masses,
    pickup_stiffnesses,
    upper_bound,
)
from loadpath.model import in_short, weights
from loadpath.report.table import Cell, Column, Table

Array = NDArray[np.float64]


PLACES = "Where: y and z are distances from the section's centroid along its axes [mm]."


def verdict_table(rows: Sequence[CheckRow]) -> Table:
    """The worst row of each subject, worst first; what was not checked is told in notes."""
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
    why: dict[tuple[str, str], list[str]] = {}
    for r in shown:
        if r.verdict == "not valid" or (r.verdict == "exceeds" and r.reason):
            why.setdefault((r.verdict.capitalize(), r.reason), []).append(r.subject)
    notes = [f"{verdict}: {', '.join(subjects)}: {reason}." for (verdict, reason), subjects in why.items()]
    for kind in dict.fromkeys(r.kind for r in shown):
        bases = dict.fromkeys(r.basis for r in shown if r.kind == kind and r.basis)
        notes += [f"Basis ({kind}): {basis}." for basis in bases]
    for reason in dict.fromkeys(r.reason for r in rows if r.verdict == "not checked"):
        subjects = dict.fromkeys(
            f"{r.subject} ({r.place})" if r.place else r.subject
            for r in rows
            if r.verdict == "not checked" and r.reason == reason
        )
        notes.append(f"Not checked: {'; '.join(subjects)}: {reason}.")
    return (PLACES, *notes) if shown else tuple(notes)


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
    """Each load case with what it has left before the first check is reached, and its self-checks."""
    checks = {check.case: check for check in analysis.checks}
    rolls = any(case.roll for case in analysis.cases)
    rows: list[tuple[Cell, ...]] = []
    for case, capacity in zip(analysis.cases, capacities, strict=True):
        check = checks[case.name]
        refused = case.name in analysis.refused
        closes = f"{max(check.equilibrium, check.balance):.0e}" + (" REFUSED" if refused else "")
        size = f"{capacity.size[1]:.2f} {capacity.size[0]}" if capacity.size else "-"
        first = capacity.first.subject if capacity.first else "-"
        roll = [float(np.degrees(case.roll))] if rolls else []
        factor = None if refused else capacity.factor
        rows.append((case.name, case.kind, case.cls, *roll, factor, size, first, closes))
    reasons: dict[str, list[str]] = {}
    for capacity in capacities:
        if capacity.reason:
            reasons.setdefault(capacity.reason, []).append(capacity.case)
    return Table(
        "load_cases",
        "Load cases and their capacity",
        (
            Column("load case"),
            Column("kind"),
            Column("class"),
            *((Column("body roll", "deg", 2),) if rolls else ()),
            Column("capacity, × case", digits=2),
            Column("that is"),
            Column("reached first at"),
            Column("forces close to"),
        ),
        tuple(rows),
        (
            "Capacity: factor on the whole load case, gravity included, at which its first check reaches 1.00.",
            *(f"Capacity of {_which(cases, capacities)}: {reason}." for reason, cases in reasons.items()),
            "Forces close to: largest closing error of a part, or of loads, masses and mounts, relative.",
        ),
    )


def _which(cases: Sequence[str], capacities: Sequence[Capacity]) -> str:
    """Load cases in a sentence."""
    return "every load case" if len(cases) == len(capacities) else in_short(cases)


def case_notes(analysis: Analysis) -> list[str]:
    """Statements of the load cases about themselves, those with the same text together."""
    merged: dict[str, list[str]] = {}
    for case in analysis.cases:
        for note in case.notes:
            merged.setdefault(note, []).append(case.name)
    return [f"{in_short(cases)}: {note}" for note, cases in merged.items()]


def wheel_load_table(analysis: Analysis) -> Table:
    """Ground forces on each wheel with the terms that make them."""
    turn = _turn(analysis)
    rows: list[tuple[Cell, ...]] = []
    for case in analysis.cases:
        for load in case.wheel_loads:
            forward, left, up = (float(f) / 1e3 for f in turn @ load.force)
            rows.append((case.name, load.wheel, forward, left, up, load.at, _terms(load.terms)))
    forces = tuple(Column(f"F {word}", "kN", 2) for word in ("forward", "left", "up"))
    return Table(
        "wheel_loads",
        "Wheel loads, force of the ground on the wheel",
        (
            Column("load case"),
            Column("wheel"),
            *forces,
            Column("acts at", width=20),
            Column("terms, kN", width=60),
        ),
        tuple(rows),
    )


def _terms(terms: Sequence[tuple[str, float]]) -> str:
    """Terms by direction: "up: static 8.08, longitudinal transfer -3.42; forward: friction brake -4.65"."""
    by_direction: dict[str, list[str]] = {}
    for label, value in terms:
        direction, _, what = label.partition(": ")
        by_direction.setdefault(direction, []).append(f"{what} {value / 1e3:.2f}")
    return "; ".join(f"{direction}: {', '.join(parts)}" for direction, parts in by_direction.items())


def other_load_table(analysis: Analysis) -> Table:
    """Loads that do not come in by the ground's force on a wheel: torques on housings, given forces."""
    wheels = {(w.part, w.centre) for w in analysis.model.wheels.values()}
    rows: list[tuple[Cell, ...]] = []
    for case in analysis.cases:
        for load in case.loads:
            if (load.part, load.point) in wheels and not load.moment.any():
                continue
            force, moment = load.force / 1e3, load.moment / 1e3
            rows.append(
                (case.name, load.part, load.point, *map(float, force), *map(float, moment), load.what)
            )
    return Table(
        "other_loads",
        "Other loads, axes of the case file",
        (
            Column("load case"),
            Column("on part"),
            Column("at"),
            *(Column(f"F{i}", "kN", 2) for i in "xyz"),
            *(Column(f"M{i}", "N·m", 0) for i in "xyz"),
            Column("what", width=44),
        ),
        tuple(rows),
    )


def _turn(analysis: Analysis) -> Array:
    axes = analysis.model.axes
    return np.array([axes.forward, axes.left, axes.up])


def balance_table(analysis: Analysis) -> Table:
    """Loads that enter, every mass in its field, and what the body's points take."""
    turn = _turn(analysis)
    fields = weights(analysis.model).forces(analysis.cases).sum(axis=0)
    ground = analysis.together(lambda s: s.solution.ground_forces)
    rows: list[tuple[Cell, ...]] = []
    for c in analysis.shown:
        case = analysis.cases[c]
        entering = sum((p.force for p in case.loads), np.zeros(3)) + _line_total(analysis, c)
        onto_body = -ground[:, :3, c].sum(axis=0)
        values = [turn @ v / 1e3 for v in (entering, fields[:, c], onto_body)]
        rows.append((case.name, *(float(x) for word in np.transpose(values) for x in word)))
    columns = [
        Column(f"{word}: {what}", "kN", 2)
        for word in ("forward", "left", "up")
        for what in ("loads", "masses", "body")
    ]
    return Table(
        "balance",
        "Balance: loads that enter + masses in the field = forces on the body",
        (Column("load case"), *columns),
        tuple(rows),
        (
            "Masses are worked out beside the solution; the self-checks hold force and moment of this balance.",
        ),
    )


def _line_total(analysis: Analysis, c: int) -> Array:
    elements = analysis.elements
    total = np.zeros(3)
    for load in analysis.cases[c].line_loads:
        for part, member, length in zip(elements.part, elements.member, elements.length, strict=True):
            if (part, member) == (load.part, load.member):
                total += load.force * length
    return total


def mass_table(analysis: Analysis) -> Table:
    """Mass of every part."""
    masses = part_masses(analysis)
    kinds = {name: part.kind for name, part in analysis.model.parts.items()}
    rows: list[tuple[Cell, ...]] = [(p, kinds.get(p, ""), m * 1e3) for p, m in masses.items() if m]
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
    rows: list[tuple[Cell, ...]] = []
    parts: dict[str, None] = {}
    for pickup in pickup_stiffnesses(analysis):
        parts[pickup.part] = None
        for d, word in enumerate(("forward", "left", "up")):
            values = (float(k) / 1e3 if np.isfinite(k) else None for k in pickup.found[:, d])
            rows.append((pickup.part, pickup.point, word, *values))
    notes = [
        "Mounts rigid: mount bushings fixed in translation on a rigid body; body rates: the same on the body's "
        "rates; as mounted: mount bushings and the body's rates."
    ]
    notes += [f"{part}: {upper_bound(analysis.model, part)}." for part in parts]
    if any(m.is_default for m in analysis.model.body_mounts.values()):
        notes.append("The body's rates behind the mounts are defaults; they rule the last two columns.")
    return Table(
        "stiffness",
        "Pickup stiffness, the part alone on its mounts",
        (Column("part"), Column("point"), Column("along"), *(Column(h, "kN/mm", 1) for h in HELD)),
        tuple(rows),
        tuple(notes),
    )
