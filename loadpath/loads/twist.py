"""A vehicle that stands across a twisted road."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Literal

from loadpath.loads.errors import Fault
from loadpath.loads.kind import LoadKind, Site, on_wheels_case
from loadpath.loads.notes import NO_TWIST, TWO_AXLES
from loadpath.loads.road import Motion, static_load, weight_terms
from loadpath.loads.terms import CORNERS, Corner, Term
from loadpath.loads.transfer import AXLES, STANDARD_GRAVITY
from loadpath.model import LoadCase, Vehicle
from sections.fields import parameter


def lifting_moment(vehicle: Vehicle) -> float:
    """Moment [N·mm] about the vehicle's length at which the first wheel lifts: lighter axle load × track / 2.

    J. C. Brown, A. J. Robertson and S. T. Serpento, Motor Vehicle Structures (2002), ch. 2, after Erz (1957)
    and Pawlowski (1969). An ideal of pure torsion: no bending is taken off it.
    """
    return min(vehicle.axle_mass(a) * STANDARD_GRAVITY * vehicle.axle(a).track / 2 for a in AXLES)


@dataclass(frozen=True, kw_only=True)
class Twist(LoadKind):
    """Wheels raised across the diagonal: each axle carries the same moment, one against the other."""

    kind: ClassVar[str] = "twist"
    raised: Literal["left", "right"] = parameter(
        "the front wheel that is raised; at the rear it is the other side's", default="left"
    )
    share: float = parameter(
        "share of the moment at which a wheel of the lighter axle lifts, 0 to 1", default=1.0
    )

    def multiplies(self) -> str:
        """What lifts the first wheel."""
        return "lighter axle's load × half of its track"

    def faults(self, site: Site) -> Iterator[Fault]:
        """A share; beyond 1 the wheel has lifted, and the moment grows no more."""
        if not 0 < self.share <= 1:
            yield site.fault("share", f"{self.share:g} is out of bounds", "above 0 and at most 1")

    def build(self, site: Site) -> LoadCase:
        """Wheel loads of a vehicle at rest, and the roll of the body over a single axle."""
        moment = self.share * lifting_moment(site.vehicle)
        loads = {
            c: (*weight_terms(site.vehicle, c, 1.0), Term("twist", "up", self._more(site, c, moment)))
            for c in CORNERS
        }
        roll, notes = self._roll(site, moment)
        lifted = [c for c in CORNERS if sum(t.value for t in loads[c]) < 1e-9 * static_load(site.vehicle, c)]
        notes = (*notes, *(f"{name} lifts: its load is zero" for name in site.corner_names(lifted)))
        field = Motion().field(site.model.axes)
        return on_wheels_case(self, site, field, loads, roll=roll, notes=notes)

    def _more(self, site: Site, corner: Corner, moment: float) -> float:
        return self._sign(corner.axle, corner.left) * moment / site.vehicle.axle(corner.axle).track

    def _sign(self, axle: str, left: bool) -> int:
        raised = (self.raised == "left") == (axle == "front")
        return 1 if raised == left else -1

    def _roll(self, site: Site, moment: float) -> tuple[float, tuple[str, ...]]:
        """Roll [rad] of the body relative to the case's one axle, positive where it loads the right."""
        axles = {w.axle for w in site.model.wheels.values()}
        if site.vehicle.roll_stiffness is None:
            return 0.0, (NO_TWIST,)
        if len(axles) > 1:
            return 0.0, (TWO_AXLES,)
        axle = axles.pop()
        stiffness = site.vehicle.roll_stiffness * site.vehicle.axle(axle).roll_share
        return (self._sign(axle, False) * moment / stiffness, ()) if stiffness else (0.0, (NO_TWIST,))
