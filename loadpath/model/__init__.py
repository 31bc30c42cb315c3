"""Points, parts and joints as frozen data, in mm, N, MPa, rad, tonne; shared by every later room."""

from loadpath.model.axes import segment_axes
from loadpath.model.curve import Curve, curve_through
from loadpath.model.entities import (
    BODY,
    STATION_WEIGHTS,
    TAPER_STATIONS,
    Axes,
    BodyMount,
    Bracket,
    EndFixity,
    LumpedMass,
    Material,
    Member,
    Model,
    Part,
    Split,
)
from loadpath.model.joints import BushingRates, Joint, JointKind, Kinematics
from loadpath.model.loadcase import LineLoad, LoadCase, PointLoad, Settlement, WheelLoad
from loadpath.model.loadspec import LoadSpec
from loadpath.model.names import in_short
from loadpath.model.pose import Pose, PoseWish
from loadpath.model.springs import AirSpring, Coil, Given, Measured, SpringLaw, Stop
from loadpath.model.stand import Stand, design_stand
from loadpath.model.suspension import FULL_TRAVEL, ForceElement, HalfShaft, HeightSensor, Wheel
from loadpath.model.targets import MassTarget, StiffnessTarget, Target
from loadpath.model.tyre import BARREL, SHOULDER, Tyre, tyre_of_size
from loadpath.model.vehicle import DESIGN, AxleData, Vehicle
from loadpath.model.weights import Weights, weights
from loadpath.model.wheels import contact_patch, patch_offset, spin_axis

__all__ = [
    "BARREL",
    "BODY",
    "DESIGN",
    "FULL_TRAVEL",
    "SHOULDER",
    "STATION_WEIGHTS",
    "TAPER_STATIONS",
    "AirSpring",
    "Axes",
    "AxleData",
    "BodyMount",
    "Bracket",
    "BushingRates",
    "Coil",
    "Curve",
    "EndFixity",
    "ForceElement",
    "Given",
    "HalfShaft",
    "HeightSensor",
    "Joint",
    "JointKind",
    "Kinematics",
    "LineLoad",
    "LoadCase",
    "LoadSpec",
    "LumpedMass",
    "MassTarget",
    "Material",
    "Measured",
    "Member",
    "Model",
    "Part",
    "PointLoad",
    "Pose",
    "PoseWish",
    "Settlement",
    "Split",
    "SpringLaw",
    "Stand",
    "StiffnessTarget",
    "Stop",
    "Target",
    "Tyre",
    "Vehicle",
    "Weights",
    "Wheel",
    "WheelLoad",
    "contact_patch",
    "curve_through",
    "design_stand",
    "in_short",
    "patch_offset",
    "segment_axes",
    "spin_axis",
    "tyre_of_size",
    "weights",
]
