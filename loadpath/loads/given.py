"""Forces and moments that the case file gives outright."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Literal

import numpy as np
from numpy.typing import NDArray

from loadpath.loads.action import together
from loadpath.loads.errors import Fault
from loadpath.loads.kind import LoadKind, Site
from loadpath.loads.needs import finite, known_wheels
from loadpath.loads.places import place_faults
from loadpath.loads.terms import CONTACT_PATCH
from loadpath.loads.transfer import STANDARD_GRAVITY
from loadpath.model import LoadCase, Model, PointLoad, WheelLoad, contact_patch
from sections.fields import parameter

Array = NDArray[np.float64]
Components = tuple[float, float, float]


@dataclass(frozen=True, kw_only=True)
class GivenForce:
    """A force and a moment, at a point of a part or at a wheel; components in the axes of the file."""

    part: str | None = parameter("the part it acts on", refers="part", default=None, tell=False)
    point: str | None = parameter("the point of the part", refers="point", default=None, tell=False)
    wheel: str | None = parameter("or the wheel it acts on", refers="wheel", default=None, tell=False)
    at: Literal["contact patch", "wheel centre"] = parameter(
        "where on the wheel", default="contact patch", tell=False
    )
    force: Components = parameter("force", "N", default=(0.0, 0.0, 0.0), vector="polar", tell=False)
    moment: Components = parameter("moment", "N*mm", default=(0.0, 0.0, 0.0), vector="axial", tell=False)


@dataclass(frozen=True, kw_only=True)
class Given(LoadKind):
    """Given forces with an acceleration field of their own; needs no vehicle data."""

    kind: ClassVar[str] = "given"
    on_wheels: ClassVar[bool] = False
    forces: tuple[GivenForce, ...] = parameter("the forces", default=(), tell=False)
    gravity: float = parameter("gravity downward", "g", default=1.0)
    acceleration: Components = parameter(
        "acceleration of the vehicle, in the axes of the file",
        "g",
        default=(0.0, 0.0, 0.0),
        vector="polar",
        tell=False,
    )

    def faults(self, site: Site) -> Iterator[Fault]:
        """Sizes, and places that there are."""
        yield from finite(site, "gravity", self.gravity)
        yield from finite(site, "acceleration", *self.acceleration)
        for k, one in enumerate(self.forces):
            yield from finite(site, f"forces[{k}].force", *one.force)
            yield from finite(site, f"forces[{k}].moment", *one.moment)
            yield from _place_faults(site, f"forces[{k}]", one)

    def build(self, site: Site) -> LoadCase:
        """The forces where they act, and gravity less acceleration as the field."""
        field = -self.gravity * site.model.axes.up - np.array(self.acceleration)
        return LoadCase(
            name=site.name,
            kind=self.kind,
            cls=self.cls,
            field=STANDARD_GRAVITY * field + 0.0,
            loads=tuple(_point_load(site.model, one) for one in self.forces),
            wheel_loads=_wheel_loads(site.model, self.forces),
            strain=1.0,
        )


def _place_faults(site: Site, key: str, one: GivenForce) -> Iterator[Fault]:
    if (one.wheel is None) == (one.part is None and one.point is None):
        yield site.fault(key, "says where it acts twice or not at all", "either wheel, or part and point")
    elif one.wheel is not None:
        yield from known_wheels(site, f"{key}.wheel", (one.wheel,))
    else:
        yield from place_faults(site, key, one.part, one.point)


def _point_load(model: Model, one: GivenForce) -> PointLoad:
    force, moment = np.array(one.force), np.array(one.moment)
    if one.wheel is None:
        part, point = str(one.part), str(one.point)
        return PointLoad(part, point, model.at(part, point), force, moment, "given")
    wheel = model.wheels[one.wheel]
    centre = model.at(wheel.part, wheel.centre)
    position = contact_patch(model, wheel) if one.at == CONTACT_PATCH else centre
    return PointLoad(wheel.part, wheel.centre, position, force, moment, f"{one.at} of {wheel.name}: given")


def _wheel_loads(model: Model, forces: tuple[GivenForce, ...]) -> tuple[WheelLoad, ...]:
    names = dict.fromkeys(one.wheel for one in forces if one.wheel is not None)
    return tuple(_wheel_load(model, name, [one for one in forces if one.wheel == name]) for name in names)


def _wheel_load(model: Model, wheel: str, forces: list[GivenForce]) -> WheelLoad:
    total: Array = np.sum([one.force for one in forces], axis=0)
    axes = model.axes
    terms = [
        (f"{word}: given at the {one.at}", float(np.array(one.force) @ direction))
        for one in forces
        for word, direction in (("forward", axes.forward), ("left", axes.left), ("up", axes.up))
    ]
    at = together(one.at for one in forces)
    return WheelLoad(wheel, total, at, tuple(t for t in terms if not math.isclose(t[1], 0.0)))
