"""Tables of the room round the wheels: least clearances, and how far sections may grow."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from loadpath.model import Axes, Model
from loadpath.report.table import Cell, Column, Table
from loadpath.room import EXACT, FAR, GROWTH, MODES, MOST, WAYS, Clearance, FreeWidth, WheelPose

ROOM_BASIS = (
    "Clearances asked for are common practice, no source: wheel to cradle, arm or shaft 10 to 15 mm at worst (full "
    "travel, full lock, snow chain where one is allowed), 20 nominal; half-shaft boot 15 moving."
)
ROOM_LIMITS = (
    "Parts are rigid and bushings are balls: what they give under load is not in it. The tyre is new, unloaded and "
    "of nominal size, in the wheel's middle plane: growth in service, run-out, snow chains and build tolerances come "
    "off the clearance. Inside the rim only its barrel counts: no disc, brake or knuckle. Brackets, hoses and "
    "anything that is no member are not seen."
)
_ALIKE = 1.0
_PRINTED = 100.0
"""[mm] clearance up to which a row is printed; files have all."""
_PLACE = tuple(Column(i, "mm", 0) for i in "xyz")
_STAND = (Column("jounce", "mm", 0), Column("rack", "% left", 0), Column("other wheels"))


def clearance_table(found: Sequence[Clearance], required: Mapping[str, float]) -> Table:
    """Least clearance of every member that is near, worst first; the right side only where it differs."""
    near = [c for c in found if c.clearance <= _PRINTED]
    shown = [c for c in near if not _twin(c, found)]
    rows: list[tuple[Cell, ...]] = [
        (c.mover.name, c.name, *_sizes(c, required), _pose(c.stand), " - ".join(c.between)) for c in shown
    ]
    notes = [
        f"Told too small by no more than {EXACT.near:g} mm and {100 * EXACT.share:g} %, never too large, over all "
        "poses between the limits. Negative: they meet."
    ]
    if len(shown) < len(found):
        notes.append(
            f"{len(near) - len(shown)} rows of the right side that are as on the left, and {len(found) - len(near)} "
            f"of more than {_PRINTED:g} mm, are left out; files have them, up to {FAR:g} mm."
        )
    return Table(
        "clearances",
        "Least clearances over full travel and steer",
        (*_NAMES, *_SIZES, Column("pose", width=20), Column("where, between", width=16)),
        tuple(rows),
        tuple(notes),
    )


_NAMES = (Column("of", width=13), Column("to member", width=22))
_SIZES = (
    Column("clear", "mm", 1, width=8),
    Column("asked", "mm", 0, width=8),
    Column("short by", "mm", 1, width=8),
)


def _sizes(c: Clearance, required: Mapping[str, float]) -> tuple[Cell, ...]:
    asked = required[c.mover.kind]
    return c.clearance, asked, asked - c.clearance if is_short(c, required) else None


def is_short(c: Clearance, required: Mapping[str, float]) -> bool:
    """True where less is left than the clearance [mm] asked for from its kind of mover; at 0 where they meet."""
    return c.clearance < required[c.mover.kind]


def all_clearances_table(found: Sequence[Clearance], required: Mapping[str, float]) -> Table:
    """Every clearance with its pose and place in numbers."""
    rows: list[tuple[Cell, ...]] = [
        (
            c.mover.name,
            c.name,
            *_sizes(c, required),
            *_stand(c.stand),
            " - ".join(c.between),
            *map(float, c.at),
        )
        for c in found
    ]
    columns = (*_NAMES, *_SIZES, *_STAND, Column("where, between"), *_PLACE)
    return Table("clearances", "Least clearances over full travel and steer", columns, tuple(rows))


def _stand(stand: WheelPose | None) -> tuple[Cell, ...]:
    return (None, None, "-") if stand is None else (stand.jounce, 100 * stand.steer, stand.others or "-")


def _pose(stand: WheelPose | None) -> str:
    if stand is None:
        return "-"
    rack = f", rack {100 * stand.steer:+.0f} %" if stand.steer else ""
    others = ", others opposite" if stand.others == MODES[1] else ""
    return f"jounce {stand.jounce:+.0f}{rack}{others}"


def _twin(c: Clearance, found: Sequence[Clearance]) -> bool:
    """True for one of the right side that the left has too."""
    return any(
        other.mover.wheel.left
        and not c.mover.wheel.left
        and other.mover.name == _other_side(c.mover.name)
        and other.name == _other_side(c.name)
        and abs(other.clearance - c.clearance) <= _ALIKE + EXACT.share * abs(c.clearance)
        for other in found
    )


def _other_side(name: str) -> str:
    """The name on the left of what has this name on the right."""
    parts = name.split(".")
    return ".".join(
        p[:-2] + "_l" if p.endswith("_r") else p[:-2] + "_r" if p.endswith("_l") else p for p in parts
    )


def free_table(found: Sequence[FreeWidth], merged: bool = True) -> Table:
    """One line for each member with its four ways; merged: without lines of the right side that repeat the left."""
    members: dict[str, dict[str, FreeWidth]] = {}
    for one in found:
        members.setdefault(one.name, {})[one.way] = one
    rows: list[tuple[Cell, ...]] = []
    for name, ways in members.items():
        if merged and _same_left(ways, members.get(_other_side(name)), name):
            continue
        least = min(ways.values(), key=lambda w: w.free)
        by = "-" if least.mover is None else least.mover.name
        rows.append((name, *(_finite(ways[w].free) for w in WAYS), least.way, by, _pose(least.stand)))
    return Table(
        "free_widths",
        "How far sections may grow until the clearance that is asked for is used up",
        (
            Column("member", width=24),
            *(Column(w, "mm", 1) for w in WAYS),
            Column("least way", width=6),
            Column("by", width=13),
            Column("pose", width=20),
        ),
        tuple(rows),
        (
            "Directions of the member's own section axes: z towards its up, y = z × x with x along its path; all "
            f"faces that look that way move out together. '-': more than {MOST:g} mm. Negative: too near already, by "
            "so much it must give back that way; 0 then stands in the ways that do not help.",
            f"Told too small by no more than {GROWTH.near:g} mm and {100 * GROWTH.share:g} %; a face that would pass "
            f"within {GROWTH.point:g} mm of the clearance counts as meeting it.",
        ),
    )


def _same_left(ways: Mapping[str, FreeWidth], left: Mapping[str, FreeWidth] | None, name: str) -> bool:
    """True for a member of the right side whose mirrored ways are as on the left; y runs the other way there."""
    if left is None or not name.split(".")[-1].endswith("_r"):
        own = name.split(".")[0].endswith("_r")
        if left is None or not own:
            return False
    across = {"+y": "-y", "-y": "+y", "+z": "+z", "-z": "-z"}
    return all(_close(ways[w].free, left[across[w]].free) for w in WAYS)


def _close(one: float, other: float) -> bool:
    return one == other or abs(one - other) <= 2 * _ALIKE + 0.05 * abs(other)


def _finite(value: float) -> float | None:
    return value if np.isfinite(value) else None


def free_ways_table(found: Sequence[FreeWidth], axes: Axes) -> Table:
    """Every way of every member with what limits it and where."""
    rows: list[tuple[Cell, ...]] = []
    for one in found:
        by = "-" if one.mover is None else one.mover.name
        between = "-" if one.between is None else " - ".join(one.between)
        at: tuple[Cell, ...] = (None,) * 3 if one.at is None else tuple(map(float, one.at))
        way: tuple[Cell, ...] = (None,) * 3
        if one.toward is not None:
            way = tuple(float(one.toward @ axis) for axis in (axes.forward, axes.left, axes.up))
        row = (one.name, one.way, _finite(one.free), one.required, by, *_stand(one.stand), between, *at, *way)
        rows.append(row)
    return Table(
        "free_ways",
        "How far sections may grow, each way",
        (
            Column("member"),
            Column("way"),
            Column("free", "mm", 1),
            Column("clearance kept", "mm", 0),
            Column("by"),
            *_STAND,
            Column("between"),
            *_PLACE,
            *(Column(f"way {i}", "", 2) for i in ("forward", "left", "up")),
        ),
        tuple(rows),
    )


def room_lines(model: Model, unknown: Sequence[str]) -> list[str]:
    """What takes the room, what is not known, the basis and the limits."""
    tyres: dict[str, list[str]] = {}
    for wheel in model.wheels.values():
        if wheel.tyre is not None:
            t = wheel.tyre
            words = (
                f"tyre {t.width:.0f} mm wide, {t.radius:.1f} mm unloaded radius, {t.rim:.1f} mm clear radius within "
                f"the rim, shoulders {t.shoulder:.1f} mm"
            )
            tyres.setdefault(words, []).append(wheel.name)
    lines = [f"Room of {', '.join(names)}: {words}." for words, names in tyres.items()]
    return [*lines, *(f"Not known: {one}." for one in unknown), ROOM_BASIS, ROOM_LIMITS]
