"""What the kinematics refuse, in words that name travel, part and angle."""

import numpy as np
import pytest
from linkages import FIVE_LINKS, WISHBONES, driven, five_links, linkage, wishbones

from loadpath.pose import Loose, OutOfReach, OverConstrained, make_mechanism, pose_many


def test_a_travel_out_of_reach_names_where_it_stops_and_what_binds():
    """Level arms of 300 mm: nothing can rise by more than their length."""
    arms = {"upper_front": (150, 400, 470), "upper_rear": (-150, 400, 470), "upper_ball": (0, 700, 470)}
    arms |= {"lower_front": (150, 400, 200), "lower_rear": (-150, 400, 200), "lower_ball": (0, 700, 200)}
    arms |= {"toe_inner": (-120, 400, 260), "toe_outer": (-120, 700, 260)}
    with pytest.raises(
        OutOfReach, match=r"stops at wheel_l \+(29\d|300)\.\d mm, where (upper|lower|toe) binds"
    ):
        pose_many(wishbones(arms), np.array([[0.0], [320.0]]))


def test_a_sixth_link_holds_the_wheel_and_is_told_by_its_angle():
    points = dict(five_links().model.points) | {"extra_k": (90, 700, 400), "extra_b": (100, 400, 300)}
    links = {n: (f"{n}_k", "knuckle", f"{n}_b", "body") for n in (*FIVE_LINKS, "extra")}
    with pytest.raises(
        OverConstrained, match=r"0 of 1 travels .*10 mm .* misses by [\d.]+ mm, or [\d.]+ degrees"
    ):
        linkage(points, links, ["knuckle"], [], [driven("knuckle", "wheel")])


def test_a_missing_toe_link_leaves_the_knuckle_loose():
    joints = [(f"{a}_{e}", "ball", a, "body") for a in ("upper", "lower") for e in ("front", "rear")]
    joints += [("upper_ball", "ball", "upper", "knuckle"), ("lower_ball", "ball", "lower", "knuckle")]
    with pytest.raises(Loose, match=r"racks stand still: upper, lower, knuckle\. A joint is missing"):
        linkage(WISHBONES, {}, ["upper", "lower", "knuckle"], joints, [driven("knuckle", "wheel")])


def test_no_pose_on_the_folded_branch():
    """Every pose of a sweep is reached on the branch of the design pose: camber is a smooth curve."""
    poses = pose_many(five_links(), np.linspace(-120, 120, 49)[:, None])
    turns = poses.turned("knuckle")
    steps = np.linalg.norm(turns[1:] - turns[:-1], axis=(1, 2))
    assert np.abs(np.diff(np.log(steps))).max() < 0.2


def test_a_mechanism_of_its_own_posed_model_does_not_move():
    """Making the mechanism again leaves everything where it is."""
    mechanism = five_links()
    again = make_mechanism(mechanism.model)
    poses = pose_many(again, np.zeros((1, 1)))
    assert poses.turn == pytest.approx(np.broadcast_to(np.eye(3), poses.turn.shape), abs=1e-12)
