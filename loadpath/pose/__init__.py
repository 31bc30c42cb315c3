"""Kinematics of the model taken rigid: poses under wheel and rack travel, and the model as it stands in them."""

from loadpath.pose.articulation import Shaft, Turn, shafts, turns
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
from loadpath.pose.instant import Instant, RollCentre, instants, roll_centres
from loadpath.pose.limits import Limited, limited
from loadpath.pose.measured import to_design_height
from loadpath.pose.mechanism import Mechanism, make_mechanism
from loadpath.pose.posed import Standing, posed_model, standing
from loadpath.pose.poses import Poses, pose_many
from loadpath.pose.sensors import levers
from loadpath.pose.steering import Steering, steering
from loadpath.pose.struts import Strut, WheelSpring, struts, wheel_springs
from loadpath.pose.sweep import MOTIONS, Motion, Sweep, sweep
from loadpath.pose.windup import Clamped, clamped, windup

__all__ = [
    "MOTIONS",
    "Clamped",
    "Instant",
    "Limited",
    "Loose",
    "Mechanism",
    "Motion",
    "NoRest",
    "OutOfReach",
    "OverConstrained",
    "PoseError",
    "Poses",
    "RollCentre",
    "Shaft",
    "Standing",
    "Steering",
    "Strut",
    "Sweep",
    "Turn",
    "WheelAngles",
    "WheelGains",
    "WheelPlace",
    "WheelSpring",
    "clamped",
    "instants",
    "levers",
    "limited",
    "make_mechanism",
    "outward",
    "pose_many",
    "posed_model",
    "roll_centres",
    "shafts",
    "standing",
    "steering",
    "struts",
    "sweep",
    "to_design_height",
    "turns",
    "wheel_angles",
    "wheel_gains",
    "wheel_places",
    "wheel_springs",
    "windup",
]
