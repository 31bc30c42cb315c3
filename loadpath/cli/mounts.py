"""`loadpath mounts`: the mount sheet and the unit-load matrix."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from loadpath.checks import Analysis
from loadpath.cli.common import read_and_analyse, report, some_shown
from loadpath.cli.failures import Failure, unknown
from loadpath.report import Table, without_columns
from loadpath.report.path import (
    AXES,
    AxesWord,
    between_parts,
    joint_axes_table,
    mount_sheet,
    onto_body,
    unit_input_table,
    unit_load_table,
)
from loadpath.trace import TraceError, connections, unit_loads

MORE = (
    "A joint between parts: --joint NAME. All joints, and the forces per unit of load at each wheel so that measured "
    "road loads can be run through: --csv DIR or --json DIR."
)


def print_mounts(path: Path, joint: str | None, axes: str, csv: Path | None, json: Path | None) -> None:
    """Print the sheet of all mounts, or of one joint; write all joints and the unit-load matrix where asked."""
    word = next((w for w in AXES if w == axes), None)
    if word is None:
        raise unknown("axes", axes, list(AXES))
    case, analysis = read_and_analyse(path)
    some_shown(path, analysis)
    shown = [_mounts(analysis, word) if joint is None else _one(analysis, joint, word)]
    try:
        more = _all_rows(analysis, word) if csv or json else []
    except TraceError as error:
        raise Failure(f"{path.name}: {error}") from error
    report(case, analysis, shown, more, csv, json)


def _mounts(analysis: Analysis, word: AxesWord) -> Table:
    title = "Mounts, force on the body"
    sheet = mount_sheet(analysis, onto_body(analysis), word, "mount_sheet", title, empty=False)
    return _narrow(replace(sheet, notes=(*sheet.notes, MORE)))


def _one(analysis: Analysis, joint: str, word: AxesWord) -> Table:
    every = connections(analysis.solved[0].solution)
    chosen = [one for one in every if one.name == joint]
    if not chosen:
        raise unknown("joint or strut", joint, [one.name for one in every])
    title = f"{joint}, force of {chosen[0].source} on {chosen[0].target}"
    return _narrow(mount_sheet(analysis, chosen, word, f"joint_{joint}", title, empty=False))


def _narrow(sheet: Table) -> Table:
    """Without what the title says."""
    return without_columns(sheet, "kind", "force of", "on")


def _all_rows(analysis: Analysis, word: AxesWord) -> list[Table]:
    """Tables for files; the mount sheet among them has all components and takes the place of the printed one."""
    title = "force of the first part named on the second"
    return [
        mount_sheet(analysis, onto_body(analysis), word, "mount_sheet", "Mounts, force on the body"),
        mount_sheet(analysis, between_parts(analysis), word, "joint_sheet", f"Joints between parts, {title}"),
        joint_axes_table(analysis),
        *_unit_tables(analysis, word),
    ]


def _unit_tables(analysis: Analysis, word: AxesWord) -> Iterator[Table]:
    """Three tables for each pose; those after the first carry its number in their name."""
    for n, solved in enumerate(analysis.solved, start=1):
        matrix, end = unit_loads(solved.solution), f"_pose_{n}" if n > 1 else ""
        yield unit_load_table(solved, matrix, word, True, f"unit_loads{end}")
        yield unit_load_table(solved, matrix, word, False, f"unit_loads_joints{end}")
        yield unit_input_table(solved, matrix, f"unit_loads_inputs{end}")
