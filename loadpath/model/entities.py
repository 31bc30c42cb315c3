"""The model: what a chassis engineer names, as frozen data.

All vectors are in the axes of the case file. Units: mm, N, MPa, rad, tonne.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from loadpath.model.joints import Joint
from loadpath.model.pose import Pose
from loadpath.model.suspension import ForceElement, HeightSensor, Wheel
from sections import Section

Array = NDArray[np.float64]

BODY = "body"
"""Name of the vehicle's body, which is a part of every model."""

_LOBATTO_INNER = np.polynomial.Legendre.basis(6).deriv().roots()
TAPER_STATIONS = (1 + np.concatenate([[-1.0], _LOBATTO_INNER, [1.0]])) / 2
"""(7,) Gauss-Lobatto stations along a segment, as fractions of its length: both ends, the middle and two
between; a tapered segment has a section at each of them."""

STATION_WEIGHTS = 1.0 / (42.0 * np.polynomial.Legendre.basis(6)(2 * TAPER_STATIONS - 1) ** 2)
"""(7,) Gauss-Lobatto weights of the stations on [0, 1]: 1 / (n (n − 1) P_{n−1}(x)²) with n = 7."""

PartKind = Literal["frame", "link", "rigid"]


@dataclass(frozen=True, eq=False)
class Axes:
    """Unit vectors (3,) of the vehicle's forward, left and up in case-file axes; right-handed."""

    forward: Array
    left: Array
    up: Array


@dataclass(frozen=True)
class Material:
    """One grade.

    Attributes
    ----------
    E, G : moduli [MPa]. nu : Poisson's ratio. density : [t/mm³].
    proof : Rp0.2 or yield, minimum [MPa]. ultimate : Rm, minimum [MPa]. elongation : A, minimum [%].
    source : where the strength figures are from. from_memory : True where nobody has checked the page.
    """

    name: str
    E: float
    G: float
    nu: float
    density: float
    proof: float | None
    ultimate: float | None
    elongation: float | None
    source: str
    from_memory: bool


@dataclass(frozen=True)
class EndFixity:
    """What a member's end passes on, in member axes x (along), y, z.

    Six entries, forces then moments: inf = rigid, 0 = released, else a rate [N/mm] or [N·mm/rad].
    """

    rates: tuple[float, float, float, float, float, float] = (np.inf,) * 6


@dataclass(frozen=True, eq=False)
class Member:
    """A stretch of a frame part along points; straight between each two of them.

    Attributes
    ----------
    path : point names, two or more.
    sections : one tuple for each of the len(path) − 1 segments: a single section where the segment is
        prismatic, or the len(TAPER_STATIONS) sections of a tapered one.
    section_names : names in the case file, one, or one for each path point.
    up : (3,) direction that the section's z axis looks at; z is its component square to the segment. In a pose
        of a part that twists, one for each segment (len(path) − 1, 3).
    offset : (2,) y, z of the centroid from the path line in section axes [mm].
    warping : for each end "free" or "held", or None where the case file says nothing.
    ends : fixity of the first and the last end.
    """

    name: str
    path: tuple[str, ...]
    sections: tuple[tuple[Section, ...], ...]
    section_names: tuple[str, ...]
    material: Material
    up: Array
    offset: Array
    warping: tuple[str, str] | None
    ends: tuple[EndFixity, EndFixity]

    def up_of(self, segment: int) -> Array:
        """(3,) direction that the section's z axis looks at along a segment."""
        up: Array = self.up if self.up.ndim == 1 else self.up[segment]
        return up


@dataclass(frozen=True)
class Bracket:
    """A rigid arm that carries a point of a frame part from a point on its members."""

    point: str
    carried_by: str


@dataclass(frozen=True, eq=False)
class Split:
    """Where a frame part that twists, such as an anti-roll bar, is cut in two for its kinematics.

    at : a point of its members. axis : (3,) direction about which the halves turn against each other, at design
    height; None for the line through the joints that hold the halves on both sides of the cut.
    """

    at: str
    axis: Array | None


@dataclass(frozen=True, eq=False)
class Part:
    """One body of the mechanism.

    A frame has members and brackets; a link has exactly one member of two points; a rigid part has neither
    and carries any point. Mass of frames and links comes from their members, of rigid parts from
    `LumpedMass` entries.
    """

    name: str
    kind: PartKind
    members: tuple[Member, ...] = ()
    brackets: tuple[Bracket, ...] = ()
    split: Split | None = None


@dataclass(frozen=True, eq=False)
class BodyMount:
    """Rates [N/mm] of the body behind one point, along forward, left and up; None is rigid."""

    point: str
    rates: Array | None
    is_default: bool


@dataclass(frozen=True, eq=False)
class LumpedMass:
    """A mass at a point of a part.

    mass [t]; inertia (3, 3) about its own centre [t·mm²], case axes; centre at the point.
    """

    name: str
    part: str
    point: str
    mass: float
    inertia: Array


def _nothing() -> Mapping[Any, Any]:
    return MappingProxyType({})


@dataclass(frozen=True, eq=False)
class Model:
    """Everything that the later rooms need of one case, in one pose.

    points holds where each point is. Where parts that share a point have moved apart (along a slider, say),
    own_points holds where it is on each of them by (part, point), and points is where their joint acts.
    pose is None at design height.
    """

    title: str
    axes: Axes
    points: Mapping[str, Array]
    parts: Mapping[str, Part]
    joints: Mapping[str, Joint]
    force_elements: Mapping[str, ForceElement]
    masses: Mapping[str, LumpedMass]
    wheels: Mapping[str, Wheel]
    body_mounts: Mapping[str, BodyMount]
    sensors: Mapping[str, HeightSensor] = field(default_factory=_nothing)
    own_points: Mapping[tuple[str, str], Array] = field(default_factory=_nothing)
    pose: Pose | None = None

    def at(self, part: str, point: str) -> Array:
        """(3,) position [mm] of a point of a part."""
        return self.own_points.get((part, point), self.points[point])
