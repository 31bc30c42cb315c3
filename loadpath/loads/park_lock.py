"""A vehicle held by the park lock of its drive."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Literal

from loadpath.loads.errors import Fault
from loadpath.loads.grip import gripped
from loadpath.loads.kind import LoadKind, Site
from loadpath.loads.needs import drive_ways, finite, not_negative
from loadpath.loads.road import Motion, driving_loads, road_loads
from loadpath.loads.steady import driven, driven_corners
from loadpath.loads.terms import Corner
from loadpath.loads.transfer import STANDARD_GRAVITY
from loadpath.model import LoadCase
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class ParkLock(LoadKind):
    """The lock sits in the drive: it holds the driven wheels as the drive would turn them.

    With half-shafts the ground's force acts at the wheel centre and the lock's torque goes to the unit's
    housing; with a hub motor both stay on the carrying part. On a slope the locked wheels hold the whole
    vehicle. Where the lock drops in while the vehicle rolls, the wheels slide and their grip is the limit; the
    shock before they slide is in neither.
    """

    kind: ClassVar[str] = "park lock"
    grade: float = parameter(
        "rise of the road forward, 100 % is 45 degrees; negative downhill", "%", default=30.0
    )
    sliding: float = parameter(
        "friction at which the locked wheels slide to a stop; 0 holds the vehicle still",
        default=0.0,
        tell=False,
    )
    rolling: Literal["forward", "backward"] = parameter(
        "the way the vehicle rolls while they slide", default="forward", tell=False
    )
    axle: Literal["front", "rear"] | None = parameter(
        "the axle that is locked; default: every driven one", default=None, tell=False
    )

    def multiplies(self) -> str:
        """What pulls the vehicle down the slope, or what slides."""
        return "wheel load with transfer" if self.sliding else "vehicle weight along the slope"

    def faults(self, site: Site) -> Iterator[Fault]:
        """A slope or a slide, and driven wheels on the axle."""
        yield from finite(site, "grade", self.grade)
        yield from not_negative(site, "sliding", self.sliding)
        if not self.grade and not self.sliding:
            yield site.fault("grade", "nothing moves the vehicle", "a slope, or sliding")
        yield from drive_ways(site, "axle")
        driven_axles = {c.axle for c in driven_corners(site)}
        if driven_axles and not self._locked(site):
            yield site.fault("axle", f"the {self.axle} axle is not driven", " or ".join(sorted(driven_axles)))

    def build(self, site: Site) -> LoadCase:
        """Wheel loads of the standing or sliding vehicle."""
        slope, locked = math.atan(self.grade / 100), self._locked(site)
        forward, vertical = math.sin(slope) * STANDARD_GRAVITY, math.cos(slope)
        if self.sliding:
            way = -math.inf if self.rolling == "forward" else math.inf
            wanted = dict.fromkeys(sorted({c.axle for c in locked}), way)
            forces = gripped(site.vehicle, wanted, self.sliding, vertical)
            forward = sum(forces.values()) / site.vehicle.mass
        motion = Motion(forward=forward, vertical=vertical)
        loads = road_loads(site.vehicle, motion).loads
        along = driving_loads(loads, site.vehicle.mass * forward, locked)
        return driven(self, site, motion, along)

    def _locked(self, site: Site) -> frozenset[Corner]:
        return frozenset(c for c in driven_corners(site) if self.axle in (None, c.axle))
