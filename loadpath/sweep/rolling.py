"""Roll stiffness of an axle by its springs at their motion ratios and by its anti-roll bar."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from loadpath.pose.mechanism import Mechanism
from loadpath.pose.poses import pose_many
from loadpath.pose.twisting import Held, twist_angle, twist_rates
from loadpath.sweep.struts import wheel_springs


class RollRate(NamedTuple):
    """[N·mm/rad] of both wheels' springs and of what twists between them, at design height."""

    springs: float
    bar: float


def roll_rates(mechanism: Mechanism, held: Held) -> dict[str, RollRate]:
    """Each axle whose wheels all have springs with a law: Σ k y² and K (dθ/dφ)², φ the roll of the body.

    held : by which it is found how stiff a bar is, see `twist_rates`.
    """
    model = mechanism.model
    found: dict[str, RollRate] = {}
    design = pose_many(mechanism, np.zeros((1, len(mechanism.drivers))))
    springs = wheel_springs(design)
    bars = twist_rates(mechanism, held) if springs else np.zeros(len(mechanism.twists))
    for axle in dict.fromkeys(model.wheels[w].axle for w in mechanism.wheels):
        own = [w for w in mechanism.wheels if model.wheels[w].axle == axle]
        if len(own) < 2 or not all(w in springs for w in own):
            continue
        aside = np.zeros(len(mechanism.drivers))
        for w in own:
            wheel = model.wheels[w]
            aside[mechanism.wheels.index(w)] = model.at(wheel.part, wheel.centre) @ model.axes.left
        by_springs = sum(float(springs[w].rate[0]) * aside[mechanism.wheels.index(w)] ** 2 for w in own)
        turns = [float(twist_angle(design, t)[1][0] @ aside) for t in mechanism.twists]
        found[axle] = RollRate(float(by_springs), float(bars @ np.square(turns)))
    return found
