"""What a part stands on: the joints and struts by which its load goes on towards the body."""

from __future__ import annotations

from loadpath.model import BODY, ForceElement, Joint, Model
from loadpath.trace.errors import unknown


def outgoing(model: Model, part: str) -> tuple[str, ...]:
    """Joints and locked struts by which a part stands.

    The joints to the body, or else those to the parts that are nearest to the body; and the locked struts to parts
    that are as near. Struts that push with a given force hold nothing.

    Raises
    ------
    TraceError : a part that is not there.
    """
    if part not in model.parts:
        raise unknown("part", part, model.parts)
    steps = _steps_to_body(model)
    far = len(model.parts) + 1
    here = steps.get(part, far)
    own = {j.name: steps.get(other_part(j, part), far) for j in model.joints.values() if part in j.between}
    nearest = min(own.values(), default=here)
    if nearest >= here:
        return ()
    joints = [name for name, there in own.items() if there == nearest]
    struts = [
        s.name
        for s in model.force_elements.values()
        if s.locked and part in s.between and steps.get(other_part(s, part), far) <= nearest
    ]
    return (*joints, *struts)


def other_part(one: Joint | ForceElement, part: str) -> str:
    """The part that a joint or strut ties this one to."""
    first, second = one.between
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
    """Parts that stand by two joints or struts or more, so that loads that come into them divide.

    Links only pass a force on, and what a wheel's carrying part gives to each arm the cut round it tells.
    """
    carrying = {wheel.part for wheel in model.wheels.values()}
    return tuple(
        name
        for name, part in model.parts.items()
        if part.kind != "link" and name not in carrying and len(outgoing(model, name)) > 1
    )
