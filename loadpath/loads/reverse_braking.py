"""Braking while the vehicle goes backward."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from loadpath.loads.braking import Braking
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class ReverseBraking(Braking):
    """As braking, with the ground pushing the wheels forward; 0.8 to 1 g is common practice, no source."""

    kind: ClassVar[str] = "reverse braking"
    heading: ClassVar[float] = -1.0
    g: float = parameter("deceleration", "g", default=0.8)
