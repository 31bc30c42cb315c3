"""Spring force of a knuckle by virtual work of the kinematics against its static equilibrium.

Statics of rigid bodies (any text); geometry and loads invented, expected pushes from exact rational solves.
x forward, y left, z up; left wheel.
"""

import numpy as np
import pytest
from linkages import five_links, wishbones

from loadpath.pose import pose_many
from loadpath.sweep import struts

PATCH = (0, 785, 0)
CORNERING = [((0, 0, 5200), PATCH), ((0, -3800, 0), PATCH)]
BRAKING = [((0, 0, 5200), PATCH), ((-4200, 0, 0), PATCH)]
BRAKE_IN_TURN = [((0, 0, 6000), PATCH), ((-4500, 0, 0), PATCH), ((0, -2500, 0), PATCH)]
PUSHES = [
    (five_links, CORNERING, 5348.471735033687),
    (five_links, BRAKING, 5489.73424856673),
    (wishbones, BRAKE_IN_TURN, 8778.9160697809),
]


def push_by_work(mechanism, loads):
    """What the spring must push with so that no power is left at design height."""
    poses = pose_many(mechanism, np.zeros((1, 1)))
    centre, speed = poses.point("knuckle", "wheel")[0], poses.velocity("knuckle", "wheel")[0, 0]
    spin = poses.spin("knuckle")[0, 0]
    power = sum(np.array(f) @ (speed + np.cross(spin, np.array(at) - centre)) for f, at in loads)
    return power / struts(poses)["spring_l"].ratio[0]


@pytest.mark.parametrize(("axle", "loads", "expected"), PUSHES)
def test_spring_force(axle, loads, expected):
    """Forces at the contact patch on the knuckle: cornering, outboard brake, both. 1e-9."""
    assert push_by_work(axle(), loads) == pytest.approx(expected, rel=1e-9)
