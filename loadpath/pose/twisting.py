"""How stiff a part that twists is between the wheels: by its torsion alone, or as the frame finds it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from loadpath.model import STATION_WEIGHTS, LoadCase, Model
from loadpath.pose.errors import PoseError
from loadpath.pose.halves import Twist
from loadpath.pose.mechanism import Mechanism
from loadpath.pose.posed import posed_model, standing
from loadpath.pose.poses import Poses, angles_between, pose_many
from loadpath.pose.pushes import law_pushes, reach_of
from loadpath.pose.windup import bushing_power, clamped

Array = NDArray[np.float64]
Held = Callable[[Model, LoadCase], Mapping[str, float]]
"""[N] what the locked force elements of a model carry in a load case, by the frame."""

APART = 5.0
"""[mm] by which the wheels are moved to find how stiff a bar is."""


def twist_rates(mechanism: Mechanism, held: Held | None) -> Array:
    """(nt,) moment per angle [N·mm/rad] of each part that twists.

    The stretch between its holders by its own torsion; with the frame at hand, what gives on the way to the wheels
    counts as well, the bending of the bar's arms first of all: the wheels are moved apart, and what the struts must
    hold then is the bar's.
    """
    rates = [
        torsion_rate(mechanism.model, twist) if held is None else _by_frame(mechanism, twist, held)
        for twist in mechanism.twists
    ]
    return np.array(rates)


def torsion_rate(model: Model, twist: Twist) -> float:
    """Moment per angle [N·mm/rad] of the stretch of a bar between its holders: one over Σ L / (G J)."""
    member = next(m for m in model.parts[twist.part].members if m.name == twist.member)
    first = member.path.index(twist.run[0])
    give = 0.0
    for k, (a, b) in enumerate(pairwise(twist.run), start=first):
        inertias = np.array([s.J for s in member.sections[k]])
        mean = float((1 / inertias).mean() if len(inertias) == 1 else STATION_WEIGHTS @ (1 / inertias))
        give += float(np.linalg.norm(model.points[b] - model.points[a])) * mean / member.material.G
    return 1.0 / give


def twist_angle(poses: Poses, twist: Twist) -> tuple[Array, Array]:
    """Angle (p,) [rad] by which a part is twisted, and its change (p, nd) with each driver."""
    ends = (twist.part, twist.run[0]), (twist.part, twist.run[-1])
    axis = poses.turned(*ends[0]) @ twist.axis
    turning = np.einsum("pdi,pi->pd", poses.spin(*ends[1]) - poses.spin(*ends[0]), axis)
    return angles_between(poses, *ends) @ twist.axis, turning


def _by_frame(mechanism: Mechanism, twist: Twist, held: Held) -> float:
    """The rate that what the struts hold asks for, the wheels moved apart one way and the other."""
    wheels = len(mechanism.wheels)
    design = pose_many(mechanism, np.zeros((1, len(mechanism.drivers))))
    apart = twist_angle(design, twist)[1][0]
    apart[wheels:] = 0.0
    if np.abs(apart).max(initial=0.0) < 1e-12:
        return torsion_rate(mechanism.model, twist)
    apart = APART * apart / np.abs(apart).max()
    travel = np.array([apart, -apart])
    poses = pose_many(mechanism, travel)
    angle, turning = twist_angle(poses, twist)
    rest = clamped(mechanism)
    found = standing(poses, rest, law_pushes(poses))
    power = -(bushing_power(poses, rest) * travel).sum(axis=1)
    for k in (0, 1):
        pushes = held(_unloaded(posed_model(found, k)), _NOTHING)
        for name, push in pushes.items():
            power[k] += push * reach_of(poses, mechanism.model.force_elements[name]).rate[k] @ travel[k]
    rate = float(power.sum() / (angle * (turning * travel).sum(axis=1)).sum())
    if not rate > 0:
        raise PoseError(
            f"{twist.part}: its rate between the wheels comes out as {rate:.3g} N·mm/rad, not above 0: "
            "look at its joints and drop links"
        )
    return rate


_NOTHING = LoadCase("twist", "unit", "rare", np.zeros(3), (), strain=1.0)


def _unloaded(model: Model) -> Model:
    """The model without free pushes."""
    free = {n: e if e.locked else replace(e, force=0.0) for n, e in model.force_elements.items()}
    return replace(model, force_elements=free)
