"""Joints."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from loadpath.case.declare import Direction, NotNegative, Positive
from loadpath.model import Kinematics
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
class BushingJoint(JointTable):
    """Linear rates in axes of its own."""

    axis: Direction = parameter("its axis", refers="direction")
    radial: Positive | tuple[Positive, Positive] = parameter("radial rate, or two", "N/mm")
    axial: NotNegative = parameter("axial rate", "N/mm")
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


JOINTS: Mapping[str, type[JointTable]] = MappingProxyType(
    {
        "welded": WeldedJoint,
        "bolted": BoltedJoint,
        "ball": BallJoint,
        "hinge": HingeJoint,
        "slider": SliderJoint,
        "bushing": BushingJoint,
    }
)
