"""One load followed through a part: which of the joints that hold the part takes how much of it.

The part is cut free and held by its outgoing joints alone, their bushings and the body's rates as they are; each
thing that comes in is applied to it alone. What comes out adds up to the joints' forces of the whole model: that
is checked in every load case, and is what makes the split mean something. No other split is made: paths
through a network are not unique.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from loadpath.frame import FrameError, Solution, build_system, solve_system
from loadpath.model import BODY, BodyMount, LoadCase, Model
from loadpath.trace.errors import TraceError
from loadpath.trace.freebody import SMALL
from loadpath.trace.sources import Source, sources_of
from loadpath.trace.standing import other_part, outgoing_joints

Array = NDArray[np.float64]

CLOSES = 1e-9
"""Contributions that add up worse than this, relative to the largest force on the part, are not shown."""
METRE = 1000.0
"""Lever [mm] at which a moment left over counts as a force."""


@dataclass(frozen=True, eq=False)
class Contributions:
    """What each source gives to each outgoing joint of a part, nc load cases.

    Attributes
    ----------
    joints : (n_out) names. positions : (n_out, 3) [mm]. sure : (n_out) False where a joint is not determinate
        by itself.
    sources : (n_in). wrenches : (n_in, n_out, 6, nc) force and moment about the joint's point, on what the part
        stands on; the sum over sources is the joint's force in the whole model.
    closing : (nc,) by how much that sum misses it, relative to the largest force on the part.
    """

    part: str
    joints: tuple[str, ...]
    positions: Array
    sure: tuple[bool, ...]
    sources: tuple[Source, ...]
    wrenches: Array
    closing: Array


def contributions(solution: Solution, part: str) -> Contributions:
    """Follow all that comes into a part to the joints it stands on.

    Raises
    ------
    TraceError : a part that is not there, that does not stand on its outgoing joints alone, or whose
        contributions do not add up to the solution.
    """
    model = solution.system.model
    names = outgoing_joints(model, part)
    if not names:
        raise TraceError(f"{part} stands on nothing that is nearer to the body: there is no way to follow")
    sources = sources_of(solution, part, names)
    alone = _solved_alone(model, part, names, [case for s in sources for case in s.units])
    order = [alone.joint_names.index(name) for name in names]
    found = np.zeros((len(sources), len(names), 6, len(solution.cases)))
    at = 0
    for k, source in enumerate(sources):
        answers = alone.joint_forces[order, :, at : at + len(source.units)]
        found[k] = np.einsum("jau,uc->jac", answers, source.amounts)
        at += len(source.units)
    return Contributions(
        part=part,
        joints=names,
        positions=np.array([model.points[model.joints[n].point] for n in names]),
        sure=_sure(solution, alone, part, names),
        sources=sources,
        wrenches=found,
        closing=_closing(solution, part, names, found),
    )


def _alone(model: Model, part: str, names: Sequence[str]) -> Model:
    """The part on its outgoing joints; what is no body beneath them stands still."""
    joints, mounts = {}, {}
    for name in names:
        joint = model.joints[name]
        below = other_part(joint, part)
        joints[name] = replace(joint, between=(part, BODY))
        mount = model.body_mounts[joint.point] if below == BODY else BodyMount(joint.point, None, False)
        mounts[joint.point] = mount
    return replace(
        model,
        parts={part: model.parts[part]},
        joints=joints,
        force_elements={},
        masses={name: mass for name, mass in model.masses.items() if mass.part == part},
        wheels={},
        body_mounts=mounts,
    )


def _solved_alone(model: Model, part: str, names: Sequence[str], units: Sequence[LoadCase]) -> Solution:
    """The part held by its outgoing joints alone under unit load cases."""
    try:
        return solve_system(build_system(_alone(model, part, names)), units)
    except FrameError as error:
        reason = " ".join(str(error).split())
        raise TraceError(
            f"{part} does not stand alone on {', '.join(names)}, so no load can be followed through it: {reason}"
        ) from error


def _sure(solution: Solution, alone: Solution, part: str, names: Sequence[str]) -> tuple[bool, ...]:
    """Whether each joint's force is determinate; it must be so in both models or in neither."""
    whole, own = ({n for group in s.redundant for n in group} for s in (solution, alone))
    if not own & set(names) <= whole:
        raise TraceError(
            f"{', '.join(names)} hold {part} more than once over when it is cut free: what each of them takes "
            "cannot be told, so no load can be followed through it"
        )
    return tuple(name not in whole for name in names)


def _closing(solution: Solution, part: str, names: Sequence[str], found: Array) -> Array:
    """(nc,) by how much the contributions (n_in, n_out, 6, nc) miss the joints' forces of the solution.

    Where a joint is not determinate by itself, what the joints carry together is compared.
    """
    model = solution.system.model
    signs = np.array([1.0 if model.joints[n].between[0] == part else -1.0 for n in names])
    wanted = signs[:, None, None] * solution.joint_forces[[solution.joint_names.index(n) for n in names]]
    left = found.sum(axis=0) - wanted
    if any(name in group for group in solution.redundant for name in names):
        left = left[:, :3].sum(axis=0, keepdims=True)
    size = np.maximum(
        np.abs(found[:, :, :3]).max(axis=(0, 1, 2), initial=0.0),
        SMALL * np.abs(solution.joint_forces[:, :3]).max(axis=(0, 1), initial=0.0),
    )
    worst = np.abs(left[:, :3]).max(axis=(0, 1), initial=0.0)
    worst = np.maximum(worst, np.abs(left[:, 3:]).max(axis=(0, 1), initial=0.0) / METRE)
    closing: Array = worst / np.where(size > 0, size, 1.0)
    if closing.max(initial=0.0) > CLOSES:
        raise TraceError(
            f"what is followed through {part} adds up to the forces of {', '.join(names)} only to "
            f"{closing.max():.1e} of its size; it is not shown"
        )
    return closing
