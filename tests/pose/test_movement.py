"""Velocities against finite differences, rods and lengths kept, and the trade's plain facts."""

import numpy as np
import pytest
from linkages import FIVE_LINKS, five_links, wishbones

from loadpath.pose import pose_many, wheel_angles, wheel_gains, wheel_places

TRAVEL = np.linspace(-80, 80, 9)[:, None]
STEP = 1e-3


@pytest.mark.parametrize("axle", [five_links, wishbones])
def test_velocities_are_finite_differences(axle):
    mechanism = axle()
    poses, more, less = (pose_many(mechanism, TRAVEL + d) for d in (0, STEP, -STEP))
    for part, point in [("knuckle", "wheel"), ("knuckle", "upper_ball" if axle is wishbones else "toe_k")]:
        slope = (more.point(part, point) - less.point(part, point)) / (2 * STEP)
        assert poses.velocity(part, point)[:, 0] == pytest.approx(slope, abs=1e-6)
    turn = (more.turned("toe") - less.turned("toe")) / (2 * STEP) @ np.swapaxes(poses.turned("toe"), 1, 2)
    spin = np.stack([turn[:, 2, 1], turn[:, 0, 2], turn[:, 1, 0]], axis=-1)
    assert poses.spin("toe")[:, 0] == pytest.approx(spin, abs=1e-9)


def test_links_keep_their_lengths_and_the_wheel_its_travel():
    poses = pose_many(five_links(), TRAVEL)
    for name, (outer, inner) in FIVE_LINKS.items():
        apart = poses.point("knuckle", f"{name}_k") - poses.point(name, f"{name}_b")
        length = np.linalg.norm(np.subtract(outer, inner))
        assert np.linalg.norm(apart, axis=1) == pytest.approx(length, abs=1e-8)
        assert poses.point(name, f"{name}_k") == pytest.approx(poses.point("knuckle", f"{name}_k"), abs=1e-8)
    assert poses.point("knuckle", "wheel")[:, 2] == pytest.approx(320 + TRAVEL[:, 0], abs=1e-8)


def test_equal_level_wishbones_carry_the_wheel_upright():
    """A parallelogram: no camber, no toe, and the wheel centre runs on a circle of the arms' radius."""
    arms = {"upper_front": (150, 400, 470), "upper_rear": (-150, 400, 470), "upper_ball": (0, 700, 470)}
    arms |= {"lower_front": (150, 400, 200), "lower_rear": (-150, 400, 200), "lower_ball": (0, 700, 200)}
    arms |= {"toe_inner": (-120, 400, 260), "toe_outer": (-120, 700, 260)}
    poses = pose_many(wishbones(arms), TRAVEL)
    angles, places = wheel_angles(poses)["wheel_l"], wheel_places(poses)["wheel_l"]
    assert angles.camber == pytest.approx(0, abs=1e-12)
    assert angles.toe == pytest.approx(0, abs=1e-12)
    inward = np.sqrt(300**2 - TRAVEL[:, 0] ** 2) - 300
    assert places.track_change == pytest.approx(inward, abs=1e-8)


@pytest.mark.parametrize("axle", [five_links, wishbones])
def test_gains_are_slopes_of_camber_and_toe(axle):
    mechanism = axle()
    poses, more, less = (pose_many(mechanism, TRAVEL + d) for d in (0, STEP, -STEP))
    found, up, down = (
        wheel_gains(poses)["wheel_l"],
        wheel_angles(more)["wheel_l"],
        wheel_angles(less)["wheel_l"],
    )
    assert found.camber == pytest.approx((up.camber - down.camber) / (2 * STEP), abs=1e-10)
    assert found.toe == pytest.approx((up.toe - down.toe) / (2 * STEP), abs=1e-10)


def test_camber_and_toe_of_a_set_up_wheel_are_kept_at_design_height():
    poses = pose_many(wishbones(camber=np.radians(-1.5), toe=np.radians(0.3)), np.zeros((1, 1)))
    angles = wheel_angles(poses)["wheel_l"]
    assert np.degrees([angles.camber[0], angles.toe[0]]) == pytest.approx([-1.5, 0.3], abs=1e-12)
