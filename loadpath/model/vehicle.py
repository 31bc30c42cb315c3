"""Vehicle data from which wheel loads follow."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

DESIGN = "design"
"""Name of the loading state that the vehicle data themselves describe."""


@dataclass(frozen=True)
class AxleData:
    """One axle.

    track [mm]; unsprung_mass [t] of both wheels; unsprung_height [mm] of its centre above ground;
    roll_centre [mm] height; roll_share 0..1 of the roll stiffness of both axles; torque [N·mm] that the drive
    puts on both wheels together at most, None where it is not known; travel [mm] of the wheels from the
    design pose to where they stand in this loading state, jounce positive.
    """

    track: float
    unsprung_mass: float
    unsprung_height: float
    roll_centre: float
    roll_share: float
    torque: float | None = None
    travel: float = 0.0


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
    state : name of this loading state. states : the vehicle in its other states, by name.
    """

    mass: float
    front_share: float
    wheelbase: float
    cg_height: float
    ground: float
    roll_stiffness: float | None
    front: AxleData
    rear: AxleData
    state: str = DESIGN
    states: Mapping[str, Vehicle] = field(default_factory=lambda: MappingProxyType({}), hash=False)

    def axle(self, which: str) -> AxleData:
        """Data of the "front" or the "rear" axle."""
        return self.front if which == "front" else self.rear

    def axle_mass(self, which: str) -> float:
        """Mass carried by an axle's two wheels at rest [t], unsprung mass included."""
        return self.mass * (self.front_share if which == "front" else 1.0 - self.front_share)

    def in_state(self, name: str | None) -> Vehicle:
        """The vehicle in a loading state; None is the one that these data describe.

        Raises
        ------
        KeyError : a state that there is not.
        """
        return self if name in (None, self.state) else self.states[str(name)]
