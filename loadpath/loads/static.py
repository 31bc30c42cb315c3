"""The vehicle at rest on level ground."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import ClassVar

from loadpath.loads.errors import Fault
from loadpath.loads.kind import LoadKind, Site
from loadpath.loads.road import Motion
from loadpath.loads.steady import rolling
from loadpath.model import LoadCase


@dataclass(frozen=True, kw_only=True)
class Static(LoadKind):
    """Static wheel loads from mass and axle share."""

    kind: ClassVar[str] = "static"

    def multiplies(self) -> str:
        """The load itself."""
        return "static wheel load"

    def faults(self, site: Site) -> Iterator[Fault]:
        """None of its own."""
        return iter(())

    def build(self, site: Site) -> LoadCase:
        """Gravity and what the ground gives back."""
        return replace(rolling(self, site, Motion()), size=("g", 1.0))
