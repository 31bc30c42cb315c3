"""Tables, statements and figures made of results; the only room besides the command line that writes."""

from loadpath.report.forces import (
    joint_envelope,
    joint_table,
    member_envelope,
    member_table,
    mount_envelope,
    point_tables,
    shown_cases,
    strut_table,
)
from loadpath.report.overview import (
    all_checks_table,
    balance_table,
    load_case_table,
    mass_table,
    stiffness_table,
    verdict_table,
    wheel_load_table,
)
from loadpath.report.profile import section_table
from loadpath.report.statements import BLIND, CAUTION, SIGNS, axes_line, self_check_lines, wrapped
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
    "joint_envelope",
    "joint_table",
    "load_case_table",
    "mass_table",
    "member_envelope",
    "member_table",
    "mount_envelope",
    "point_tables",
    "section_table",
    "self_check_lines",
    "shown_cases",
    "stiffness_table",
    "strut_table",
    "verdict_table",
    "wheel_load_table",
    "wrapped",
    "write",
]
