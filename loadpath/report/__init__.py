"""Tables, statements and figures made of results; the only room besides the command line that writes."""

from loadpath.report.joints import joint_envelope, joint_table, mount_envelope, point_tables, strut_table
from loadpath.report.loadsets import ToldLoadCase, set_table, state_table, taken_table, wheel_load
from loadpath.report.members import member_envelope, member_table
from loadpath.report.overview import (
    all_checks_table,
    balance_table,
    case_notes,
    load_case_table,
    mass_table,
    other_load_table,
    stiffness_table,
    verdict_table,
    wheel_load_table,
)
from loadpath.report.poses import pose_table, pose_words
from loadpath.report.statements import (
    BLIND,
    CAUTION,
    RIGID,
    SIGNS,
    axes_line,
    refusals_once,
    self_check_lines,
    warning_lines,
)
from loadpath.report.table import Cell, Column, Table, as_csv, as_json, without_columns, write
from loadpath.report.text import as_text, wrapped

__all__ = [
    "BLIND",
    "CAUTION",
    "RIGID",
    "SIGNS",
    "Cell",
    "Column",
    "Table",
    "ToldLoadCase",
    "all_checks_table",
    "as_csv",
    "as_json",
    "as_text",
    "axes_line",
    "balance_table",
    "case_notes",
    "joint_envelope",
    "joint_table",
    "load_case_table",
    "mass_table",
    "member_envelope",
    "member_table",
    "mount_envelope",
    "other_load_table",
    "point_tables",
    "pose_table",
    "pose_words",
    "refusals_once",
    "self_check_lines",
    "set_table",
    "state_table",
    "stiffness_table",
    "strut_table",
    "taken_table",
    "verdict_table",
    "warning_lines",
    "wheel_load",
    "wheel_load_table",
    "without_columns",
    "wrapped",
    "write",
]
