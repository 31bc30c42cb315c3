"""Tables of load cases before anything is solved: the standard set, those of a case, and its loading states."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from loadpath.loads import STANDARD_GRAVITY, LoadKind, StandardRow, pose_words
from loadpath.model import Vehicle
from loadpath.report.table import Cell, Column, Table

CLASSES = (
    "Class: rare, no permanent set; abuse, no separation; repeated, a stress range, "
    "which no single load case has."
)
FACTORS = (
    "No single open table of such factors is authoritative: sources differ by a factor of 2. They are a start for "
    "the review to agree on, and no substitute for measured road loads."
)


@dataclass(frozen=True)
class ToldLoadCase:
    """A load case of a case as the table shows it.

    origin : whether it is a standard one or the file writes it. words : kind and numbers. state : with the static
    load of a wheel in it. multiplies : the load that its numbers multiply. pose : it acts in.
    """

    name: str
    origin: str
    words: str
    cls: str
    state: str
    acts_at: str
    multiplies: str
    pose: str
    source: str


def set_table(rows: Iterable[tuple[StandardRow, LoadKind, str]]) -> Table:
    """Every row of a set with the load case that it says, its numbers in words, and their source."""
    return Table(
        "standard_loads",
        "Standard load cases",
        (
            Column("row"),
            Column("what", width=18),
            Column("kind and numbers", width=24),
            Column("class"),
            Column("multiplies", width=16),
            Column("acts at", width=16),
            Column("other wheels", width=12),
            Column("pose", width=11),
            Column("source", width=34),
        ),
        tuple(_row(*row) for row in rows),
        ("A row in _l has a twin in _r, its mirror image.", CLASSES, FACTORS),
    )


def _row(row: StandardRow, spec: LoadKind, words: str) -> tuple[Cell, ...]:
    text = row.text
    cells = (spec.multiplies(), text.acts_at, text.others, pose_words(spec.pose), text.source)
    return (row.name, text.what, words, spec.cls, *cells)


def taken_table(told: Sequence[ToldLoadCase]) -> Table:
    """The load cases of a case: where each comes from, what it multiplies, where it acts."""
    rows = tuple(
        (t.name, t.origin, t.words, t.cls, t.state, t.multiplies, t.acts_at, t.pose, t.source) for t in told
    )
    return Table(
        "load_case_sources",
        "Load cases of the case file",
        (
            Column("load case"),
            Column("from", width=10),
            Column("kind and numbers", width=24),
            Column("class"),
            Column("static wheel load, kN", width=12),
            Column("multiplies", width=16),
            Column("acts at", width=18),
            Column("pose", width=11),
            Column("source", width=32),
        ),
        rows,
        (CLASSES, FACTORS) if rows else (),
    )


def state_table(vehicle: Vehicle) -> Table:
    """Loading states of the vehicle with the wheel loads that load cases multiply."""
    every = (vehicle, *vehicle.states.values())
    return Table(
        "states",
        "Loading states of the vehicle",
        (
            Column("state"),
            Column("mass", "kg", 0),
            Column("front share", "%", 1),
            Column("cg height", "mm", 0),
            Column("front wheel", "kN", 2),
            Column("rear wheel", "kN", 2),
            Column("front travel", "mm", 0),
            Column("rear travel", "mm", 0),
        ),
        tuple(
            (
                *(one.state, one.mass * 1e3, one.front_share * 100, one.cg_height),
                *(wheel_load(one, axle) for axle in ("front", "rear")),
                *(one.front.travel, one.rear.travel),
            )
            for one in every
        ),
        ("Static load of one wheel; travel from design height, up against the body positive.",),
    )


def wheel_load(vehicle: Vehicle, axle: str) -> float:
    """Static load of one wheel of an axle [kN]."""
    return vehicle.axle_mass(axle) * STANDARD_GRAVITY / 2 / 1e3
