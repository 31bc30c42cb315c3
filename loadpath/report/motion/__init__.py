"""Tables and pictures of kinematics over travel."""

from loadpath.report.motion.articulation import articulation_table, exceeded, joint_angles_table, limit_table
from loadpath.report.motion.atdesign import design_table
from loadpath.report.motion.posedpoints import instant_axes_table, points_table
from loadpath.report.motion.travel import alignment_table, centres_table, told_wheels
from loadpath.report.motion.travelparts import (
    sensor_table,
    shaft_table,
    strut_travel_table,
    wheel_spring_table,
)
from loadpath.report.motion.travelplot import draw_travel

__all__ = [
    "alignment_table",
    "articulation_table",
    "centres_table",
    "design_table",
    "draw_travel",
    "exceeded",
    "instant_axes_table",
    "joint_angles_table",
    "limit_table",
    "points_table",
    "sensor_table",
    "shaft_table",
    "strut_travel_table",
    "told_wheels",
    "wheel_spring_table",
]
