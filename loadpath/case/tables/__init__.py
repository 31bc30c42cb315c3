"""The tables of the case file. Each key says its type, unit, default and meaning here and nowhere else.

Defaults stand in internal units (mm, N, MPa, rad, tonne), as everywhere behind the reading.
"""

from loadpath.case.tables.file import CaseTable, HeadTable
from loadpath.case.tables.goals import MassBudgetTable, StiffnessTable
from loadpath.case.tables.joints import (
    JOINTS,
    BallJoint,
    BushingJoint,
    HingeJoint,
    JointTable,
    MomentTable,
    SliderJoint,
)
from loadpath.case.tables.parts import (
    BracketTable,
    EndTable,
    FrameTable,
    LinkTable,
    MaterialTable,
    MemberTable,
    RigidTable,
    SplitTable,
)
from loadpath.case.tables.space import AxesTable
from loadpath.case.tables.struts import (
    AirSpringTable,
    BumpStopTable,
    DamperTable,
    ForceTable,
    ReboundStopTable,
    SpringTable,
    StrutTable,
)
from loadpath.case.tables.suspension import (
    BODY_RATES,
    BodyTable,
    HalfShaftTable,
    MassTable,
    SensorTable,
    TyreTable,
    WheelTable,
)
from loadpath.case.tables.vehicle import AxleTable, StateTable, VehicleTable

__all__ = [
    "BODY_RATES",
    "JOINTS",
    "AirSpringTable",
    "AxesTable",
    "AxleTable",
    "BallJoint",
    "BodyTable",
    "BracketTable",
    "BumpStopTable",
    "BushingJoint",
    "CaseTable",
    "DamperTable",
    "EndTable",
    "ForceTable",
    "FrameTable",
    "HalfShaftTable",
    "HeadTable",
    "HingeJoint",
    "JointTable",
    "LinkTable",
    "MassBudgetTable",
    "MassTable",
    "MaterialTable",
    "MemberTable",
    "MomentTable",
    "ReboundStopTable",
    "RigidTable",
    "SensorTable",
    "SliderJoint",
    "SplitTable",
    "SpringTable",
    "StateTable",
    "StiffnessTable",
    "StrutTable",
    "TyreTable",
    "VehicleTable",
    "WheelTable",
]
