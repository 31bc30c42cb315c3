"""Tables of forces at joints, mounts and springs: one load case, one point, or envelopes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from loadpath.checks import Analysis
from loadpath.frame import line_of
from loadpath.model import BODY, Joint, Model
from loadpath.report.table import Cell, Column, Table

Array = NDArray[np.float64]

_FORCES = (Column("Fx", "kN", 2), Column("Fy", "kN", 2), Column("Fz", "kN", 2), Column("|F|", "kN", 2))
_MOMENTS = (Column("Mx", "N·m", 1), Column("My", "N·m", 1), Column("Mz", "N·m", 1))


def _towards_body(joint: Joint) -> tuple[str, str, float]:
    """Parts from and to, and the sign that makes the force act on the second; the body comes second."""
    a, b = joint.between
    return (b, a, -1.0) if a == BODY else (a, b, 1.0)


def _wrench_cells(wrench: Array) -> list[Cell]:
    force = wrench[:3] / 1e3
    return [*map(float, force), float(np.linalg.norm(force)), *(float(m) / 1e3 for m in wrench[3:])]


def _marked(analysis: Analysis, name: str) -> str:
    """The name of a joint or force element, with a star where its force is not determinate by itself."""
    return name + "*" * any(name in group for group in analysis.redundant)


def _star_notes(analysis: Analysis) -> tuple[str, ...]:
    return tuple(
        f"* not determinate one by one, only what they carry together: {', '.join(group)}."
        for group in analysis.redundant
    )


def _together(analysis: Analysis, c: int) -> list[tuple[Cell, ...]]:
    """Rows of the sums over joints that are determinate only together and tie the same two parts."""
    joints = analysis.model.joints
    rows: list[tuple[Cell, ...]] = []
    for group in analysis.redundant:
        pairs: dict[tuple[str, str], list[str]] = {}
        for name in group:
            if name in joints:
                pairs.setdefault(joints[name].between, []).append(name)
        for names in pairs.values():
            if len(names) < 2:
                continue
            _, on, sign = _towards_body(joints[names[0]])
            numbers = [analysis.joint_names.index(n) for n in names]
            force = sign * analysis.joint_forces[numbers, :3, c].sum(axis=0) / 1e3
            cells = [*map(float, force), float(np.linalg.norm(force))]
            rows.append((" + ".join(names), "together", on, *cells, None, None, None))
    return rows


def joint_table(analysis: Analysis, c: int) -> Table:
    """Forces of all joints in one load case, case-file axes."""
    rows: list[tuple[Cell, ...]] = []
    for k, name in enumerate(analysis.joint_names):
        joint = analysis.model.joints[name]
        _, on, sign = _towards_body(joint)
        wrench = sign * analysis.joint_forces[k, :, c]
        rows.append((_marked(analysis, name), joint.kind, on, *_wrench_cells(wrench)))
    case = analysis.cases[c].name
    return Table(
        f"joints_{case}",
        f"Joint forces, load case {case}, axes of the case file",
        (Column("joint"), Column("kind"), Column("acting on"), *_FORCES, *_MOMENTS),
        (*rows, *_together(analysis, c)),
        _star_notes(analysis),
    )


def strut_table(analysis: Analysis, cases: Sequence[int]) -> Table:
    """Push of every force element, compression positive."""
    rows: list[tuple[Cell, ...]] = []
    for k, name in enumerate(analysis.push_names):
        for c in cases:
            push, own = float(analysis.pushes[k, c]), law_push(analysis.at(c)[0].model, name)
            apart = None if own is None else (push - own) / 1e3
            told = (push / 1e3, None if own is None else own / 1e3, apart)
            rows.append((_marked(analysis, name), analysis.cases[c].name, *told))
    laws = any(e.law is not None for e in analysis.model.force_elements.values())
    return Table(
        "struts",
        "Springs, dampers and stops",
        (
            Column("element"),
            Column("load case"),
            Column("push", "kN", 2),
            Column("by its law", "kN", 2),
            Column("difference", "kN", 2),
        ),
        tuple(rows),
        (
            *_star_notes(analysis),
            *((_ABOUT_LAWS,) if laws else ()),
        ),
    )


_ABOUT_LAWS = (
    "By its law: what a spring pushes with at its length in the pose. A locked one carries what equilibrium asks "
    "for: the difference is small where the pose comes from the load, and tells elsewhere by how much the springs do "
    "not balance the load at that travel."
)


def law_push(model: Model, name: str) -> float | None:
    """[N] what a force element pushes with by its own law where it stands; None where that is not known."""
    element = model.force_elements[name]
    if model.pose is not None:
        return model.pose.pushes.get(name)
    if element.law is None:
        return None
    a, b = (model.at(part, point) for part, point in zip(element.between, element.ends, strict=True))
    length = np.linalg.norm(b - a)
    return float(element.law.push(np.array(length), float(length)))


def joint_envelope(analysis: Analysis) -> Table:
    """Largest and smallest of each force component at each joint, and where the resultant is largest."""
    cases = analysis.shown
    rows: list[tuple[Cell, ...]] = []
    for k, name in enumerate(analysis.joint_names):
        _, on, sign = _towards_body(analysis.model.joints[name])
        force = sign * analysis.joint_forces[k, :3, cases].T / 1e3
        size = np.linalg.norm(force, axis=0)
        worst = int(size.argmax())
        ends = [float(x) for i in range(3) for x in (force[i].min(), force[i].max())]
        governing = analysis.cases[cases[worst]].name
        rows.append((_marked(analysis, name), on, *ends, float(size[worst]), governing))
    columns = [Column(f"F{i} {end}", "kN", 2) for i in "xyz" for end in ("min", "max")]
    return Table(
        "joint_envelope",
        "Joint forces over all load cases, axes of the case file",
        (
            Column("joint"),
            Column("acting on"),
            *columns,
            Column("|F| max", "kN", 2),
            Column("governing case"),
        ),
        tuple(rows),
        _star_notes(analysis),
    )


def mount_envelope(analysis: Analysis) -> Table:
    """Each component of each mount at its largest and smallest, with the governing load case."""
    cases = analysis.shown
    rows: list[tuple[Cell, ...]] = []
    for k, name in enumerate(analysis.joint_names):
        joint = analysis.model.joints[name]
        if BODY not in joint.between:
            continue
        part, _, sign = _towards_body(joint)
        force = sign * analysis.joint_forces[k, :3, cases].T / 1e3
        for i, axis in enumerate("xyz"):
            low, high = int(force[i].argmin()), int(force[i].argmax())
            least, most = (analysis.cases[cases[e]].name for e in (low, high))
            ends = (float(force[i, low]), least, float(force[i, high]), most)
            rows.append((_marked(analysis, name), part, f"F{axis}", *ends))
    return Table(
        "mount_envelope",
        "Mounts, force on the body, axes of the case file",
        (
            Column("mount"),
            Column("from part"),
            Column("component"),
            Column("min", "kN", 2),
            Column("min in case"),
            Column("max", "kN", 2),
            Column("max in case"),
        ),
        tuple(rows),
        _star_notes(analysis),
    )


def point_tables(analysis: Analysis, point: str, cases: Sequence[int]) -> list[Table]:
    """Everything at one point: forces of joints, of springs and from outside, and movements of the parts."""
    return [
        Table(
            f"forces_at_{point}",
            f"Forces at {point}, axes of the case file",
            (Column("of"), Column("acting on"), Column("load case"), *_FORCES, *_MOMENTS),
            tuple(_forces_at(analysis, point, cases)),
            _star_notes(analysis),
        ),
        Table(
            f"movement_at_{point}",
            f"Movement at {point}, axes of the case file",
            (
                Column("part"),
                Column("load case"),
                *(Column(f"u{i}", "mm", 2) for i in "xyz"),
                *(Column(f"r{i}", "deg", 3) for i in "xyz"),
            ),
            tuple(_movements_at(analysis, point, cases)),
        ),
    ]


def _forces_at(analysis: Analysis, point: str, cases: Sequence[int]) -> Iterator[tuple[Cell, ...]]:
    model = analysis.model
    for k, name in enumerate(analysis.joint_names):
        joint = model.joints[name]
        if joint.point == point:
            _, on, sign = _towards_body(joint)
            for c in cases:
                cells = _wrench_cells(sign * analysis.joint_forces[k, :, c])
                yield (_marked(analysis, name), on, analysis.cases[c].name, *cells)
    for k, name in enumerate(analysis.push_names):
        element = model.force_elements[name]
        for part, end, sign in zip(element.between, element.ends, (-1.0, 1.0), strict=True):
            if end == point:
                for c in cases:
                    line = line_of(analysis.at(c)[0].model, element)
                    wrench = np.concatenate([sign * analysis.pushes[k, c] * line, np.zeros(3)])
                    yield (_marked(analysis, name), part, analysis.cases[c].name, *_wrench_cells(wrench))
    for c in cases:
        for load in analysis.cases[c].loads:
            if load.point == point:
                here = analysis.at(c)[0].model.at(load.part, point)
                moment = load.moment + np.cross(load.position - here, load.force)
                cells = _wrench_cells(np.concatenate([load.force, moment]))
                yield (load.what, load.part, analysis.cases[c].name, *cells)


def _movements_at(analysis: Analysis, point: str, cases: Sequence[int]) -> Iterator[tuple[Cell, ...]]:
    for part, at in analysis.solved[0].solution.system.mesh.places:
        if at != point:
            continue
        for c in cases:
            solved, k = analysis.at(c)
            place = solved.solution.system.mesh.places[part, at]
            u = solved.solution.movement[place.block, :, k]
            moved = u[:3] + np.cross(u[3:], place.lever)
            yield (part, analysis.cases[c].name, *map(float, moved), *map(float, np.degrees(u[3:])))
