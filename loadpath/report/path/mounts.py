"""The mount sheet: every joint at its extremes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from loadpath.checks import Analysis
from loadpath.model import BODY, Axes
from loadpath.report.poses import pose_words
from loadpath.report.table import Cell, Column, Table
from loadpath.trace import DIRECTIONS, Connection, connections

Array = NDArray[np.float64]

NOTHING = 1e-9
"""A component below this share of a joint's largest is nothing but rounding."""

_DIGITS = 2, 1
"""Of forces [kN] and of moments [N·m], as printed."""
_LEAST = np.repeat([0.5 * 10.0**-digits for digits in _DIGITS], 3)
"""(6,) What prints as other than zero."""
ZEROS = (
    "Not printed: what is zero at the digits shown in every load case, or when nothing acts (files hold all)."
)

AxesWord = Literal["file", "vehicle", "own"]
AXES: dict[AxesWord, str] = {
    "file": "axes of the case file",
    "vehicle": "axes forward, left, up of the vehicle",
    "own": "own axes of each joint, 1 along its axis; of a strut, 1 from its first to its last point",
}
_LETTERS: dict[AxesWord, tuple[str, str, str]] = {
    "file": ("x", "y", "z"),
    "vehicle": (" forward", " left", " up"),
    "own": ("1", "2", "3"),
}


def components(word: AxesWord) -> tuple[str, ...]:
    """Names of the six components in these axes."""
    return tuple(f"{kind}{letter}" for kind in "FM" for letter in _LETTERS[word])


def in_axes(connection: Connection, word: AxesWord, axes: Axes) -> Array:
    """(6, nc) wrench of a connection on its target [N, N·mm], in the file's, the vehicle's or its own axes."""
    turn = {
        "file": np.eye(3),
        "vehicle": np.array([getattr(axes, d) for d in DIRECTIONS]),
        "own": connection.axes,
    }[word]
    return np.concatenate([turn @ connection.wrench[:3], turn @ connection.wrench[3:]])


def _columns(word: AxesWord) -> Iterator[Column]:
    for k, name in enumerate(components(word)):
        yield Column(name, "kN", _DIGITS[0]) if k < 3 else Column(name, "N·m", _DIGITS[1])


def in_all_poses(analysis: Analysis, name: str, word: AxesWord) -> Array:
    """(6, nc) wrench of a joint or strut on its target; its own axes are those that it has in each pose."""
    axes = analysis.model.axes
    return analysis.together(
        lambda s: next(in_axes(one, word, axes) for one in connections(s.solution) if one.name == name)
    )


def mount_sheet(
    analysis: Analysis, shown: Sequence[Connection], word: AxesWord, name: str, title: str, empty: bool = True
) -> Table:
    """Each component at its smallest and largest over the load cases, with the other five at that moment.

    empty : also give what prints as zero: components in every load case, and ends at which nothing acts; print is
        shorter without them.
    """
    cases = analysis.shown
    rows: list[tuple[Cell, ...]] = []
    idle: list[str] = []
    for one in shown:
        wrench = in_all_poses(analysis, one.name, word)[:, cases] / 1e3
        told = np.abs(wrench) >= np.maximum(_LEAST[:, None], NOTHING * np.abs(wrench).max())
        label = one.name if one.sure else f"{one.name}*"
        idle += [] if empty or told.any() else [label]
        for k, component in enumerate(components(word)):
            if not empty and not told[k].any():
                continue
            for end, at in (("min", int(wrench[k].argmin())), ("max", int(wrench[k].argmax()))):
                if empty or told[:, at].any():
                    case, cells = analysis.cases[cases[at]].name, map(float, wrench[:, at])
                    rows.append((label, one.kind, one.source, one.target, f"{component} {end}", case, *cells))
    return Table(
        name,
        f"{title}, {AXES[word]}",
        (
            *(Column(h) for h in ("joint", "kind", "force of", "on", "extreme", "load case")),
            *_columns(word),
        ),
        tuple(rows),
        (
            "Each line: the load case in which the named component is extreme, with all six as they act together; "
            "moments about the joint's point as it stands there.",
            *((ZEROS,) if not empty else ()),
            *((f"Zero in every load case at the digits shown: {', '.join(idle)}.",) if idle else ()),
            *(
                f"* not determinate one by one, only what they carry together: {', '.join(group)}."
                for group in analysis.redundant
            ),
        ),
    )


def onto_body(analysis: Analysis) -> tuple[Connection, ...]:
    """Mounts: joints and struts onto the body."""
    return tuple(one for one in connections(analysis.solved[0].solution) if one.target == BODY)


def between_parts(analysis: Analysis) -> tuple[Connection, ...]:
    """All other joints and struts."""
    return tuple(one for one in connections(analysis.solved[0].solution) if one.target != BODY)


def joint_axes_table(analysis: Analysis) -> Table:
    """Place and own axes of every joint and strut, in every pose."""
    rows: list[tuple[Cell, ...]] = [
        (
            pose_words(solved.model),
            one.name,
            one.kind,
            one.source,
            one.target,
            one.point,
            *map(float, one.position),
            *map(float, one.axes.ravel()),
        )
        for solved in analysis.solved
        for one in connections(solved.solution)
    ]
    return Table(
        "joint_axes",
        "Joints and struts: place and own axes, axes of the case file",
        (
            *(Column(h) for h in ("pose", "joint", "kind", "force of", "on", "point")),
            *(Column(i, "mm", 1) for i in "xyz"),
            *(Column(f"axis {n} {i}", "", 4) for n in (1, 2, 3) for i in "xyz"),
        ),
        tuple(rows),
    )
