"""The file as a whole."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Annotated, Any, Literal

from loadpath.case.declare import Choice
from loadpath.case.tables.goals import TARGETS
from loadpath.case.tables.joints import JOINTS
from loadpath.case.tables.parts import PARTS, MaterialTable
from loadpath.case.tables.space import AxesTable, PointTable
from loadpath.case.tables.standard import StandardLoadsTable
from loadpath.case.tables.struts import STRUTS
from loadpath.case.tables.suspension import BodyTable, MassTable, SensorTable, WheelTable
from loadpath.case.tables.vehicle import VehicleTable
from loadpath.loads import KINDS
from sections import SHAPES
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class HeadTable:
    """What must be known before anything else is read."""

    format: Literal[1] = parameter("version of the file's format")
    title: str = parameter("title of the case", default="", tell=False)
    axes: AxesTable = parameter("which way the axes point", default=AxesTable(), tell=False)
    points_file: str | None = parameter(
        "CSV of hardpoints, columns name, x, y, z", refers="file", default=None, tell=False
    )


@dataclass(frozen=True, kw_only=True)
class CaseTable(HeadTable):
    """The whole file."""

    measured_at: float = parameter(
        "travel of the wheels when the points were measured, up against the body positive (droop: their rebound, "
        "negative); the model is moved from there to design height",
        "mm",
        default=0.0,
        tell=False,
    )
    vehicle: VehicleTable | None = parameter("the vehicle", default=None, tell=False)
    points: Mapping[str, PointTable] = parameter("hardpoints by name")
    sections: Annotated[Mapping[str, Any], Choice("shape", SHAPES)] = parameter("cross-sections by name")
    materials: Mapping[str, MaterialTable] = parameter("grades that are not built in")
    parts: Annotated[Mapping[str, Any], Choice("kind", PARTS, "frame")] = parameter("parts by name")
    joints: Annotated[Mapping[str, Any], Choice("kind", JOINTS)] = parameter("joints by name")
    struts: Annotated[Mapping[str, Any], Choice("element", STRUTS, "spring")] = parameter(
        "springs, dampers and stops"
    )
    wheels: Mapping[str, WheelTable] = parameter("wheels by name")
    sensors: Mapping[str, SensorTable] = parameter("ride-height sensors by name")
    masses: Mapping[str, MassTable] = parameter("masses on parts")
    body: BodyTable = parameter(
        "the body behind the mounts", default=BodyTable(at=MappingProxyType({})), tell=False
    )
    standard_loads: StandardLoadsTable | None = parameter(
        "what the case takes of the standard load cases", default=None, tell=False
    )
    load_cases: Annotated[Mapping[str, Any], Choice("kind", KINDS)] = parameter("load cases by name")
    targets: Annotated[Mapping[str, Any], Choice("kind", TARGETS)] = parameter(
        "what is asked beyond strength"
    )
