"""Kinematics of the model taken rigid: poses under wheel and rack travel, and the model as it stands in them."""

from loadpath.pose.attitude import (
    WheelAngles,
    WheelGains,
    WheelPlace,
    outward,
    wheel_angles,
    wheel_gains,
    wheel_places,
)
from loadpath.pose.errors import Loose, NoRest, OutOfReach, OverConstrained, PoseError
from loadpath.pose.measured import to_design_height
from loadpath.pose.mechanism import Mechanism, make_mechanism
from loadpath.pose.posed import Standing, posed_model, standing
from loadpath.pose.poses import Poses, pose_many
from loadpath.pose.windup import Clamped, clamped, windup

__all__ = [
    "Clamped",
    "Loose",
    "Mechanism",
    "NoRest",
    "OutOfReach",
    "OverConstrained",
    "PoseError",
    "Poses",
    "Standing",
    "WheelAngles",
    "WheelGains",
    "WheelPlace",
    "clamped",
    "make_mechanism",
    "outward",
    "pose_many",
    "posed_model",
    "standing",
    "to_design_height",
    "wheel_angles",
    "wheel_gains",
    "wheel_places",
    "windup",
]
