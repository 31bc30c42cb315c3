"""Points of parts at which something is pulled or lifted."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.loads.errors import Fault
from loadpath.loads.kind import Site
from loadpath.loads.needs import unknown
from loadpath.model import BODY, Axes, Model, Part, PointLoad
from sections.fields import parameter

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Place:
    """A point of a part."""

    part: str = parameter("the part", refers="part")
    point: str = parameter("the point of the part", refers="point")


def place_faults(site: Site, key: str, part: str | None, point: str | None) -> Iterator[Fault]:
    """A part that there is, and a point on it. key : of the table that holds `part` and `point`, or ""."""
    path = f"{key}." if key else ""
    if part is None or point is None:
        missing = "part" if part is None else "point"
        yield site.lacks(f"{path}{missing}", "is missing", f"the {missing} that it acts on")
        return
    model = site.model
    body = model.parts.get(part)
    if body is None and part != BODY:
        yield unknown(site, f"{path}part", "part", part, model.parts)
    elif point not in model.points:
        yield unknown(site, f"{path}point", "point", point, model.points)
    elif point not in (own := points_of(model, body)):
        yield unknown(site, f"{path}point", f"point of {part}", point, own)


def points_of(model: Model, part: Part | None) -> tuple[str, ...]:
    """Points at which a part takes a load: all on a rigid part, the mounts of the body (None)."""
    if part is None:
        return tuple(model.body_mounts)
    if part.kind == "rigid":
        return tuple(model.points)
    own = [p for member in part.members for p in member.path] + [b.point for b in part.brackets]
    return tuple(dict.fromkeys(own))


def direction(axes: Axes, heading: str, aside: float, toward: str, rise: float) -> Array:
    """(3,) unit vector, case axes. aside, rise : [rad]."""
    along = math.cos(aside) if heading == "forward" else -math.cos(aside)
    across = math.sin(aside) if toward == "left" else -math.sin(aside)
    flat = along * axes.forward + across * axes.left
    unit: Array = math.cos(rise) * flat + math.sin(rise) * axes.up
    return unit


def force_at(model: Model, part: str, point: str, force: Array, what: str) -> PointLoad:
    """A force (3,) [N], case axes, on a point of a part."""
    return PointLoad(part, point, model.at(part, point), force, np.zeros(3), what)
