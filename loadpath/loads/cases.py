"""From what the case file says of its load cases to what the frame solves."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType

import numpy as np

from loadpath.loads.braking import Braking
from loadpath.loads.bump import Bump
from loadpath.loads.combined import Combined
from loadpath.loads.cornering import Cornering
from loadpath.loads.errors import Fault, LoadCaseError, NoSteadyState, nearest
from loadpath.loads.given import Given
from loadpath.loads.jacking import Jacking
from loadpath.loads.kerb_climb import KerbClimb
from loadpath.loads.kerb_strike import KerbStrike
from loadpath.loads.kind import LoadKind, Site
from loadpath.loads.launch import Launch
from loadpath.loads.needs import model_faults, part_faults, state_faults
from loadpath.loads.notes import UNTWISTED
from loadpath.loads.park_lock import ParkLock
from loadpath.loads.pothole import Pothole
from loadpath.loads.rebound import Rebound
from loadpath.loads.reverse_braking import ReverseBraking
from loadpath.loads.standing import pose_faults, pose_wish
from loadpath.loads.static import Static
from loadpath.loads.superposition import Sum
from loadpath.loads.tie_down import TieDown
from loadpath.loads.towing import Towing
from loadpath.loads.transfer import STANDARD_GRAVITY
from loadpath.loads.twist import Twist
from loadpath.loads.vehicle_needs import vehicle_faults
from loadpath.model import LoadCase, LoadSpec, Model, Vehicle

_ALL: tuple[type[LoadKind], ...] = (
    Static,
    Bump,
    Rebound,
    Pothole,
    Braking,
    ReverseBraking,
    Cornering,
    Launch,
    ParkLock,
    Combined,
    KerbStrike,
    KerbClimb,
    Twist,
    Jacking,
    Towing,
    TieDown,
    Sum,
    Given,
)
KINDS: Mapping[str, type[LoadKind]] = MappingProxyType({kind.kind: kind for kind in _ALL})
"""Kinds of load case by their word in the case file."""


def build(specs: Mapping[str, LoadSpec], vehicle: Vehicle | None, model: Model) -> dict[str, LoadCase]:
    """All load cases, in the order in which they are given.

    Raises
    ------
    LoadCaseError : with every fault of the vehicle data and of all load cases.
    TypeError : a spec that is none of `KINDS`.
    """
    kinds = {name: _known(name, spec) for name, spec in specs.items()}
    faults = _common_faults(kinds, vehicle, model)
    sound = not faults
    order, unmade = _in_order(kinds)
    faults += unmade
    built: dict[str, LoadCase] = {}
    for name in order:
        spec, site = kinds[name], Site(name, _in_state(vehicle, kinds[name]), model, built)
        found = [
            *state_faults(site, spec, vehicle, on_wheels=spec.on_wheels),
            *part_faults(site, spec),
            *pose_faults(site, spec),
        ]
        found += spec.faults(site) if model.wheels or not spec.on_wheels else ()
        if not found and (sound or not spec.on_wheels) and all(p in built for p in spec.parts()):
            try:
                built[name] = _with_pose(_with_parts(spec.build(site), spec, model), spec, site)
            except NoSteadyState as error:
                found = [site.fault("", error.what, error.expected)]
        faults += found
    if faults:
        rank = {name: k for k, name in enumerate(specs, start=1)}
        raise LoadCaseError(sorted(faults, key=lambda f: rank.get(f.case, 0)))
    return {name: built[name] for name in specs}


def with_parts(specs: Mapping[str, LoadSpec], names: Iterable[str]) -> dict[str, LoadSpec]:
    """Some of the load cases, with those that their sums are made of, in the order in which they are given."""
    wanted, waiting = set[str](), list(names)
    while waiting:
        name = waiting.pop()
        spec = specs.get(name)
        if spec is not None and name not in wanted:
            wanted.add(name)
            waiting += spec.parts() if isinstance(spec, LoadKind) else ()
    return {name: spec for name, spec in specs.items() if name in wanted}


def _in_state(vehicle: Vehicle | None, spec: LoadSpec) -> Vehicle | None:
    """The vehicle in the state that a load case names; as it is where there is no such state."""
    known = vehicle is not None and spec.state in vehicle.states
    return vehicle.in_state(spec.state) if vehicle is not None and known else vehicle


def _with_parts(case: LoadCase, spec: LoadSpec, model: Model) -> LoadCase:
    """The load case with the fields of parts that are accelerated in their own way, gravity 1 g downward."""
    given = spec.part_acceleration or {}
    fields = {part: -STANDARD_GRAVITY * (model.axes.up + np.array(a)) for part, a in given.items()}
    return replace(case, part_fields={**case.part_fields, **fields})


def _with_pose(case: LoadCase, spec: LoadSpec, site: Site) -> LoadCase:
    """The load case with the pose that it asks for, where it has not brought one."""
    wish = case.pose or pose_wish(spec, site.data, site.model)
    if wish is None:
        return case
    travels = spec.pose is not None and spec.pose.by in (None, "from load")
    notes = tuple(note for note in case.notes if not (travels and note in UNTWISTED))
    return replace(case, pose=wish, notes=notes)


def _known(name: str, spec: LoadSpec) -> LoadKind:
    if not isinstance(spec, LoadKind):
        raise TypeError(f"load case {name}: {type(spec).__name__} is none of the kinds {', '.join(KINDS)}")
    return spec


def _common_faults(kinds: Mapping[str, LoadKind], vehicle: Vehicle | None, model: Model) -> list[Fault]:
    """Faults of what all load cases on wheels share, told once."""
    needing = [name for name, spec in kinds.items() if spec.on_wheels]
    if not needing:
        return []
    if vehicle is not None:
        return [*vehicle_faults(vehicle), *model_faults(model)]
    what = f"is missing, and needed by {', '.join(needing)}"
    expected = "mass, front_share, wheelbase, cg_height, tracks"
    return [Fault("", "vehicle", what, expected), *model_faults(model)]


def _in_order(kinds: Mapping[str, LoadKind]) -> tuple[list[str], list[Fault]]:
    """Names so that each comes after those it is made of, and faults of those for which there is no order."""
    order: list[str] = []
    faults: list[Fault] = []
    for name, spec in kinds.items():
        for part in spec.parts():
            if part not in kinds:
                others = [n for n in kinds if n != name]
                expected = f"one of {', '.join(others)}"
                faults.append(
                    Fault(name, "factors", f"there is no load case {part!r}", expected, nearest(part, others))
                )
    waiting = dict(kinds)
    while ready := [n for n, s in waiting.items() if not any(p in waiting for p in s.parts())]:
        order += ready
        waiting = {n: s for n, s in waiting.items() if n not in ready}
    circle = "stands in a circle of sums, or on one"
    faults += [Fault(name, "factors", circle, "load cases that are not made of this one") for name in waiting]
    return order, faults
