"""Tables of forces: joints, mounts, struts and members, for one load case, one point, or as envelopes."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from loadpath.checks import Analysis
from loadpath.frame import section_forces
from loadpath.model import BODY, TAPER_STATIONS, Joint
from loadpath.report.table import Cell, Column, Table

Array = NDArray[np.float64]

_FORCES = (Column("Fx", "kN", 2), Column("Fy", "kN", 2), Column("Fz", "kN", 2), Column("|F|", "kN", 2))
_MOMENTS = (Column("Mx", "N·m", 1), Column("My", "N·m", 1), Column("Mz", "N·m", 1))
_ACTIONS = (
    Column("N", "kN", 2),
    Column("Vy", "kN", 2),
    Column("Vz", "kN", 2),
    Column("T", "N·m", 0),
    Column("My", "N·m", 0),
    Column("Mz", "N·m", 0),
)
_ACTION_SCALE = np.array([1e3] * 6)
_FINE = np.linspace(0.0, 1.0, 21)


def shown_cases(analysis: Analysis) -> list[int]:
    """Indices of the load cases that passed their self-checks."""
    return [c for c, case in enumerate(analysis.cases) if case.name not in analysis.refused]


def _towards_body(joint: Joint) -> tuple[str, str, float]:
    """Parts from and to, and the sign that makes the force act on the second; the body comes second."""
    a, b = joint.between
    return (b, a, -1.0) if a == BODY else (a, b, 1.0)


def _wrench_cells(wrench: Array) -> list[Cell]:
    force = wrench[:3] / 1e3
    return [*map(float, force), float(np.linalg.norm(force)), *(float(m) / 1e3 for m in wrench[3:])]


def joint_table(analysis: Analysis, c: int) -> Table:
    """Forces of all joints in one load case, case-file axes."""
    rows: list[tuple[Cell, ...]] = []
    for k, name in enumerate(analysis.solution.joint_names):
        joint = analysis.model.joints[name]
        _, on, sign = _towards_body(joint)
        wrench = sign * analysis.solution.joint_forces[k, :, c]
        mark = "*" if name in analysis.solution.redundant else ""
        rows.append((name + mark, joint.kind, on, *_wrench_cells(wrench)))
    case = analysis.cases[c].name
    return Table(
        f"joints_{case}",
        f"Joint forces, load case {case}",
        (Column("joint"), Column("kind"), Column("acting on"), *_FORCES, *_MOMENTS),
        tuple(rows),
        ("* not determinate one by one: only the sum over these joints is.",) if _starred(rows) else (),
    )


def _starred(rows: Sequence[tuple[Cell, ...]]) -> bool:
    return any(str(row[0]).endswith("*") for row in rows)


def strut_table(analysis: Analysis, cases: Sequence[int]) -> Table:
    """Push of every force element, compression positive."""
    rows = [
        (name, analysis.cases[c].name, float(analysis.solution.pushes[k, c]) / 1e3)
        for k, name in enumerate(analysis.solution.push_names)
        for c in cases
    ]
    return Table(
        "struts",
        "Springs, dampers and stops",
        (Column("element"), Column("load case"), Column("push", "kN", 2)),
        tuple(rows),
    )


def joint_envelope(analysis: Analysis) -> Table:
    """Largest and smallest of each force component at each joint, and where the resultant is largest."""
    cases, solution = shown_cases(analysis), analysis.solution
    rows: list[tuple[Cell, ...]] = []
    for k, name in enumerate(solution.joint_names):
        joint = analysis.model.joints[name]
        _, on, sign = _towards_body(joint)
        force = sign * solution.joint_forces[k, :3, cases].T / 1e3
        size = np.linalg.norm(force, axis=0)
        worst = int(size.argmax())
        ends = [float(x) for i in range(3) for x in (force[i].min(), force[i].max())]
        mark = "*" if name in solution.redundant else ""
        rows.append((name + mark, on, *ends, float(size[worst]), analysis.cases[cases[worst]].name))
    columns = [Column(f"F{i} {end}", "kN", 2) for i in "xyz" for end in ("min", "max")]
    return Table(
        "joint_envelope",
        "Joint forces over all load cases",
        (
            Column("joint"),
            Column("acting on"),
            *columns,
            Column("|F| max", "kN", 2),
            Column("governing case"),
        ),
        tuple(rows),
        ("* not determinate one by one: only the sum over these joints is.",) if _starred(rows) else (),
    )


def mount_envelope(analysis: Analysis) -> Table:
    """Each component of each mount at its largest and smallest, with the governing load case."""
    cases, solution = shown_cases(analysis), analysis.solution
    rows: list[tuple[Cell, ...]] = []
    for k, name in enumerate(solution.joint_names):
        joint = analysis.model.joints[name]
        if BODY not in joint.between:
            continue
        part, _, sign = _towards_body(joint)
        force = sign * solution.joint_forces[k, :3, cases].T / 1e3
        for i, axis in enumerate("xyz"):
            low, high = int(force[i].argmin()), int(force[i].argmax())
            names = [analysis.cases[cases[e]].name for e in (low, high)]
            rows.append(
                (name, part, f"F{axis}", float(force[i, low]), names[0], float(force[i, high]), names[1])
            )
    return Table(
        "mount_envelope",
        "Mounts, force on the body",
        (
            Column("mount"),
            Column("from part"),
            Column("component"),
            Column("min", "kN", 2),
            Column("in case"),
            Column("max", "kN", 2),
            Column("in case"),
        ),
        tuple(rows),
    )


def member_table(analysis: Analysis, cases: Sequence[int], name: str) -> Table:
    """Largest section forces of each member with their place, and the stress peak, for each given case."""
    forces = section_forces(analysis.solution, _FINE)
    elements, peaks = analysis.solution.system.mesh.elements, analysis.peaks
    rows: list[tuple[Cell, ...]] = []
    for (part, member), index in _members(analysis).items():
        for c in cases:
            own = forces[index][:, :, :, c]
            cells: list[Cell] = []
            for a in range(6):
                e, s = np.unravel_index(int(np.abs(own[:, :, a]).argmax()), own.shape[:2])
                at = elements.start[index[e]] + _FINE[s] * elements.length[index[e]]
                cells += [float(own[e, s, a]) / _ACTION_SCALE[a], round(float(at))]
            worst = index[int(np.nan_to_num(peaks.von_mises[index, c]).argmax())]
            stress = float(peaks.von_mises[worst, c])
            place = elements.start[worst] + TAPER_STATIONS[peaks.station[worst, c]] * elements.length[worst]
            shown: list[Cell] = [None if np.isnan(stress) else stress, round(float(place))]
            rows.append((_label(analysis, part, member), analysis.cases[c].name, *cells, *shown))
    columns = [x for a in _ACTIONS for x in (a, Column("at", "mm"))]
    return Table(
        name,
        "Members: largest section forces with their distance from the member's first point",
        (Column("member"), Column("load case"), *columns, Column("von Mises", "MPa", 0), Column("at", "mm")),
        tuple(rows),
    )


def member_envelope(analysis: Analysis) -> Table:
    """The load case and place of the largest stress of each member, with the forces there."""
    cases = shown_cases(analysis)
    elements, peaks = analysis.solution.system.mesh.elements, analysis.peaks
    rows: list[tuple[Cell, ...]] = []
    for (part, member), index in _members(analysis).items():
        stress = peaks.von_mises[index][:, cases]
        if np.isnan(stress).all():
            continue
        k, j = np.unravel_index(int(np.nan_to_num(stress).argmax()), stress.shape)
        e, c = index[k], cases[j]
        fraction = TAPER_STATIONS[peaks.station[e, c]]
        at = elements.start[e] + fraction * elements.length[e]
        forces = section_forces(analysis.solution, np.array([fraction]))[e, 0, :, c] / _ACTION_SCALE
        label = _label(analysis, part, member)
        name = analysis.cases[c].name
        rows.append((label, float(stress[k, j]), name, round(float(at)), *map(float, forces)))
    return Table(
        "member_envelope",
        "Members: largest von Mises stress over all load cases, and the section forces there",
        (
            Column("member"),
            Column("von Mises", "MPa", 0),
            Column("governing case"),
            Column("at", "mm"),
            *_ACTIONS,
        ),
        tuple(rows),
    )


def _members(analysis: Analysis) -> dict[tuple[str, str], NDArray[np.intp]]:
    elements = analysis.solution.system.mesh.elements
    index: dict[tuple[str, str], list[int]] = {}
    for e, key in enumerate(zip(elements.part, elements.member, strict=True)):
        index.setdefault(key, []).append(e)
    return {key: np.array(found) for key, found in index.items()}


def _label(analysis: Analysis, part: str, member: str) -> str:
    return part if analysis.model.parts[part].kind == "link" else f"{part}.{member}"


def point_tables(analysis: Analysis, point: str) -> list[Table]:
    """Everything at one point: joint forces, pushes and movements of the parts, in all load cases."""
    solution, cases = analysis.solution, shown_cases(analysis)
    joints: list[tuple[Cell, ...]] = []
    for k, name in enumerate(solution.joint_names):
        joint = analysis.model.joints[name]
        if joint.point != point:
            continue
        _, on, sign = _towards_body(joint)
        for c in cases:
            wrench = sign * solution.joint_forces[k, :, c]
            joints.append((name, on, analysis.cases[c].name, *_wrench_cells(wrench)))
    moves: list[tuple[Cell, ...]] = []
    for (part, at), place in solution.system.mesh.places.items():
        if at != point:
            continue
        for c in cases:
            u = solution.movement[place.block, :, c]
            moved = u[:3] + np.cross(u[3:], place.lever)
            moves.append((part, analysis.cases[c].name, *map(float, moved), *map(float, np.degrees(u[3:]))))
    movement = [Column(f"u{i}", "mm", 2) for i in "xyz"] + [Column(f"r{i}", "deg", 3) for i in "xyz"]
    return [
        Table(
            f"joints_at_{point}",
            f"Joint forces at {point}",
            (Column("joint"), Column("acting on"), Column("load case"), *_FORCES, *_MOMENTS),
            tuple(joints),
        ),
        Table(
            f"movement_at_{point}",
            f"Movement at {point}",
            (Column("part"), Column("load case"), *movement),
            tuple(moves),
        ),
    ]
