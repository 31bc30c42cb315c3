"""Idle spins: a straight part that turns about the line through all its joints and needs no holding."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.joints import Rows
from loadpath.frame.mesh import Mesh
from loadpath.model import Joint, Model, Part

Array = NDArray[np.float64]

ON_LINE = 1e-6
"""A joint lies on the line when it is nearer than this share of the line's length."""


@dataclass(frozen=True, eq=False)
class IdleSpin:
    """A part that may turn about the line from one point to another; `axis` (3,) is its unit vector."""

    part: str
    points: tuple[str, str]
    axis: Array


def idle_spins(model: Model) -> tuple[IdleSpin, ...]:
    """All idle spins of the model.

    A part with a wheel, with a point off the line or with a joint that resists turning about it has none.
    Loads may still turn it: the moment that holds it must vanish, which is a self-check of every load case.
    """
    carriers = {wheel.part for wheel in model.wheels.values()}
    joints: dict[str, list[Joint]] = {}
    for joint in model.joints.values():
        for part in joint.between:
            joints.setdefault(part, []).append(joint)
    others: dict[str, list[str]] = {}
    for element in model.force_elements.values():
        for part, point in zip(element.between, element.ends, strict=True):
            others.setdefault(part, []).append(point)
    for mass in model.masses.values():
        others.setdefault(mass.part, []).append(mass.point)
    spins = (
        _spin(model, part, joints.get(part.name, []), others.get(part.name, []))
        for part in model.parts.values()
        if part.name not in carriers
    )
    return tuple(s for s in spins if s is not None)


def _spin(model: Model, part: Part, joints: list[Joint], others: list[str]) -> IdleSpin | None:
    if any(_resists_always(j) for j in joints):
        return None
    own = [p for member in part.members for p in member.path] + [b.point for b in part.brackets]
    names = list(dict.fromkeys([j.point for j in joints] + others + own))
    if len(names) < 2:
        return None
    positions = np.array([model.at(part.name, n) for n in names])
    arms = positions - positions[0]
    distances = np.sqrt((arms**2).sum(axis=1))
    far = int(distances.argmax())
    if distances[far] == 0:
        return None
    axis = arms[far] / distances[far]
    off = arms - np.outer(arms @ axis, axis)
    if np.abs(off).max() > ON_LINE * distances[far]:
        return None
    if any(_resists(j, axis) for j in joints):
        return None
    return IdleSpin(part.name, (names[0], names[far]), axis)


def _resists_always(joint: Joint) -> bool:
    if joint.rates is None:
        return joint.kind in ("slider", "welded", "bolted")
    return joint.rates.torsional > 0 and min(joint.rates.conical) > 0


def _resists(joint: Joint, axis: Array) -> bool:
    own = joint.axes @ axis
    if joint.kind == "hinge":
        return bool(abs(own[0]) < 1 - ON_LINE)
    if joint.rates is not None:
        return bool((joint.rates.diagonal()[3:] * own**2).sum() > 0)
    return False


def hold_rows(mesh: Mesh, spins: tuple[IdleSpin, ...]) -> list[Rows]:
    """One row for each idle spin: no turning about the line at one block of the part."""
    rows = []
    for spin in spins:
        block = mesh.places[spin.part, spin.points[0]].block
        matrix = np.zeros((1, 12))
        matrix[0, 3:6] = spin.axis
        rows.append(Rows(spin.part, (block, block), matrix))
    return rows
