"""Joints."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from loadpath.case.declare import Direction, NotNegative, Positive
from loadpath.case.tables.struts import ForceTable
from loadpath.model import JointKind, Kinematics
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class JointTable:
    """What every joint has."""

    between: tuple[str, str] = parameter("forces are shown as acting on the second", refers="part or body")
    point: str | None = parameter(
        "where it is; default: the joint's own name, if that is a point",
        refers="point",
        default=None,
        tell=False,
    )


@dataclass(frozen=True, kw_only=True)
class WeldedJoint(JointTable):
    """Holds everything."""


@dataclass(frozen=True, kw_only=True)
class BoltedJoint(JointTable):
    """Holds everything."""


@dataclass(frozen=True, kw_only=True)
class BallJoint(JointTable):
    """Holds the three translations."""

    stud: Direction | None = parameter(
        "direction of its stud at design height: its swing is then told apart from its turn about the stud",
        refers="direction",
        default=None,
        tell=False,
    )
    swing_limit: Positive | None = parameter(
        "largest swing of the stud from design height that the socket allows", "deg", default=None, tell=False
    )


@dataclass(frozen=True, kw_only=True)
class HingeJoint(JointTable):
    """Holds everything but the turn about its axis."""

    axis: Direction = parameter("its axis", refers="direction")


@dataclass(frozen=True, kw_only=True)
class SliderJoint(JointTable):
    """Holds everything but the slide along its axis."""

    axis: Direction = parameter("its axis", refers="direction")
    rack: bool = parameter(
        "a steering rack, named first in between: the steering holds and moves it, travel to the left positive",
        default=False,
        tell=False,
    )
    travel: Positive | None = parameter("of a rack: full travel to each side", "mm", default=None, tell=False)


@dataclass(frozen=True, kw_only=True)
class MomentTable:
    """Moment against angle as measured points; a smooth line through them that does not overshoot."""

    angle: tuple[float, ...] = parameter("angle at each point, rising", "deg")
    moment: tuple[float, ...] = parameter("moment at each point", "N*mm")


@dataclass(frozen=True, kw_only=True)
class BushingJoint(JointTable):
    """Rates or force tables in axes of its own.

    A table tells the force on the first part for a movement of the second against it, along or about axis, first
    radial and second radial = axis × first radial. One that begins at 0 holds for the other way too.
    """

    axis: Direction = parameter("its axis", refers="direction")
    radial: Positive | tuple[Positive, Positive] | None = parameter(
        "radial rate, or two; needed without a table", "N/mm", default=None, tell=False
    )
    axial: NotNegative | None = parameter(
        "axial rate; needed without a table", "N/mm", default=None, tell=False
    )
    radial_toward: Direction | None = parameter(
        "direction of the first radial, needed where two rates differ",
        default=None,
        refers="direction",
        tell=False,
    )
    torsional: NotNegative = parameter("rate about its axis", "N*mm/deg", default=0.0)
    conical: NotNegative | tuple[NotNegative, NotNegative] = parameter(
        "rate about the radials, or two", "N*mm/deg", default=0.0
    )
    axial_table: ForceTable | None = parameter("or its axial force", default=None, tell=False)
    radial_table: ForceTable | None = parameter(
        "or its radial force; one that does not begin at 0 is of the first radial alone",
        default=None,
        tell=False,
    )
    second_radial_table: ForceTable | None = parameter(
        "force along the second radial, axis × first radial", default=None, vector="reversed", tell=False
    )
    torsional_table: MomentTable | None = parameter(
        "or its moment about the axis", default=None, vector="reversed", tell=False
    )
    conical_table: MomentTable | None = parameter(
        "or its moment about the radials; one that does not begin at 0 is about the first alone",
        default=None,
        vector="reversed",
        tell=False,
    )
    second_conical_table: MomentTable | None = parameter(
        "moment about the second radial", default=None, tell=False
    )
    moves_as: Kinematics = parameter(
        "what it is to the kinematics: a ball at its centre, a hinge about its axis, a ball that slides along "
        "its axis, a joint that holds everything (fixed), or nothing that holds (free)",
        default="ball",
        tell=False,
    )
    clamped_at: float = parameter(
        "travel of the wheels at which it was bolted tight, up against the body positive; there it is not wound up",
        "mm",
        default=0.0,
        tell=False,
    )


JOINTS: Mapping[JointKind, type[JointTable]] = MappingProxyType(
    {
        "welded": WeldedJoint,
        "bolted": BoltedJoint,
        "ball": BallJoint,
        "hinge": HingeJoint,
        "slider": SliderJoint,
        "bushing": BushingJoint,
    }
)
