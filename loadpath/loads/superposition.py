"""A sum of other load cases with factors."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import ClassVar

import numpy as np

from loadpath.loads.action import together
from loadpath.loads.errors import Fault
from loadpath.loads.kind import LoadKind, Site
from loadpath.loads.needs import finite
from loadpath.model import LoadCase, PoseWish, WheelLoad
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class Sum(LoadKind):
    """Linear combination of load cases: loads, acceleration field and roll angle alike, all in one pose."""

    kind: ClassVar[str] = "sum"
    on_wheels: ClassVar[bool] = False
    factors: Mapping[str, float] = parameter("the load cases and their factors", refers="load case")

    def parts(self) -> tuple[str, ...]:
        """Names of the load cases in it."""
        return tuple(self.factors)

    def multiplies(self) -> str:
        """Each with its factor."""
        return "the load cases in it"

    def faults(self, site: Site) -> Iterator[Fault]:
        """At least one load case, with finite factors."""
        if not self.factors:
            yield site.fault("factors", "is empty", "at least one load case with its factor")
        for name, factor in self.factors.items():
            yield from finite(site, f"factors.{name}", factor)
        poses = [site.built[name].pose for name in self.factors if name in site.built]
        if self.pose is None and any(pose != poses[0] or _found(pose) for pose in poses):
            what = f"{', '.join(self.factors)} act each in its own pose, which have no sum"
            yield site.fault("pose", what, "the pose to judge the sum in, or load cases in one given pose")

    def build(self, site: Site) -> LoadCase:
        """Everything of the load cases times their factors."""
        addends = [(factor, site.built[name]) for name, factor in self.factors.items()]
        pose = self.pose or addends[0][1].pose
        summed = _wheel_loads(addends)
        return LoadCase(
            name=site.name,
            kind=self.kind,
            cls=self.cls,
            field=np.sum([f * c.field for f, c in addends], axis=0),
            loads=tuple(
                replace(p, force=f * p.force, moment=f * p.moment, what=f"{f:g} × {c.name}, {p.what}")
                for f, c in addends
                for p in c.loads
            ),
            wheel_loads=summed,
            line_loads=tuple(replace(p, force=f * p.force) for f, c in addends for p in c.line_loads),
            settlements=tuple(
                replace(s, displacement=f * s.displacement, rotation=f * s.rotation)
                for f, c in addends
                for s in c.settlements
            ),
            part_fields={
                part: np.sum([f * c.field_of(part) for f, c in addends], axis=0)
                for part in dict.fromkeys(p for _, c in addends for p in c.part_fields)
            },
            roll=sum(f * c.roll for f, c in addends),
            pose=pose,
            strain=sum(f * c.strain for f, c in addends),
            pushes=sum(f * c.pushes for f, c in addends),
            notes=(*self._gravity_note(), *_pulling(site, summed), *_notes(addends)),
        )

    def _gravity_note(self) -> tuple[str, ...]:
        total = sum(self.factors.values())
        if abs(total - 1) < 1e-9:
            return ()
        return (f"the factors add to {total:g}: gravity and static wheel loads are in it that many times",)


def _found(pose: PoseWish | None) -> bool:
    """True where the load case itself makes the pose, which another one does not share."""
    return pose is not None and pose.by in ("from load", "from roll")


def _wheel_loads(addends: list[tuple[float, LoadCase]]) -> tuple[WheelLoad, ...]:
    by_wheel: dict[str, list[tuple[float, str, WheelLoad]]] = {}
    for factor, case in addends:
        for load in case.wheel_loads:
            by_wheel.setdefault(load.wheel, []).append((factor, case.name, load))
    return tuple(_wheel_load(wheel, found) for wheel, found in by_wheel.items())


def _wheel_load(wheel: str, found: list[tuple[float, str, WheelLoad]]) -> WheelLoad:
    return WheelLoad(
        wheel,
        np.sum([f * load.force for f, _, load in found], axis=0),
        together(load.at for _, _, load in found),
        tuple(_term(f, name, what, value) for f, name, load in found for what, value in load.terms),
    )


def _term(factor: float, case: str, what: str, value: float) -> tuple[str, float]:
    direction, _, rest = what.partition(": ")
    return f"{direction}: {factor:g} × {case}, {rest}", factor * value


def _pulling(site: Site, loads: tuple[WheelLoad, ...]) -> tuple[str, ...]:
    up = site.model.axes.up
    return tuple(
        f"{load.wheel} pulls the ground up with {-load.force @ up / 1e3:.1f} kN, which no tyre does"
        for load in loads
        if load.force @ up < -1e-6 * np.abs(load.force).max()
    )


def _notes(addends: list[tuple[float, LoadCase]]) -> tuple[str, ...]:
    return tuple(f"{case.name}: {note}" for _, case in addends for note in case.notes)
