"""Instant centres, roll centre, camber gain and anti-lift against closed forms of the plane."""

import numpy as np
import pytest
from linkages import driven, linkage, wishbones

from loadpath.pose import pose_many, wheel_angles
from loadpath.sweep import instants, roll_centres

FRONT_VIEW = {"upper": ((420, 440), (690, 465)), "lower": ((360, 205), (730, 190))}
"""Inner and outer ends, left and up [mm]; contact patch at (780, 0). Construction of Milliken & Milliken, ch. 17, and
of Gillespie, ch. 7 (from memory, recomputed); numbers invented."""
ACROSS, HEIGHT, ROLL_CENTRE = -1363.4210526315792, 274.86842105263156, 100.0257826887661
CAMBER_GAIN, SLOPE = 0.00046654389195825653, 0.12823818293431552


def plane_axle():
    """Arms about axes along the vehicle, the toe link beside the lower arm: the wheel moves in the plane."""
    points = {"wheel": (0, 780, 320)}
    for arm, (inner, outer) in FRONT_VIEW.items():
        points |= {f"{arm}_front": (150, *inner), f"{arm}_rear": (-150, *inner), f"{arm}_ball": (0, *outer)}
    inner, outer = FRONT_VIEW["lower"]
    return wishbones(points | {"toe_inner": (-120, *inner), "toe_outer": (-120, *outer)})


def test_front_view():
    """1e-9, camber gain by finite difference 1e-6."""
    mechanism = plane_axle()
    poses = pose_many(mechanism, np.array([[0.0], [1e-3], [-1e-3]]))
    found = instants(poses)["wheel_l"]
    assert found.front[0] == pytest.approx([780 - ACROSS, HEIGHT], rel=1e-9)
    assert found.at[0] == pytest.approx([0, ACROSS, HEIGHT], abs=1e-6)
    assert np.abs(found.axis[0]) == pytest.approx([1, 0, 0], abs=1e-12)
    assert roll_centres(poses)["front"].height[0] == pytest.approx(ROLL_CENTRE, rel=1e-9)
    assert roll_centres(poses)["front"].left[0] == pytest.approx(0, abs=1e-6)
    camber = wheel_angles(poses)["wheel_l"].camber
    assert (camber[2] - camber[1]) / 2e-3 == pytest.approx(CAMBER_GAIN, rel=1e-6)
    gain = found.front[0, 1] / found.front[0, 0]
    assert gain == pytest.approx(SLOPE, rel=1e-9)


@pytest.mark.parametrize(("axle", "sign"), [("rear", 1), ("front", -1)])
def test_side_view_of_a_trailing_arm(axle, sign):
    """Pivot 500 mm ahead and 300 mm up: 300/500 holds a brake at the patch, (300 − 320)/500 a force at the centre."""
    points = {"pivot": (500, 700, 300), "wheel": (0, 780, 320)}
    wheel = driven("arm", "wheel", 320.0)
    wheel = type(wheel)(**{**vars(wheel), "axle": axle})
    mechanism = linkage(points, {}, ["arm"], [("pivot", "hinge", "arm", "body", (0, 1, 0))], [wheel])
    found = instants(pose_many(mechanism, np.zeros((1, 1))))["wheel_l"]
    assert found.at_patch[0] == pytest.approx(sign * 0.6, rel=1e-12)
    assert found.at_centre[0] == pytest.approx(sign * -0.04, rel=1e-12)
    assert found.side[0] == pytest.approx([500, 300], rel=1e-12)
    assert found.front[0, 0] == np.inf
    assert found.at[0] == pytest.approx([500, 780, 300], rel=1e-12)
    assert [*np.abs(found.axis[0]), found.pitch[0]] == pytest.approx([0, 1, 0, 0], abs=1e-12)


def test_level_equal_arms_have_their_roll_centre_on_the_ground():
    """The instant centre is at infinity, level with the arms: the line from the contact patch is the ground."""
    arms = {
        f"{a}_{e}": (x, 400, z)
        for a, z in (("upper", 470), ("lower", 200))
        for e, x in (("front", 150), ("rear", -150))
    }
    arms |= {"upper_ball": (0, 700, 470), "lower_ball": (0, 700, 200)}
    arms |= {"toe_inner": (-120, 400, 260), "toe_outer": (-120, 700, 260)}
    poses = pose_many(wishbones(arms), np.zeros((1, 1)))
    assert roll_centres(poses)["front"].height[0] == pytest.approx(0, abs=1e-9)
