"""Vehicle data from which wheel loads follow."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class AxleData:
    """One axle.

    track [mm]; unsprung_mass [t] of both wheels; unsprung_height [mm] of its centre above ground;
    roll_centre [mm] height; roll_share 0..1 of the roll stiffness of both axles.
    """

    track: float
    unsprung_mass: float
    unsprung_height: float
    roll_centre: float
    roll_share: float


@dataclass(frozen=True)
class Vehicle:
    """A vehicle in one loading state.

    Attributes
    ----------
    mass : [t]. front_share : 0..1 of the mass on the front axle. wheelbase, cg_height : [mm].
    ground : height of the ground [mm] along up, in case-file axes.
    roll_stiffness : of both axles together [N·mm/rad]; None where the case file gives none: then no roll
        angle and no anti-roll-bar twist follows.
    front, rear : axle data.
    """

    mass: float
    front_share: float
    wheelbase: float
    cg_height: float
    ground: float
    roll_stiffness: float | None
    front: AxleData
    rear: AxleData

    def axle(self, which: str) -> AxleData:
        """Data of the "front" or the "rear" axle."""
        return self.front if which == "front" else self.rear

    def axle_mass(self, which: str) -> float:
        """Mass carried by an axle's two wheels at rest [t], unsprung mass included."""
        return self.mass * (self.front_share if which == "front" else 1.0 - self.front_share)
