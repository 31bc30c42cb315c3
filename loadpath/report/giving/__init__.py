"""Tables and pictures of compliance and of the room around the wheel."""

from loadpath.report.giving.compliance import (
    SAME,
    answers_table,
    brought_table,
    compliance_lines,
    figures_table,
    single_table,
)
from loadpath.report.giving.compliance_picture import draw_brought
from loadpath.report.giving.room import (
    all_clearances_table,
    clearance_table,
    free_table,
    free_ways_table,
    is_short,
    room_lines,
)
from loadpath.report.giving.room_picture import draw_room

__all__ = [
    "SAME",
    "all_clearances_table",
    "answers_table",
    "brought_table",
    "clearance_table",
    "compliance_lines",
    "draw_brought",
    "draw_room",
    "figures_table",
    "free_table",
    "free_ways_table",
    "is_short",
    "room_lines",
    "single_table",
]
