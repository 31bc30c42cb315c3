"""A wheel that slides sideways against a kerb."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from loadpath.loads.action import radius_at
from loadpath.loads.errors import Fault
from loadpath.loads.hits import Hit, Terms
from loadpath.loads.kind import Site
from loadpath.loads.needs import above_zero, not_negative
from loadpath.loads.road import static_load
from loadpath.loads.terms import CONTACT_PATCH, Corner, Term
from loadpath.loads.transfer import STANDARD_GRAVITY
from loadpath.model import Vehicle
from loadpath.model.loadcase import LoadClass
from sections.fields import parameter


def overturning_force(vehicle: Vehicle, axle: str, factor: float) -> float:
    """Side force [N] on one axle of a vehicle that slides against a kerb: K W B / (2 h) times its axle share.

    At a factor K of 1 the vehicle starts to overturn. The axles share by the place of the centre of gravity,
    P_front = F L2 / L. J. C. Brown, A. J. Robertson and S. T. Serpento, Motor Vehicle Structures (2002), p. 24,
    with K = 1.75 (Garrett 1953), others 1.4: for first loads, not to foretell a rollover.
    """
    weight = vehicle.axle_mass(axle) * STANDARD_GRAVITY
    return factor * weight * vehicle.axle(axle).track / (2 * vehicle.cg_height)


@dataclass(frozen=True, kw_only=True)
class KerbStrike(Hit):
    """Side force on the wheels of one side, toward the middle of the vehicle, at a height above the ground.

    The defaults, 4 aside and 2 up, are textbook factors commonly credited to Garrett (1953), from memory and
    not verified. The tyre meets a low kerb at the contact patch, the rim's edge a higher one.
    """

    kind: ClassVar[str] = "kerb strike"
    cls: LoadClass = parameter('class of the allowable: "rare", "abuse" or "repeated"', default="abuse")
    sideways: float = parameter("side force over the static wheel load", "g", default=4.0)
    vertical: float = parameter("upward force over the static wheel load, gravity included", "g", default=2.0)
    height: float = parameter("height above the ground at which the side force acts", "mm", default=0.0)
    overturning: float | None = parameter(
        "side force of the axle over the one that starts to overturn the vehicle, in place of sideways; "
        "1.75 is Garrett's (1953)",
        default=None,
        tell=False,
    )

    def multiplies(self) -> str:
        """Wheel loads, or what overturns the vehicle."""
        if self.overturning is None:
            return "static wheel load"
        return "axle load × track / (2 × height of the centre of gravity)"

    def faults(self, site: Site) -> Iterator[Fault]:
        """Sizes, one side, and a height on the wheel."""
        for key in ("sideways", "vertical"):
            yield from not_negative(site, key, getattr(self, key))
        if self.overturning is not None:
            yield from above_zero(site, "overturning", self.overturning)
        yield from super().faults(site)
        hit = self.hit(site)
        if len({c.left for c in hit}) > 1:
            yield site.fault("side", "both sides are hit", '"left" or "right": a kerb is at one side')
        least = min((radius_at(site.model, c) for c in hit), default=0.0)
        if hit and not 0 <= self.height <= least:
            yield site.fault("height", f"{self.height:g} is out of bounds", f"0 to the radius, {least:g} mm")

    def struck(self, site: Site, corner: Corner, terms: Terms) -> Terms:
        """The kerb's force: inward at its height, upward at the contact patch."""
        static = static_load(site.vehicle, corner)
        force = self.sideways * static
        if self.overturning is not None:
            force = overturning_force(site.vehicle, corner.axle, self.overturning)
        inward = -force if corner.left else force
        return (
            *terms,
            Term("kerb", "up", (self.vertical - 1) * static),
            Term("kerb", "left", inward, CONTACT_PATCH, self.height),
        )
