"""Tables and pictures of the load path: cuts, ribbons, free bodies, mount sheet, comparison."""

from loadpath.report.path.before_after import share_changes
from loadpath.report.path.compare import common_cases, joint_changes, member_changes, other_loads
from loadpath.report.path.energy import energies_of, energy_table, inside_table, where_it_gives
from loadpath.report.path.flow import draw_flow
from loadpath.report.path.flow_through import draw_contributions
from loadpath.report.path.mounts import (
    AXES,
    AxesWord,
    between_parts,
    joint_axes_table,
    mount_sheet,
    onto_body,
)
from loadpath.report.path.shares import all_shares_table, cut_balance_table
from loadpath.report.path.through import (
    closing_table,
    contribution_table,
    contributions_table,
    free_bodies_table,
    free_body_table,
    through_notes,
)
from loadpath.report.path.trace import Bodies, bodies_of, by_part_table, cut_table, where_it_goes_table
from loadpath.report.path.unit_matrix import unit_input_table, unit_load_table

__all__ = [
    "AXES",
    "AxesWord",
    "Bodies",
    "all_shares_table",
    "between_parts",
    "bodies_of",
    "by_part_table",
    "closing_table",
    "common_cases",
    "contribution_table",
    "contributions_table",
    "cut_balance_table",
    "cut_table",
    "draw_contributions",
    "draw_flow",
    "energies_of",
    "energy_table",
    "free_bodies_table",
    "free_body_table",
    "inside_table",
    "joint_axes_table",
    "joint_changes",
    "member_changes",
    "mount_sheet",
    "onto_body",
    "other_loads",
    "share_changes",
    "through_notes",
    "unit_input_table",
    "unit_load_table",
    "where_it_gives",
    "where_it_goes_table",
]
