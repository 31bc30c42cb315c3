"""Stiffness of pickup points against their targets; what holds the part is part of the answer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from loadpath.checks.analysis import Analysis
from loadpath.checks.row import CheckRow, judge
from loadpath.frame import FrameError, solve
from loadpath.model import BODY, BodyMount, Joint, LoadCase, Model, PointLoad, StiffnessTarget
from loadpath.model.targets import Held

Array = NDArray[np.float64]

KIND = "pickup stiffness"


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

    Raises
    ------
    FrameError : where the part cannot stand on these mounts.
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
    movement = np.empty(len(loads))
    for c, (point, along) in enumerate(zip(points, directions, strict=True)):
        block, lever = solution.system.mesh.places[part, point]
        u = solution.movement[block, :, c]
        movement[c] = along @ (u[:3] + np.cross(u[3:], lever))
    stiffness: Array = 1.0 / movement
    return stiffness


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
            reason = f"{part} alone does not stand on its mounts: {error}"
            yield from (_without_result(t, reason) for t in targets)
            continue
        yield from (_row(t, float(k)) for t, k in zip(targets, found, strict=True))


def _place(target: StiffnessTarget) -> str:
    return f"{target.part} at {target.point}, {target.direction_name}, {target.held}"


def _row(target: StiffnessTarget, stiffness: float) -> CheckRow:
    utilisation = target.least / stiffness
    return CheckRow(
        kind=KIND,
        subject=target.name,
        place=_place(target),
        case="",
        demand=target.least / 1e3,
        allowable=stiffness / 1e3,
        unit="kN/mm",
        utilisation=utilisation,
        verdict=judge(utilisation),
        basis=target.basis,
        reason="upper bound of a beam model: brackets are rigid, sheet does not give locally",
    )


def _without_result(target: StiffnessTarget, reason: str) -> CheckRow:
    return CheckRow(
        kind=KIND,
        subject=target.name,
        place=_place(target),
        case="",
        demand=target.least / 1e3,
        allowable=None,
        unit="kN/mm",
        utilisation=None,
        verdict="not valid",
        basis=target.basis,
        reason=reason,
    )
