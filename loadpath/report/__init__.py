"""Tables, statements and figures made of results; the only room besides the command line that writes."""

from loadpath.report.joints import joint_envelope, joint_table, mount_envelope, point_tables, strut_table
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
from loadpath.report.profile import section_table
from loadpath.report.statements import (
    BLIND,
    CAUTION,
    SIGNS,
    axes_line,
    self_check_lines,
    warning_lines,
    wrapped,
)
from loadpath.report.table import Cell, Column, Table, as_csv, as_json, as_text, write

__all__ = [
    "BLIND",
    "CAUTION",
    "SIGNS",
    "Cell",
    "Column",
    "Table",
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
    "section_table",
    "self_check_lines",
    "stiffness_table",
    "strut_table",
    "verdict_table",
    "warning_lines",
    "wheel_load_table",
    "wrapped",
    "write",
]
