"""Materials, members and parts."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Annotated, ClassVar, Literal

from loadpath.case.declare import Bounds, Direction, NotNegative, Positive
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class MaterialTable:
    """A grade that is not built in."""

    E: Annotated[float, Bounds(least=1000, most=1e6)] = parameter("Young's modulus", "MPa")
    nu: Annotated[float, Bounds(least=0, most=0.499)] = parameter("Poisson's ratio")
    G: Positive | None = parameter("shear modulus; default: E / (2 (1 + nu))", "MPa", default=None)
    density: Positive = parameter("density", "kg/m3")
    proof: Positive | None = parameter("least proof or yield stress, Rp0.2", "MPa", default=None, tell=False)
    ultimate: Positive | None = parameter("least tensile strength, Rm", "MPa", default=None, tell=False)
    elongation: NotNegative | None = parameter("least elongation, A", "%", default=None, tell=False)
    source: str = parameter("where the figures are from")


@dataclass(frozen=True, kw_only=True)
class WarpingTable:
    """Warping of an open member at its ends."""

    first: Literal["free", "held"] = parameter("at the first point")
    last: Literal["free", "held"] = parameter("at the last point")


@dataclass(frozen=True, kw_only=True)
class EndTable:
    """What a member's end passes on, in member axes; 0 is released, not given is rigid."""

    along: NotNegative = parameter("along the member", "N/mm", default=math.inf, tell=False)
    across_y: NotNegative = parameter("along the section's y", "N/mm", default=math.inf, tell=False)
    across_z: NotNegative = parameter("along the section's z", "N/mm", default=math.inf, tell=False)
    about_x: NotNegative = parameter("about the member (torsion)", "N*mm/deg", default=math.inf, tell=False)
    about_y: NotNegative = parameter("about the section's y", "N*mm/deg", default=math.inf, tell=False)
    about_z: NotNegative = parameter("about the section's z", "N*mm/deg", default=math.inf, tell=False)


@dataclass(frozen=True, kw_only=True)
class MemberTable:
    """A stretch of a frame along points, straight between each two of them."""

    path: tuple[str, ...] = parameter("its points, two or more, in order", refers="point")
    section: str | tuple[str, ...] = parameter(
        "one name, or one for each point of the path where it tapers", refers="section"
    )
    up: Direction = parameter(
        "where the section's z axis looks", default="up", refers="direction", tell=False
    )
    offset: tuple[float, float] = parameter(
        "centroid from the path line, along the section's y and z",
        "mm",
        default=(0.0, 0.0),
        vector="section",
        tell=False,
    )
    material: str | None = parameter(
        "default: the material of the part", refers="material", default=None, tell=False
    )
    warping: WarpingTable | None = parameter(
        "of open sections: free or held at each end; default: not stated", default=None, tell=False
    )
    first_end: EndTable = parameter("fixity of the first end", default=EndTable(), tell=False)
    last_end: EndTable = parameter("fixity of the last end", default=EndTable(), tell=False)


@dataclass(frozen=True, kw_only=True)
class BracketTable:
    """A rigid arm to a point beside the members; `point = "carrying point"` says the same in short."""

    shorthand: ClassVar[str] = "carried_by"
    carried_by: str = parameter("the point of a member that carries it", refers="point")


@dataclass(frozen=True, kw_only=True)
class SplitTable:
    """Where a part that twists is cut for the kinematics; `split = "point"` says the same in short."""

    shorthand: ClassVar[str] = "at"
    at: str = parameter("a point inside one of its members", refers="point")
    axis: Direction | None = parameter(
        "axis about which the halves turn against each other; default: the line through the bushings that hold it "
        "on both sides",
        refers="direction",
        default=None,
        tell=False,
    )


@dataclass(frozen=True, kw_only=True)
class FrameTable:
    """A part made of members: cradle, arm, anti-roll bar."""

    material: str | None = parameter("material of its members", refers="material", default=None, tell=False)
    members: Mapping[str, MemberTable] = parameter("its members by name")
    brackets: Mapping[str, BracketTable] = parameter("rigid arms, point by point", refers="point")
    split: SplitTable | None = parameter(
        "of an anti-roll bar or twist beam: where its two halves turn against each other",
        default=None,
        tell=False,
    )


@dataclass(frozen=True, kw_only=True)
class LinkTable:
    """A two-point member: toe link, drop link."""

    ends: tuple[str, str] = parameter("its two points", refers="point")
    section: str = parameter("its section", refers="section")
    material: str = parameter("its material", refers="material")
    up: Direction = parameter(
        "where the section's z axis looks", default="up", refers="direction", tell=False
    )


@dataclass(frozen=True, kw_only=True)
class RigidTable:
    """A rigid body: knuckle, drive unit. It carries any point that a joint, strut or wheel puts on it."""

    mass: NotNegative = parameter("mass", "kg", default=0.0)
    centre: str | None = parameter(
        "point of its centre of mass; needed with a mass", refers="point", default=None, tell=False
    )
    inertia: tuple[NotNegative, NotNegative, NotNegative] = parameter(
        "moments of inertia about the centre, about x, y, z of the file; statics has no use for them",
        "kg*mm2",
        default=(0.0, 0.0, 0.0),
        tell=False,
    )


PARTS: Mapping[str, type] = MappingProxyType({"frame": FrameTable, "link": LinkTable, "rigid": RigidTable})
