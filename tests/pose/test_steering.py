"""Steering axes: by rack, by link and by balls they are one line; angles from its points."""

import numpy as np
import pytest
from linkages import WISHBONES, driven, five_links, linkage, spring, wishbones

from loadpath.case import read_case
from loadpath.model import Joint
from loadpath.pose import make_mechanism, pose_many
from loadpath.sweep import steering


def racked():
    """The wishbones with their toe link on a rack."""
    joints = [(f"{a}_{e}", "ball", a, "body") for a in ("upper", "lower") for e in ("front", "rear")]
    joints += [("upper_ball", "ball", "upper", "knuckle"), ("lower_ball", "ball", "lower", "knuckle")]
    links = {"toe": ("toe_outer", "knuckle", "toe_inner", "rack")}
    parts = ["upper", "lower", "knuckle", "rack"]
    own = [driven("knuckle", "wheel", 320.0)]
    points = WISHBONES | {"rack": (-145, 0, 275)}
    held = spring("lower", "foot", "top")
    mechanism = linkage(points, links, parts, [*joints, ("rack", "bolted", "rack", "body")], own, [held])
    model = mechanism.model
    axes = np.array([[0, 1.0, 0], [1, 0, 0], [0, 0, -1]])
    slide = Joint("rack", "slider", ("rack", "body"), "rack", axes, rack=True)
    return make_mechanism(type(model)(**{**vars(model), "joints": {**model.joints, "rack": slide}}))


def distance(line, point):
    """Of a point (p, 3) from a steering axis."""
    return np.linalg.norm(np.cross(point - line.at, line.axis), axis=-1)


TRAVEL = np.array([-60.0, 0.0, 60.0])


@pytest.mark.parametrize("axle", [racked, lambda: wishbones(steer_link="toe"), wishbones])
def test_two_wishbones_steer_about_their_balls(axle):
    mechanism = axle()
    poses = pose_many(mechanism, np.array([[t, *[0.0] * len(mechanism.racks)] for t in TRAVEL]))
    line = steering(poses)["wheel_l"]
    for ball in ("upper_ball", "lower_ball"):
        assert distance(line, poses.point("knuckle", ball)) == pytest.approx(0, abs=1e-7)
    top, bottom = (poses.point("knuckle", b) for b in ("upper_ball", "lower_ball"))
    up = top - bottom
    assert line.caster == pytest.approx(np.arctan2(-up[:, 0], up[:, 2]), abs=1e-10)
    assert line.inclination == pytest.approx(np.arctan2(-up[:, 1], up[:, 2]), abs=1e-10)


def test_scrub_and_trail_by_hand():
    """Upright wheel at design height: the balls' line goes on to the ground."""
    line = steering(pose_many(wishbones(), np.zeros((1, 1))))["wheel_l"]
    top, bottom = np.array(WISHBONES["upper_ball"]), np.array(WISHBONES["lower_ball"])
    ground = bottom + (top - bottom) * (0 - bottom[2]) / (top[2] - bottom[2])
    assert line.scrub[0] == pytest.approx(780 - ground[1], rel=1e-9)
    assert line.trail[0] == pytest.approx(ground[0] - 0, rel=1e-9)


def test_a_guided_strut_steers_about_top_and_lower_ball(pytestconfig):
    model = read_case(pytestconfig.rootpath / "cases" / "town_car_front.toml").model
    mechanism = make_mechanism(model)
    poses = pose_many(mechanism, np.array([[t, -t, 20.0] for t in TRAVEL]))
    for side in "lr":
        line = steering(poses)[f"wheel_{side}"]
        top = poses.point("body", f"strut_top_{side}")
        assert distance(line, top) == pytest.approx(0, abs=1e-6)
        assert distance(line, poses.point(f"lower_arm_{side}", f"lower_ball_{side}")) == pytest.approx(
            0, abs=1e-6
        )


def test_a_five_link_axle_without_a_steer_link_has_no_axis():
    assert steering(pose_many(five_links(), np.zeros((1, 1)))) == {}
