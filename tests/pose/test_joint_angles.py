"""Articulation, strut lengths, half-shafts and sensors; what the trade knows of arm lengths."""

from dataclasses import replace

import numpy as np
import pytest
from linkages import five_links, wishbones

from loadpath.model import HalfShaft, HeightSensor
from loadpath.pose import make_mechanism, pose_many
from loadpath.sweep import levers, shafts, struts, turns

TRAVEL = np.linspace(-70, 70, 15)[:, None]


@pytest.mark.parametrize("axle", [five_links, wishbones])
def test_motion_ratio_is_the_slope_of_the_length(axle):
    mechanism, step = axle(), 1e-3
    middle, more, less = (struts(pose_many(mechanism, TRAVEL + d))["spring_l"] for d in (0, step, -step))
    assert middle.ratio == pytest.approx((less.length - more.length) / (2 * step), rel=1e-6)


def test_longer_arms_turn_less():
    """For the same travel; common practice, no source."""

    def largest(shift):
        inner = {p: np.add((x, y, z), (0, -shift, 0)) for p, (x, y, z) in INNER.items()}
        found = turns(pose_many(wishbones(inner), TRAVEL))
        return np.array([found[p].total.max() for p in (*INNER, "upper_ball", "lower_ball", "toe_toe_inner")])

    short, long = largest(-60), largest(120)
    assert (long < short).all()


INNER = {
    "upper_front": (140, 450, 490),
    "upper_rear": (-150, 440, 480),
    "lower_front": (190, 360, 220),
    "lower_rear": (-200, 350, 225),
}


def test_turn_of_an_arm_by_hand():
    """An arm of 350 mm about a level axis: its bushings turn by what its ball joint rises; nothing is left across."""
    arms = {"lower_front": (150, 380, 200), "lower_rear": (-150, 380, 200), "lower_ball": (0, 730, 200)}
    mechanism = wishbones(arms)
    poses = pose_many(mechanism, TRAVEL)
    rise = poses.point("lower", "lower_ball")[:, 2] - 200
    assert turns(poses)["lower_front"].total == pytest.approx(np.abs(np.arcsin(rise / 350)), abs=1e-10)


def with_stud(direction):
    model = wishbones().model
    ball = replace(model.joints["lower_ball"], stud=np.array(direction) / np.linalg.norm(direction))
    return make_mechanism(replace(model, joints={**model.joints, "lower_ball": ball}))


def test_swing_of_a_stud_is_the_angle_it_leans_from_its_housing():
    stud = np.array([0.1, 0.2, 0.9]) / np.linalg.norm([0.1, 0.2, 0.9])
    poses = pose_many(with_stud(stud), TRAVEL)
    found = turns(poses)["lower_ball"]
    housing, pin = (poses.turned(part) @ stud for part in ("lower", "knuckle"))
    assert found.across == pytest.approx(np.arccos(np.clip((housing * pin).sum(axis=1), -1, 1)), abs=1e-7)
    assert np.cos(found.total / 2) == pytest.approx(
        np.cos(found.about / 2) * np.cos(found.across / 2), abs=1e-12
    )


def test_half_shaft_in_line_at_design_height():
    model = wishbones().model
    points = {**model.points, "shaft_in": np.array([0, 200.0, 320]), "shaft_out": np.array([0, 700.0, 320])}
    shaft = HalfShaft("shaft_in", "shaft_out", np.array([0, 1.0, 0]))
    wheel = replace(model.wheels["wheel_l"], half_shaft=shaft)
    mechanism = make_mechanism(replace(model, points=points, wheels={"wheel_l": wheel}))
    poses = pose_many(mechanism, TRAVEL)
    found = shafts(poses)["wheel_l"]
    line = poses.point("knuckle", "shaft_out") - points["shaft_in"]
    rest = int(np.flatnonzero(TRAVEL[:, 0] == 0)[0])
    assert [found.inner[rest], found.outer[rest], found.plunge[rest]] == pytest.approx([0, 0, 0], abs=1e-12)
    assert found.inner == pytest.approx(np.arctan2(np.hypot(line[:, 0], line[:, 2]), line[:, 1]), abs=1e-12)
    assert found.plunge == pytest.approx(np.linalg.norm(line, axis=1) - 500, abs=1e-9)


@pytest.mark.parametrize("side", [1, -1])
def test_sensor_lever_keeps_the_length_of_its_rod(side):
    """On either assembly branch the rod is as long as at design height, and the lever starts from nought."""
    model = wishbones().model
    points = {
        **model.points,
        "pivot": np.array([20, 450.0, 330]),
        "lever": np.array([-60, 450.0, 330 + side * 5]),
    }
    points["rod"] = np.array([-50, 520.0, 225])
    sensor = HeightSensor("s", ("body", "lower"), "pivot", np.array([0, 1.0, 0]), "lever", "rod")
    mechanism = make_mechanism(replace(model, points=points, sensors={"s": sensor}))
    poses = pose_many(mechanism, TRAVEL)
    angle = levers(poses)["s"]
    arm = points["lever"] - points["pivot"]
    turned = np.cos(angle)[:, None] * arm + np.sin(angle)[:, None] * np.cross([0, 1.0, 0], arm)
    rods = np.linalg.norm(points["pivot"] + turned - poses.point("lower", "rod"), axis=1)
    assert rods == pytest.approx(np.linalg.norm(points["lever"] - points["rod"]), abs=1e-9)
    assert angle[np.flatnonzero(TRAVEL[:, 0] == 0)] == pytest.approx(0, abs=1e-9)
    assert (np.diff(angle) > 0).all()
