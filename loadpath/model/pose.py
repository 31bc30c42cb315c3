"""The pose that a model stands in, and what a load case says of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import ClassVar, Literal

import numpy as np
from numpy.typing import NDArray

from sections.fields import parameter

Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class PoseWish:
    """The pose in which a load case acts; `pose = "from load"` says the same in short."""

    shorthand: ClassVar[str] = "by"
    by: Literal["design", "from roll", "from load"] | None = parameter(
        "design height, the travel that the body's roll gives, or the one at which the springs carry the wheel "
        "loads; without it the travel is given",
        default=None,
        tell=False,
    )
    jounce: float = parameter("travel of all wheels, up against the body", "mm", default=0.0, tell=False)
    wheels: Mapping[str, float] | None = parameter(
        "jounce of single wheels where it differs", "mm", default=None, refers="wheel", tell=False
    )
    rack: float = parameter(
        "travel of the steering rack to the left", "mm", default=0.0, vector="left", tell=False
    )

    def gives_travel(self) -> bool:
        """True where the travel of the wheels is given in numbers."""
        return self.by is None

    def travel_of(self, wheel: str) -> float:
        """Given jounce of a wheel [mm]."""
        return (self.wheels or {}).get(wheel, self.jounce)


@dataclass(frozen=True, eq=False)
class Pose:
    """What a model carries that does not stand at design height.

    Attributes
    ----------
    travel : jounce of each wheel [mm]. rack : travel of each steering rack [mm] along its slider's axis.
    windup : (6,) movement of the second part of each bushing against the first since it was clamped, in its own
        axes: three displacements [mm], three rotations [rad] as a rotation vector.
    twist : (k, 6) of the k segments of each member of a part that twists, by (part, member): displacement [mm]
        and rotation [rad] of the far end against the near end carried along rigidly, case axes.
    pushes : [N] what each force element that has a law pushes with by it, compression positive.
    screws : (nw, 6) for 1 mm of jounce of each of nw wheels alone: velocity of what moves with a point of a part, at
        the origin of coordinates [mm], and angular velocity [rad]; by (part, point) where the part twists, else by
        (part, "").
    """

    travel: Mapping[str, float]
    rack: Mapping[str, float]
    windup: Mapping[str, Array]
    twist: Mapping[tuple[str, str], Array]
    pushes: Mapping[str, float]
    screws: Mapping[tuple[str, str], Array] = field(default_factory=lambda: MappingProxyType({}))

    def screw(self, part: str, point: str = "") -> Array:
        """(nw, 6) of a point of a part, see `screws`."""
        found = self.screws.get((part, point))
        return self.screws[part, ""] if found is None else found

    def words(self) -> str:
        """The pose in words, for headings and notes."""
        values = {round(t, 1) + 0.0 for t in self.travel.values()}
        if len(values) == 1:
            travel = f"jounce {values.pop():.1f} mm"
        else:
            travel = "jounce " + ", ".join(f"{w} {t:.1f}" for w, t in self.travel.items()) + " mm"
        steered = [f"{name} {s:.1f} mm" for name, s in self.rack.items() if s]
        return ", ".join([travel, *steered])
