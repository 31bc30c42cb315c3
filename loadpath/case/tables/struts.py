"""Springs, stops and dampers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Annotated

from loadpath.case.declare import Bounds, NotNegative, Positive
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class ForceTable:
    """Force against travel as measured points; a smooth line through them that does not overshoot."""

    travel: tuple[float, ...] = parameter("travel at each point, rising", "mm")
    force: tuple[float, ...] = parameter("force at each point", "N")


@dataclass(frozen=True, kw_only=True)
class StrutTable:
    """What pushes its two ends apart, a positive force pushing."""

    between: tuple[str, str] = parameter("what it pushes apart", refers="part or body")
    ends: tuple[str, str] = parameter("its point on the first and on the second part", refers="point")
    wheel: str = parameter("the wheel that it holds up", refers="wheel")


@dataclass(frozen=True, kw_only=True)
class LockableTable(StrutTable):
    """A spring."""

    locked: bool = parameter(
        "held at its length, so that its force follows from equilibrium; of each wheel one is", default=True
    )


@dataclass(frozen=True, kw_only=True)
class SpringTable(LockableTable):
    """A spring: rate with load at design height or free length, or a table of its force."""

    rate: NotNegative | None = parameter("rate", "N/mm", default=None, tell=False)
    load: float | None = parameter("its push at design height", "N", default=None, tell=False)
    free_length: Positive | None = parameter(
        "or the distance of its ends at which it pushes nothing", "mm", default=None, tell=False
    )
    table: ForceTable | None = parameter(
        "or its push against how much shorter it is than at design height", default=None, tell=False
    )


Exponent = Annotated[float, Bounds(least=1.0, most=1.67)]


@dataclass(frozen=True, kw_only=True)
class AirSpringTable(LockableTable):
    """An air spring: closed volume behind a piston of constant area, or a table of its force."""

    pressure: Positive | None = parameter("gauge pressure at design height", "MPa", default=None, tell=False)
    area: Positive | None = parameter("effective area", "mm2", default=None, tell=False)
    volume: Positive | None = parameter(
        "volume at design height, with what is connected to it", "mm3", default=None, tell=False
    )
    exponent: Exponent = parameter(
        "p V^n stays the same: 1 slowly, up to 1.4 in quick travel (common practice, no source)", default=1.3
    )
    table: ForceTable | None = parameter(
        "or its push against how much shorter it is than at design height", default=None, tell=False
    )


@dataclass(frozen=True, kw_only=True)
class BumpStopTable(StrutTable):
    """A stop that pushes once its gap is used up."""

    gap: NotNegative = parameter("how much shorter than at design height until it touches", "mm")
    table: ForceTable = parameter("its push against how far it is pressed, from 0")


@dataclass(frozen=True, kw_only=True)
class ReboundStopTable(StrutTable):
    """A stop that pulls once its gap is used up."""

    gap: NotNegative = parameter("how much longer than at design height until it touches", "mm")
    table: ForceTable = parameter("its pull against how far it is pressed, from 0")


@dataclass(frozen=True, kw_only=True)
class DamperTable(StrutTable):
    """A damper with a given force."""

    force: float = parameter("its push; it acts in every load case", "N", default=0.0)


STRUTS: Mapping[str, type[StrutTable]] = MappingProxyType(
    {
        "spring": SpringTable,
        "air spring": AirSpringTable,
        "bump stop": BumpStopTable,
        "rebound stop": ReboundStopTable,
        "damper": DamperTable,
    }
)
