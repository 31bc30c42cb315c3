"""Wheels, masses and the body behind the mounts."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from loadpath.case.carriers import Carriers
from loadpath.case.errors import Log
from loadpath.case.moving import make_half_shaft
from loadpath.case.space import SHORTEST, Space
from loadpath.case.tables import BODY_RATES, BodyTable, MassTable, RigidTable, WheelTable
from loadpath.case.tyres import make_tyre
from loadpath.case.words import join
from loadpath.model import BODY, BodyMount, ForceElement, Joint, LumpedMass, Wheel

Array = NDArray[np.float64]


def make_wheel(name: str, table: WheelTable, space: Space, carriers: Carriers) -> Wheel | None:
    """A wheel, or None where it cannot be made."""
    path, log = join("wheels", name), space.log
    carriers.carries(table.part, table.centre, join(path, "centre"))
    _only_with(table.brake_part, "brake_part", table.brake == "inboard", 'brake = "inboard"', path, log)
    _only_with(table.unit, "unit", table.drive == "half-shaft", 'drive = "half-shaft"', path, log)
    if not space.known([table.centre]):
        return None
    aside = float(space.points[table.centre] @ space.axes.left)
    if abs(aside) < SHORTEST:
        log.mistake(
            join(path, "centre"), f"{table.centre} is in the vehicle's middle plane", "a point at a side"
        )
    link = carriers.parts.get(table.steer_link or "")
    if link is not None and link.kind != "link":
        log.mistake(join(path, "steer_link"), f"{link.name} is no link", "a part of kind link")
    shaft = None
    if table.half_shaft is not None:
        _only_with(table.unit, "unit", True, "half_shaft", path, log)
        shaft = make_half_shaft(
            table.half_shaft, table.part, table.unit or BODY, join(path, "half_shaft"), carriers
        )
    tyre = None if table.tyre is None else make_tyre(table.tyre, join(path, "tyre"), table.radius, log)
    if not log.clean(path):
        return None
    return Wheel(
        name=name,
        part=table.part,
        centre=table.centre,
        radius=table.radius,
        axle=table.axle,
        left=aside > 0,
        brake=table.brake,
        brake_part=table.brake_part,
        drive=table.drive,
        unit=table.unit,
        camber=table.camber,
        toe=table.toe,
        jounce=table.jounce,
        rebound=table.rebound,
        steer_link=table.steer_link,
        half_shaft=shaft,
        hub_tilt=table.hub_tilt,
        tyre=tyre,
    )


def _only_with(value: str | None, key: str, wanted: bool, condition: str, path: str, log: Log) -> None:
    if wanted and value is None:
        log.mistake(join(path, key), f"is missing with {condition}", "name of a part")
    if not wanted and value is not None:
        log.mistake(join(path, key), f"has no meaning without {condition}", f"{condition}, or no {key}")


def make_masses(
    masses: Mapping[str, MassTable], parts: Mapping[str, object], carriers: Carriers, log: Log
) -> dict[str, LumpedMass]:
    """Lumped masses: those of rigid parts under the part's name, then the given ones."""
    found = {}
    for name, part in parts.items():
        if not isinstance(part, RigidTable):
            continue
        path = join("parts", name)
        if part.centre is not None and part.mass > 0:
            found[name] = LumpedMass(name, name, part.centre, part.mass, np.diag(part.inertia))
        elif part.mass > 0 or any(part.inertia):
            key = "mass" if part.centre is not None else "centre"
            log.mistake(join(path, key), "is missing", "mass and centre where there is either or an inertia")
    for name, mass in masses.items():
        path = join("masses", name)
        if name in found:
            log.mistake(path, f"the rigid part {name} has a mass of that name", "another name")
        carriers.carries(mass.part, mass.point, join(path, "point"))
        found[name] = LumpedMass(name, mass.part, mass.point, mass.mass, np.diag(mass.inertia))
    return found


def make_mounts(
    body: BodyTable, joints: Mapping[str, Joint], elements: Mapping[str, ForceElement], log: Log
) -> dict[str, BodyMount]:
    """The body behind every point that a joint or strut puts on it."""
    touched = [j.point for j in joints.values() if BODY in j.between]
    touched += [p for e in elements.values() for b, p in zip(e.between, e.ends, strict=True) if b == BODY]
    general = BODY_RATES if body.rates is None else body.rates
    mounts = {}
    for point in dict.fromkeys(touched):
        given = point in body.at
        rates = body.at[point].rates if given else general
        is_default = body.rates is None and not given
        mounts[point] = BodyMount(point, None if rates == "rigid" else np.array(rates), is_default)
    if any(m.is_default for m in mounts.values()):
        numbers = ", ".join(f"{r:g}" for r in BODY_RATES)
        log.defaults["body.rates"] = f"{numbers} N/mm (common practice, no source)"
    for point in body.at:
        if point not in mounts and log.clean("joints") and log.clean("struts"):
            log.warnings.append(f"body.at.{point}: no joint or strut touches the body there")
    return mounts
