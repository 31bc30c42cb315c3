"""Tables and pictures of one section."""

from loadpath.report.section.acting import acting_at_peak, forces_words, members_of, stress_table
from loadpath.report.section.profile import RANGED, change_table, in_short, range_table, section_table
from loadpath.report.section.properties import Use, properties, uses
from loadpath.report.section.resistance import resistance_table
from loadpath.report.section.tradeoff import tradeoff_picture

__all__ = [
    "RANGED",
    "Use",
    "acting_at_peak",
    "change_table",
    "forces_words",
    "in_short",
    "members_of",
    "properties",
    "range_table",
    "resistance_table",
    "section_table",
    "stress_table",
    "tradeoff_picture",
    "uses",
]
