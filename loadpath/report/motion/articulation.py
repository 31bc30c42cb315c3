"""Tables of how far joints turn along a sweep."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Joint
from loadpath.report.motion.travel import MOVES
from loadpath.report.table import Cell, Column, Table
from loadpath.sweep import Limited, Sweep, Turn, limited, turns

Array = NDArray[np.float64]

_STILL = np.radians(0.005)
NOTES = (
    "Turned: the whole angle. About: about the axis of a hinge or bushing (torsional) or a ball's stud; its least "
    "and most value. Across: the tilt of that axis (conical, or the swing of the stud). Bushings count from where "
    "they were clamped, others from design height. A link between two balls is taken to turn about its own line as "
    "little as it can.",
)


def articulation_table(sweep: Sweep, all_of_them: bool = True) -> Table:
    """The largest turn of every joint; or without those that rest, and those on the right that do as their twins."""
    found = turns(sweep.poses)
    rows, resting = [], []
    for name, turn in found.items():
        joint = sweep.poses.mechanism.model.joints[name]
        twin = found.get(f"{name[:-2]}_l") if name.endswith("_r") else None
        if all_of_them or turn.total.max() > _STILL:
            if all_of_them or twin is None or np.abs(turn.total - twin.total).max() > 1e-9:
                rows.append(_row(sweep, joint, turn))
        else:
            resting.append(name)
    rest = (f"Do not turn: {', '.join(resting)}.",) if resting else ()
    return Table(
        f"joint_angles_{sweep.motion}",
        f"Joints: how far they turn, {MOVES[sweep.motion][1]}",
        (
            Column("joint"),
            Column("kind"),
            Column("between", width=30),
            Column("turned most", "deg", 1),
            Column(f"at {MOVES[sweep.motion][0]}", "mm", 1),
            Column("about, least", "deg", 1),
            Column("about, most", "deg", 1),
            Column("across, most", "deg", 1),
        ),
        tuple(rows),
        (*NOTES, *rest),
    )


def _row(sweep: Sweep, joint: Joint, turn: Turn) -> tuple[Cell, ...]:
    k = int(turn.total.argmax())
    about = (None, None) if turn.about is None else (_deg(turn.about.min()), _deg(turn.about.max()))
    across = None if turn.across is None else _deg(turn.across.max())
    between = " - ".join(joint.between)
    return (joint.name, joint.kind, between, _deg(turn.total[k]), float(sweep.values[k]), *about, across)


def limit_table(sweep: Sweep) -> Table:
    """What the case limits, worst first: the most that is asked for, where, and what is allowed."""
    judged = sorted(limited(sweep.poses), key=lambda one: -float(one.size.max()) / one.allowed)
    return Table(
        f"limits_{sweep.motion}",
        f"Limits of joints and half-shafts, {MOVES[sweep.motion][1]}",
        (
            Column("verdict"),
            Column("what"),
            Column("most", digits=1),
            Column("allowed", digits=1),
            Column("unit"),
            Column(f"at {MOVES[sweep.motion][0]}", "mm", 1),
        ),
        tuple(_limit_row(sweep, one) for one in judged),
        ("Limits are those of the case file.",) if judged else (),
    )


def exceeded(sweep: Sweep) -> bool:
    """True where the motion asks for more than a limit of the case."""
    return any(one.size.max() > one.allowed for one in limited(sweep.poses))


def _limit_row(sweep: Sweep, one: Limited) -> tuple[Cell, ...]:
    k = int(one.size.argmax())
    most, allowed = (_deg(v) if one.unit == "deg" else float(v) for v in (one.size[k], one.allowed))
    verdict = "exceeds" if one.size[k] > one.allowed else "holds"
    return (verdict, one.what, most, allowed, one.unit, float(sweep.values[k]))


def joint_angles_table(sweep: Sweep) -> Table:
    """Every joint in every pose, for files."""
    rows: list[tuple[Cell, ...]] = []
    for name, turn in turns(sweep.poses).items():
        joint = sweep.poses.mechanism.model.joints[name]
        for k, value in enumerate(sweep.values):
            parts = (None if part is None else _deg(part[k]) for part in (turn.about, turn.across))
            rows.append((name, joint.kind, float(value), _deg(turn.total[k]), *parts))
    return Table(
        f"joint_angles_all_{sweep.motion}",
        f"Joints: how far they are turned, {MOVES[sweep.motion][1]}",
        (
            Column("joint"),
            Column("kind"),
            Column(MOVES[sweep.motion][0], "mm", 1),
            *(Column(h, "deg", 3) for h in ("turned", "about", "across")),
        ),
        tuple(rows),
        NOTES,
    )


def _deg(angle: float) -> float:
    return float(np.degrees(angle))
