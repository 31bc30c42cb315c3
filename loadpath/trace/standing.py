"""What a part stands on: the joints by which its load goes on towards the body."""

from __future__ import annotations

from loadpath.model import BODY, Joint, Model
from loadpath.trace.errors import unknown


def outgoing_joints(model: Model, part: str) -> tuple[str, ...]:
    """Joints by which a part stands: those to the body, or else those to parts that are nearer to the body.

    Raises
    ------
    TraceError : a part that is not there.
    """
    if part not in model.parts:
        raise unknown("part", part, model.parts)
    steps = _steps_to_body(model)
    own = [j for j in model.joints.values() if part in j.between]
    here = steps.get(part, 0)
    nearest = min((steps.get(other_part(j, part), here) for j in own), default=here)
    return tuple(j.name for j in own if nearest < here and steps.get(other_part(j, part), here) == nearest)


def other_part(joint: Joint, part: str) -> str:
    """The part that a joint ties this one to."""
    first, second = joint.between
    return second if first == part else first


def _steps_to_body(model: Model) -> dict[str, int]:
    """How many joints lie between each part and the body, by the shortest way."""
    steps, edge = {BODY: 0}, [BODY]
    while edge:
        reached: list[str] = []
        for joint in model.joints.values():
            for near, far in (joint.between, joint.between[::-1]):
                if near in edge and far not in steps:
                    steps[far] = steps[near] + 1
                    reached.append(far)
        edge = reached
    return steps


def followable(model: Model) -> tuple[str, ...]:
    """Parts that stand on the body by two joints or more: loads that come into them divide."""
    return tuple(
        part
        for part in model.parts
        if sum(set(joint.between) == {part, BODY} for joint in model.joints.values()) > 1
    )
