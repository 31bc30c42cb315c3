"""Stiffness of pickup points against their targets; what holds the part is part of the answer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from loadpath.checks.analysis import Analysis
from loadpath.checks.row import CheckRow, judge
from loadpath.frame import FrameError, self_checks, solve
from loadpath.model import BODY, BodyMount, Joint, LoadCase, Model, PointLoad, StiffnessTarget
from loadpath.model.targets import Held

Array = NDArray[np.float64]

KIND = "pickup stiffness"
HELD: tuple[Held, ...] = ("mounts rigid", "body rates", "as mounted")
_NO_MOVEMENT = 1e-12


def held_part(model: Model, part: str, held: Held) -> Model:
    """One part alone on its joints to the body; all other parts are off.

    "mounts rigid" takes mount bushings as balls on a rigid body, "body rates" as balls on the body's rates,
    "as mounted" keeps them and the body's rates. Ideal mounts, bolted ones say, stay what they are.
    """
    joints = {
        name: joint if held == "as mounted" else _without_bushing(joint)
        for name, joint in model.joints.items()
        if set(joint.between) == {part, BODY}
    }
    mounts = {j.point: model.body_mounts[j.point] for j in joints.values()}
    if held == "mounts rigid":
        mounts = {p: BodyMount(p, None, m.is_default) for p, m in mounts.items()}
    return replace(
        model,
        parts={part: model.parts[part]},
        joints=joints,
        force_elements={},
        masses={},
        wheels={},
        body_mounts=mounts,
    )


def _without_bushing(joint: Joint) -> Joint:
    return joint if joint.rates is None else replace(joint, kind="ball", rates=None)


def point_stiffness(
    model: Model, part: str, held: Held, points: Sequence[str], directions: Sequence[Array]
) -> Array:
    """Stiffness [N/mm] of points of a part, each along its direction (3,), by a unit force there.

    inf where the point does not move: it is held there.

    Raises
    ------
    FrameError : where the part cannot stand on these mounts, or the solution fails its self-checks.
    """
    loads = [
        LoadCase(
            name=point,
            kind="unit",
            cls="rare",
            field=np.zeros(3),
            loads=(PointLoad(part, point, model.points[point], along, np.zeros(3), "unit force"),),
        )
        for point, along in zip(points, directions, strict=True)
    ]
    solution = solve(held_part(model, part, held), loads)
    refusals = [r for check in self_checks(solution) for r in check.refusals]
    if refusals:
        raise FrameError(refusals[0])
    movement = np.empty(len(loads))
    for c, (point, along) in enumerate(zip(points, directions, strict=True)):
        block, lever = solution.system.mesh.places[part, point]
        u = solution.movement[block, :, c]
        movement[c] = along @ (u[:3] + np.cross(u[3:], lever))
    with np.errstate(divide="ignore"):
        stiffness: Array = np.where(movement > _NO_MOVEMENT, 1.0 / movement, np.inf)
    return stiffness


@dataclass(frozen=True, eq=False)
class PickupStiffness:
    """Stiffness [N/mm] of one point of a part for the three holdings, along forward, left and up (3, 3).

    found[h, d] for holding h of HELD and direction d; NaN where the part does not stand on its mounts.
    """

    part: str
    point: str
    found: Array


def pickup_stiffnesses(analysis: Analysis) -> list[PickupStiffness]:
    """All points at which other parts are joined to frame parts that stand on the body by three joints or more."""
    model, axes = analysis.model, analysis.model.axes
    directions = [axes.forward, axes.left, axes.up]
    rows = []
    for part, points in _pickups(model).items():
        at, along = [p for p in points for _ in directions], directions * len(points)
        by_holding = np.array([_or_nan(model, part, held, at, along) for held in HELD])
        by_holding = by_holding.reshape(len(HELD), len(points), 3)
        rows += [PickupStiffness(part, p, by_holding[:, k]) for k, p in enumerate(points)]
    return rows


def _pickups(model: Model) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for part in model.parts.values():
        own = [j for j in model.joints.values() if part.name in j.between]
        mounted = sum(BODY in j.between for j in own)
        points = list(dict.fromkeys(j.point for j in own if BODY not in j.between))
        if part.kind == "frame" and mounted >= 3 and points:
            found[part.name] = points
    return found


def _or_nan(model: Model, part: str, held: Held, points: list[str], along: list[Array]) -> Array:
    try:
        return point_stiffness(model, part, held, points, along)
    except FrameError:
        return np.full(len(points), np.nan)


def upper_bound(model: Model, part: str) -> str:
    """What a stiffness of a part is, in words: an upper bound, but for open members."""
    unstated = [m for m in model.parts[part].members if m.warping is None]
    if all(s.closed for m in unstated for chain in m.sections for s in chain):
        return "upper bound of a beam model: brackets are rigid, sheet does not give locally"
    return (
        "no bound: brackets are rigid and sheet does not give locally, but open members twist more here than where "
        "their warping is held, which nothing states"
    )


def check_stiffness(analysis: Analysis) -> Iterator[CheckRow]:
    """One row for each stiffness target. Demand is the target, the stiffness found stands as allowable."""
    groups: dict[tuple[str, Held], list[StiffnessTarget]] = {}
    for target in analysis.targets:
        if isinstance(target, StiffnessTarget):
            groups.setdefault((target.part, target.held), []).append(target)
    for (part, held), targets in groups.items():
        try:
            found = point_stiffness(
                analysis.model, part, held, [t.point for t in targets], [t.direction for t in targets]
            )
        except FrameError as error:
            reason = f"{part} alone does not stand on its mounts: " + " ".join(str(error).split())
            yield from (_row(analysis, t, None, reason) for t in targets)
            continue
        for target, stiffness in zip(targets, found, strict=True):
            value = float(stiffness) if np.isfinite(stiffness) else None
            yield _row(
                analysis, target, value, "" if value else f"{target.point} does not move: it is held there"
            )


def _row(analysis: Analysis, target: StiffnessTarget, stiffness: float | None, reason: str) -> CheckRow:
    utilisation = None if stiffness is None else target.least / stiffness
    return CheckRow(
        kind=KIND,
        subject=target.name,
        place=f"{target.part} at {target.point}, {target.direction_name}, {target.held}",
        case="",
        demand=target.least / 1e3,
        allowable=None if stiffness is None else stiffness / 1e3,
        unit="kN/mm",
        utilisation=utilisation,
        verdict="not valid" if utilisation is None else judge(utilisation),
        basis=target.basis,
        reason=reason or upper_bound(analysis.model, target.part),
    )
