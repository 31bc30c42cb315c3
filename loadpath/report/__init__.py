"""Tables, statements and figures made of results; the only room besides the command line that writes."""

from loadpath.report.acting import acting_at_peak, forces_words, members_of, stress_table
from loadpath.report.articulation import articulation_table, exceeded, joint_angles_table, limit_table
from loadpath.report.atdesign import design_table
from loadpath.report.before_after import share_changes
from loadpath.report.compare import common_cases, joint_changes, member_changes, other_loads
from loadpath.report.compliance import (
    SAME,
    answers_table,
    brought_table,
    compliance_lines,
    figures_table,
    single_table,
)
from loadpath.report.compliance_picture import draw_brought
from loadpath.report.energy import energies_of, energy_table, inside_table, where_it_gives
from loadpath.report.flow import draw_flow
from loadpath.report.flow_through import draw_contributions
from loadpath.report.joints import joint_envelope, joint_table, mount_envelope, point_tables, strut_table
from loadpath.report.loadsets import ToldLoadCase, set_table, state_table, taken_table, wheel_load
from loadpath.report.members import member_envelope, member_table
from loadpath.report.mounts import (
    AXES,
    AxesWord,
    between_parts,
    joint_axes_table,
    mount_sheet,
    onto_body,
)
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
from loadpath.report.posedpoints import instant_axes_table, points_table
from loadpath.report.poses import pose_table, pose_words
from loadpath.report.profile import RANGED, change_table, in_short, range_table, section_table
from loadpath.report.properties import Use, properties, uses
from loadpath.report.resistance import resistance_table
from loadpath.report.room import (
    all_clearances_table,
    clearance_table,
    free_table,
    free_ways_table,
    room_lines,
)
from loadpath.report.room_picture import draw_room
from loadpath.report.shares import all_shares_table, cut_balance_table
from loadpath.report.statements import (
    BLIND,
    CAUTION,
    RIGID,
    SIGNS,
    axes_line,
    self_check_lines,
    warning_lines,
)
from loadpath.report.table import Cell, Column, Table, as_csv, as_json, without_columns, write
from loadpath.report.text import as_text, wrapped
from loadpath.report.through import (
    closing_table,
    contribution_table,
    contributions_table,
    free_bodies_table,
    free_body_table,
    through_notes,
)
from loadpath.report.trace import Bodies, bodies_of, by_part_table, cut_table, where_it_goes_table
from loadpath.report.tradeoff import tradeoff_picture
from loadpath.report.travel import alignment_table, centres_table, told_wheels
from loadpath.report.travelparts import sensor_table, shaft_table, strut_travel_table, wheel_spring_table
from loadpath.report.travelplot import draw_travel
from loadpath.report.unit_matrix import unit_input_table, unit_load_table

__all__ = [
    "AXES",
    "BLIND",
    "CAUTION",
    "RANGED",
    "RIGID",
    "SAME",
    "SIGNS",
    "AxesWord",
    "Bodies",
    "Cell",
    "Column",
    "Table",
    "ToldLoadCase",
    "Use",
    "acting_at_peak",
    "alignment_table",
    "all_checks_table",
    "all_clearances_table",
    "all_shares_table",
    "answers_table",
    "articulation_table",
    "as_csv",
    "as_json",
    "as_text",
    "axes_line",
    "balance_table",
    "between_parts",
    "bodies_of",
    "brought_table",
    "by_part_table",
    "case_notes",
    "centres_table",
    "change_table",
    "clearance_table",
    "closing_table",
    "common_cases",
    "compliance_lines",
    "contribution_table",
    "contributions_table",
    "cut_balance_table",
    "cut_table",
    "design_table",
    "draw_brought",
    "draw_contributions",
    "draw_flow",
    "draw_room",
    "draw_travel",
    "energies_of",
    "energy_table",
    "exceeded",
    "figures_table",
    "forces_words",
    "free_bodies_table",
    "free_body_table",
    "free_table",
    "free_ways_table",
    "in_short",
    "inside_table",
    "instant_axes_table",
    "joint_angles_table",
    "joint_axes_table",
    "joint_changes",
    "joint_envelope",
    "joint_table",
    "limit_table",
    "load_case_table",
    "mass_table",
    "member_changes",
    "member_envelope",
    "member_table",
    "members_of",
    "mount_envelope",
    "mount_sheet",
    "onto_body",
    "other_load_table",
    "other_loads",
    "point_tables",
    "points_table",
    "pose_table",
    "pose_words",
    "properties",
    "range_table",
    "resistance_table",
    "room_lines",
    "section_table",
    "self_check_lines",
    "sensor_table",
    "set_table",
    "shaft_table",
    "share_changes",
    "single_table",
    "state_table",
    "stiffness_table",
    "stress_table",
    "strut_table",
    "strut_travel_table",
    "taken_table",
    "through_notes",
    "told_wheels",
    "tradeoff_picture",
    "unit_input_table",
    "unit_load_table",
    "uses",
    "verdict_table",
    "warning_lines",
    "wheel_load",
    "wheel_load_table",
    "wheel_spring_table",
    "where_it_gives",
    "where_it_goes_table",
    "without_columns",
    "wrapped",
    "write",
]
