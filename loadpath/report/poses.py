"""Poses in words and tables."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from loadpath.checks import Analysis
from loadpath.model import Model
from loadpath.report.table import Cell, Column, Table

BY = {None: "travel given", "design": "design", "from roll": "from roll", "from load": "from load"}


def pose_words(model: Model) -> str:
    """Where the wheels stand, for headings."""
    return "design height" if model.pose is None else model.pose.words()


def case_words(analysis: Analysis, c: int) -> str:
    """A load case with its pose where that is not design height, for titles."""
    model, name = analysis.at(c)[0].model, analysis.cases[c].name
    return name if model.pose is None else f"{name}, {model.pose.words()}"


def pose_table(analysis: Analysis, cases: Sequence[int]) -> Table:
    """Where the wheels stand in each load case, and what twists there; no rows where all act at design height."""
    wheels, racks, twists = _moving(analysis)
    rows: list[tuple[Cell, ...]] = []
    for c in cases:
        case, model = analysis.cases[c], analysis.at(c)[0].model
        cells: list[Cell] = [case.name, BY[case.pose.by] if case.pose is not None else "design"]
        if model.pose is None:
            cells += [0.0] * len(wheels + racks + twists)
        else:
            cells += [float(model.pose.travel[w]) for w in wheels]
            cells += [float(model.pose.rack[r]) for r in racks]
            cells += [twist_of(model, part) for part in twists]
        power = analysis.checks[c].power
        rows.append((*cells, None if power is None else float(power)))
    posed = any(solved.model.pose is not None for solved in analysis.solved)
    return Table(
        "poses",
        "Pose of each load case",
        (
            Column("load case"),
            Column("pose"),
            *(Column(f"jounce {w}", "mm", 1) for w in wheels),
            *(Column(f"travel {r}", "mm", 1) for r in racks),
            *(Column(f"twist {t}", "deg", 1) for t in twists),
            Column("power left over", order=True),
        ),
        tuple(rows) if posed else (),
        (
            "Jounce: up against the body, from design height. Power left over: of all forces on the motion of the "
            "linkage with each wheel, relative to the sizes of its terms; above 1e-8 a load case is refused.",
        )
        if posed
        else (),
    )


def _moving(analysis: Analysis) -> tuple[list[str], list[str], list[str]]:
    """Wheels, racks and twisting parts of the poses."""
    poses = [s.model.pose for s in analysis.solved if s.model.pose is not None]
    wheels = dict.fromkeys(w for p in poses for w in p.travel)
    racks = dict.fromkeys(r for p in poses for r in p.rack)
    twists = dict.fromkeys(part for p in poses for part, _ in p.twist)
    return list(wheels), list(racks), list(twists)


def twist_of(model: Model, part: str) -> float:
    """Angle [deg] by which the pose twists a part from one half to the other."""
    pose = model.pose
    if pose is None:
        return 0.0
    turned = sum((t[:, 3:].sum(axis=0) for (p, _), t in pose.twist.items() if p == part), np.zeros(3))
    return float(np.degrees(np.linalg.norm(turned)))
