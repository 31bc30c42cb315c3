"""From checked tables to the model: parts, joints and all that hangs on them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from loadpath.case.carriers import Carriers
from loadpath.case.errors import Log
from loadpath.case.goals import make_target
from loadpath.case.joints import JointMaker
from loadpath.case.lookup import Context
from loadpath.case.moving import make_sensor, moved_to_design
from loadpath.case.parts import PartMaker
from loadpath.case.profiles import Profiles
from loadpath.case.space import Space
from loadpath.case.struts import check_locks, make_strut
from loadpath.case.suspension import make_masses, make_mounts, make_wheel
from loadpath.case.tables import CaseTable, MaterialTable
from loadpath.case.vehicles import check_axles, make_vehicle
from loadpath.case.words import join
from loadpath.materials import grade
from loadpath.materials import names as grade_names
from loadpath.model import Axes, Material, Model, Target, Vehicle

_T = TypeVar("_T")


FARTHEST = 1e5
"""[mm] from the origin that a point may lie."""


@dataclass(frozen=True, eq=False)
class Built:
    """What becomes of the tables."""

    model: Model
    vehicle: Vehicle | None
    targets: tuple[Target, ...]


def build(table: CaseTable, axes: Axes, context: Context, twins: frozenset[str]) -> Built:
    """Everything that can be made of the tables; mistakes go to the log, what they touch is left out.

    twins : paths of the generated tables.
    """
    log = context.log
    points = {name: np.array(p.at) for name, p in table.points.items()}
    for name, at in points.items():
        if np.abs(at).max() > FARTHEST:
            log.mistake(join("points", name), "lies more than 100 m from the origin", "coordinates in mm")
    space = Space(axes, points, frozenset(context.names["point"]), log)
    mirrored = frozenset(n for n in table.sections if join("sections", n) in twins)
    maker = PartMaker(space, Profiles(table.sections, mirrored, log), _materials(table.materials, log), twins)
    parts = _made({n: maker.part(n, t) for n, t in table.parts.items()})
    carriers = Carriers(parts, space)
    joint_maker = JointMaker(space, carriers)
    joints = _made({n: joint_maker.joint(n, t) for n, t in table.joints.items()})
    elements = _made({n: make_strut(n, t, space, carriers) for n, t in table.struts.items()})
    if log.clean("struts"):
        check_locks(elements.values(), log)
    wheels = _made({n: make_wheel(n, t, space, carriers) for n, t in table.wheels.items()})
    check_axles(wheels.values(), log)
    masses = make_masses(table.masses, table.parts, carriers, log)
    mounts = make_mounts(table.body, joints, elements, log)
    vehicle = None if table.vehicle is None else make_vehicle(table.vehicle, wheels.values(), space)
    targets: Mapping[str, Target] = _made(
        {n: make_target(n, t, space, carriers) for n, t in table.targets.items()}
    )
    sensors = _made({n: make_sensor(n, t, space) for n, t in table.sensors.items()})
    model = Model(table.title, axes, points, parts, joints, elements, masses, wheels, mounts, sensors)
    if not log.mistakes:
        model = moved_to_design(model, table, log)
    return Built(model, vehicle, tuple(targets.values()))


def _made(found: Mapping[str, _T | None]) -> dict[str, _T]:
    return {name: one for name, one in found.items() if one is not None}


def _materials(own: Mapping[str, MaterialTable], log: Log) -> dict[str, Material]:
    """Built-in grades and those of the case."""
    found = {name: grade(name).material for name in grade_names()}
    for name, table in own.items():
        G = table.E / (2 * (1 + table.nu)) if table.G is None else table.G
        if table.G is None:
            log.defaults[join("materials", name, "G")] = f"{G:.6g} MPa"
        found[name] = Material(
            name=name,
            E=table.E,
            G=G,
            nu=table.nu,
            density=table.density,
            proof=table.proof,
            ultimate=table.ultimate,
            elongation=table.elongation,
            source=table.source,
            from_memory=False,
        )
    return found
