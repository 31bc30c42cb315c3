"""One load followed through a part: which of the joints and struts that hold the part takes how much of it.

The part is cut free and held by its outgoing joints and locked struts alone, their rates and the body's as they are;
each thing that comes in is applied to it alone. What comes out adds up to their forces in the whole model: that
is checked in every load case, and is what makes the split mean something. No other split is made: paths
through a network are not unique. Bushings with force tables act with their rate at rest; what they give beyond it is
told for itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from loadpath.frame import FrameError, Solution, build_system, solve_system
from loadpath.model import BODY, BodyMount, LoadCase, Model
from loadpath.trace.beneath import sources_beneath
from loadpath.trace.connections import Connection, connections, reverse
from loadpath.trace.errors import TraceError
from loadpath.trace.freebody import SMALL
from loadpath.trace.sources import Source, sources_of
from loadpath.trace.standing import outgoing

Array = NDArray[np.float64]

CLOSES = 1e-9
"""Contributions that add up worse than this, relative to the largest force on the part, are not shown."""
METRE = 1000.0
"""Lever [mm] at which a moment left over counts as a force."""


@dataclass(frozen=True, eq=False)
class Contributions:
    """What each source gives to each outgoing joint or strut of a part, nc load cases.

    Attributes
    ----------
    joints : (n_out) names, locked struts among them. positions : (n_out, 3) [mm] on what the part stands on.
        sure : (n_out) False where a force is not determinate by itself.
    sources : (n_in). wrenches : (n_in, n_out, 6, nc) force and moment about the position, on what the part
        stands on; the sum over sources is the force in the whole model.
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
    """Follow all that comes into a part to the joints and struts it stands on.

    Raises
    ------
    TraceError : a part that is not there, that does not stand on them alone, or whose contributions do not add
        up to the solution.
    """
    names = outgoing(solution.system.model, part)
    if not names:
        raise TraceError(f"{part} stands on nothing that is nearer to the body: there is no way to follow")
    held = _from(part, names, solution)
    sources = (*sources_of(solution, part, names), *sources_beneath(solution, part, held))
    alone = _solved_alone(solution.system.model, part, held, [case for s in sources for case in s.units])
    found = _divided(_from(part, names, alone), sources, len(solution.cases))
    return Contributions(
        part=part,
        joints=names,
        positions=np.array([one.position for one in held]),
        sure=_sure(solution, alone, part, names),
        sources=sources,
        wrenches=found,
        closing=_closing(solution, held, found),
    )


def _from(part: str, names: Sequence[str], solution: Solution) -> tuple[Connection, ...]:
    """The named connections of a solution as forces of the part on what it stands on."""
    ends = {
        end.name: end for one in connections(solution) for end in (one, reverse(one)) if end.source == part
    }
    return tuple(ends[name] for name in names)


def _divided(answers: Sequence[Connection], sources: Sequence[Source], nc: int) -> Array:
    """(n_in, n_out, 6, nc) from the answers to all units of all sources, one after the other."""
    found = np.zeros((len(sources), len(answers), 6, nc))
    at = 0
    for k, source in enumerate(sources):
        for j, one in enumerate(answers):
            units = one.wrench[:, at : at + len(source.units)] + source.direct.get(one.name, 0.0)
            found[k, j] = units @ source.amounts
        at += len(source.units)
    return found


def _alone(model: Model, part: str, held: Sequence[Connection]) -> Model:
    """The part on its outgoing joints and struts; what is no body beneath them stands still."""
    own_points = dict(model.own_points)
    mounts = {}
    for one in held:
        mounts[one.point] = BodyMount(one.point, None, False)
        if one.target == BODY:
            mounts[one.point] = model.body_mounts[one.point]
        elif one.kind == "strut":
            own_points[BODY, one.point] = one.position
    kept = {one.name for one in held}

    def on_body(between: tuple[str, str]) -> tuple[str, str]:
        return (part, BODY) if between[0] == part else (BODY, part)

    return replace(
        model,
        parts={part: model.parts[part]},
        joints={n: replace(j, between=on_body(j.between)) for n, j in model.joints.items() if n in kept},
        force_elements={
            n: replace(s, between=on_body(s.between)) for n, s in model.force_elements.items() if n in kept
        },
        masses={name: mass for name, mass in model.masses.items() if mass.part == part},
        wheels={},
        body_mounts=mounts,
        own_points=own_points,
    )


def _solved_alone(model: Model, part: str, held: Sequence[Connection], units: Sequence[LoadCase]) -> Solution:
    """The part held by its outgoing joints and struts alone under unit load cases, bushings at their rate at rest."""
    try:
        system = build_system(_alone(model, part, held))
        return solve_system(replace(system, springs=replace(system.springs, curves=())), units)
    except FrameError as error:
        reason = " ".join(str(error).split())
        names = ", ".join(one.name for one in held)
        raise TraceError(
            f"{part} does not stand alone on {names}, so no load can be followed through it: {reason}"
        ) from error


def _sure(solution: Solution, alone: Solution, part: str, names: Sequence[str]) -> tuple[bool, ...]:
    """Whether each force is determinate; it must be so in both models or in neither."""
    whole, own = ({n for group in s.redundant for n in group} for s in (solution, alone))
    if not own & set(names) <= whole:
        raise TraceError(
            f"{', '.join(names)} hold {part} more than once over when it is cut free: what each of them takes "
            "cannot be told, so no load can be followed through it"
        )
    return tuple(name not in whole for name in names)


def _closing(solution: Solution, held: Sequence[Connection], found: Array) -> Array:
    """(nc,) by how much the contributions (n_in, n_out, 6, nc) miss the forces of the solution.

    Where one is not determinate by itself, what all carry together is compared.
    """
    left = found.sum(axis=0) - np.array([one.wrench for one in held])
    if not all(one.sure for one in held):
        left = left[:, :3].sum(axis=0, keepdims=True)
    size = np.maximum(
        np.abs(found[:, :, :3]).max(axis=(0, 1, 2), initial=0.0),
        SMALL * np.abs(solution.joint_forces[:, :3]).max(axis=(0, 1), initial=0.0),
    )
    worst = np.abs(left[:, :3]).max(axis=(0, 1), initial=0.0)
    worst = np.maximum(worst, np.abs(left[:, 3:]).max(axis=(0, 1), initial=0.0) / METRE)
    closing: Array = worst / np.where(size > 0, size, 1.0)
    if closing.max(initial=0.0) > CLOSES:
        names = ", ".join(one.name for one in held)
        raise TraceError(
            f"what is followed through {held[0].source} adds up to the forces of {names} only to "
            f"{closing.max():.1e} of its size; it is not shown"
        )
    return closing
