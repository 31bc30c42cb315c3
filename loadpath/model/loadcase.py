"""A load case as the frame solves it: what enters, where, in which field, with which allowable."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from dataclasses import field as declared
from types import MappingProxyType
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from loadpath.model.pose import PoseWish

Array = NDArray[np.float64]
LoadClass = Literal["rare", "abuse", "repeated"]


@dataclass(frozen=True, eq=False)
class PointLoad:
    """A force (3,) [N] and moment (3,) [N·mm] on a part at a position (3,) [mm], case axes.

    `what` tells where it comes from, for the balance and the load tables.
    """

    part: str
    point: str
    position: Array
    force: Array
    moment: Array
    what: str


@dataclass(frozen=True, eq=False)
class LineLoad:
    """A uniform force per length (3,) [N/mm] on a whole member of a part, case axes, through the centroid."""

    part: str
    member: str
    force: Array
    what: str


@dataclass(frozen=True, eq=False)
class Settlement:
    """A given displacement (3,) [mm] and rotation (3,) [rad] of the ground behind a body point, case axes."""

    point: str
    displacement: Array
    rotation: Array


@dataclass(frozen=True, eq=False)
class WheelLoad:
    """The load of one wheel with the terms that make it.

    force : (3,) [N] from the ground on the wheel, case axes. at : "contact patch", "wheel centre" or both.
    terms : (label, value [N]) along `direction` words, in the order in which they add up.
    """

    wheel: str
    force: Array
    at: str
    terms: tuple[tuple[str, float], ...]


@dataclass(frozen=True, eq=False)
class LoadCase:
    """A named quasi-static state.

    Attributes
    ----------
    kind : the case-file kind. cls : class of the allowable.
    field : (3,) force per mass on every mass of the model, gravity minus acceleration [N/t], case axes.
    loads : what enters the model at wheels, housings and given points.
    wheel_loads : the same at the wheels, for people.
    line_loads, settlements : loads along members and given movements of the ground behind body points.
    part_fields : field of single parts where it differs from the vehicle's.
    roll : body roll relative to the wheels [rad], about the forward axis; sets the struts' lengths where the
        pose does not.
    pose : where the wheels stand while it acts; None is design height.
    strain : factor on what the pose has wound up and twisted (bushings, anti-roll bar): 1 of a state, 0 of a unit
        load, of a sum what its parts have with their factors.
    pushes : the same of what force elements push with that are not locked: 1 of a state.
    size : a number that everything in the case is proportional to, such as ("g", 3.0); None where some of it,
        gravity say, does not grow with the number in the case file.
    notes : statements to print with it.
    """

    name: str
    kind: str
    cls: LoadClass
    field: Array
    loads: tuple[PointLoad, ...]
    wheel_loads: tuple[WheelLoad, ...] = ()
    line_loads: tuple[LineLoad, ...] = ()
    settlements: tuple[Settlement, ...] = ()
    part_fields: Mapping[str, Array] = declared(default_factory=lambda: MappingProxyType({}))
    roll: float = 0.0
    pose: PoseWish | None = None
    strain: float = 0.0
    pushes: float = 1.0
    size: tuple[str, float] | None = None
    notes: tuple[str, ...] = ()

    def field_of(self, part: str) -> Array:
        """(3,) force per mass on a part [N/t]."""
        return self.part_fields.get(part, self.field)
