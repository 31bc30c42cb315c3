"""Points, parts and joints as frozen data, in mm, N, MPa, rad, tonne; shared by every later room."""

from loadpath.model.entities import (
    BODY,
    STATION_WEIGHTS,
    TAPER_STATIONS,
    Axes,
    BodyMount,
    Bracket,
    BushingRates,
    EndFixity,
    ForceElement,
    Joint,
    LumpedMass,
    Material,
    Member,
    Model,
    Part,
    Wheel,
)
from loadpath.model.loadcase import LineLoad, LoadCase, PointLoad, Settlement, WheelLoad
from loadpath.model.loadspec import LoadSpec
from loadpath.model.targets import MassTarget, StiffnessTarget, Target
from loadpath.model.vehicle import AxleData, Vehicle

__all__ = [
    "BODY",
    "STATION_WEIGHTS",
    "TAPER_STATIONS",
    "Axes",
    "AxleData",
    "BodyMount",
    "Bracket",
    "BushingRates",
    "EndFixity",
    "ForceElement",
    "Joint",
    "LineLoad",
    "LoadCase",
    "LoadSpec",
    "LumpedMass",
    "MassTarget",
    "Material",
    "Member",
    "Model",
    "Part",
    "PointLoad",
    "Settlement",
    "StiffnessTarget",
    "Target",
    "Vehicle",
    "Wheel",
    "WheelLoad",
]
