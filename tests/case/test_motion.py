"""Keys of the case file for the kinematics: what they become, twins included, and what is refused."""

import re

import numpy as np
import pytest

from loadpath.case import CaseError, read_case
from loadpath.pose import make_mechanism, pose_many, standing, wheel_angles
from loadpath.pose.posed import posed_model
from loadpath.pose.windup import clamped


@pytest.fixture
def changed(request, tmp_path):
    """A demo case with texts replaced, each once."""

    def make(name, *changes):
        text = (request.config.rootpath / "cases" / f"{name}.toml").read_text(encoding="utf-8")
        for old, new in changes:
            assert old in text
            text = text.replace(old, new, 1)
        path = tmp_path / f"{name}.toml"
        path.write_text(text, encoding="utf-8")
        return read_case(path)

    return make


def test_keys_reach_the_model_and_its_twins(changed):
    model = changed(
        "light_van_rear",
        (
            'kind = "ball"\nstud = "up"\nswing_limit = 25\n',
            'kind = "ball"\nstud = [0, 0.6, 0.8]\nswing_limit = 24\n',
        ),
        (
            "axial = 600\nradial = 5000\n",
            'axial = 600\nradial = 5000\nmoves_as = "sliding ball"\nclamped_at = -20\n',
        ),
    ).model
    left, right = (model.wheels[f"wheel_{s}"] for s in "lr")
    for wheel in (left, right):
        assert (wheel.jounce, wheel.rebound) == (90, 95)
        assert wheel.travel() == (-95, 90)
        assert np.degrees([wheel.camber, wheel.toe]) == pytest.approx([-0.8, 0.1])
    assert (left.steer_link, right.steer_link) == ("toe_link_l", "toe_link_r")
    assert left.half_shaft.axis == pytest.approx([0, 1, 0])
    assert right.half_shaft.axis == pytest.approx([0, -1, 0])
    assert model.parts["anti_roll_bar"].split.at == "bar_6"
    assert np.degrees(model.joints["lower_ball_r"].swing_limit) == pytest.approx(24)
    assert np.degrees(right.half_shaft.inner_limit) == pytest.approx(23)
    assert right.half_shaft.plunge_limit == 25
    assert model.joints["lower_ball_r"].stud == pytest.approx([0, -0.6, 0.8])
    for side in "lr":
        assert model.joints[f"bar_bush_{side}"].moves_as == "sliding ball"
        assert model.joints[f"bar_bush_{side}"].clamped_at == -20
        assert model.sensors[f"height_{side}"].between == ("body", f"lower_arm_{side}")
    assert model.joints["lower_front_l"].moves_as == "ball"


def test_a_rack_moves_to_the_left(changed):
    """The tie rods are behind the wheels: rack to the left turns both wheels to the right."""
    model = changed("town_car_front").model
    assert model.joints["rack"].rack
    assert model.joints["rack"].travel == 70
    mechanism = make_mechanism(model)
    poses = pose_many(mechanism, np.array([mechanism.targets({}, 30.0)]))
    moved = poses.point("rack", "tie_inner_l")[0] - model.points["tie_inner_l"]
    assert moved == pytest.approx([0, 30, 0], abs=1e-9)
    toes = {w: float(np.degrees(a.toe[0])) for w, a in wheel_angles(poses).items()}
    assert toes["wheel_l"] > 5
    assert toes["wheel_r"] < -5


@pytest.mark.parametrize("travel", [-60.0, 45.0])
def test_points_measured_at_another_travel_give_the_design_model(changed, travel, tmp_path):
    """A case written down at that travel and read with `measured_at` stands where the design case stands."""
    model = changed("light_van_rear").model
    mechanism = make_mechanism(model)
    poses = pose_many(mechanism, np.array([mechanism.targets(dict.fromkeys(mechanism.wheels, travel))]))
    away = posed_model(standing(poses, clamped(mechanism), {}), 0)
    text = (tmp_path / "light_van_rear.toml").read_text(encoding="utf-8")
    for name, at in away.points.items():
        if re.search(rf"(?m)^{name} = \[", text.split("[sections")[0]):
            text = re.sub(rf"(?m)^{name} = \[.*\]", f"{name} = {[float(x) for x in at]}", text, count=1)
    path = tmp_path / "measured.toml"
    path.write_text(text.replace("format = 1", f"format = 1\nmeasured_at = {travel}", 1), encoding="utf-8")
    found = read_case(path).model
    for name, at in model.points.items():
        if not name.startswith("bar_"):
            assert found.points[name] == pytest.approx(at, abs=1e-6), name
    assert found.wheels["wheel_l"].camber == model.wheels["wheel_l"].camber


def test_springs_of_a_measured_module_push_as_at_design_height(changed, tmp_path):
    """A coil by its free length and a damper: their pushes are those of the length at design height."""
    more = """
[struts.coil_l]
between = ["lower_arm_l", "body"]
ends = ["strut_lower_l", "strut_upper_l"]
wheel = "wheel_l"
rate = 20
free_length = 480
locked = false

[struts.damper_l]
between = ["lower_arm_l", "body"]
ends = ["strut_lower_l", "strut_upper_l"]
wheel = "wheel_l"
element = "damper"
force = 200
"""
    wheel = "[wheels.wheel_l]"
    height = ("format = 1", "format = 1\nmeasured_at = -60")
    measured = changed("light_van_rear", height, (wheel, more + wheel))
    elements = measured.model.force_elements
    ends = (measured.model.at("lower_arm_l", "strut_lower_l"), measured.model.at("body", "strut_upper_l"))
    length = np.linalg.norm(ends[1] - ends[0])
    assert length < 420
    assert elements["coil_l"].force == pytest.approx(20 * (480 - length), rel=1e-9)
    assert elements["damper_l"].force == 200


MISTAKES = [
    (
        "light_van_rear",
        'split = "bar_6"',
        'split = "bar_end_l"',
        "parts.anti_roll_bar.split",
        "inside its members",
    ),
    (
        "light_van_rear",
        'steer_link = "toe_link_l"',
        'steer_link = "cradle"',
        "wheels.wheel_l.steer_link",
        "no link",
    ),
    ("light_van_rear", 'unit = "drive_unit"\n', "", "wheels.wheel_l.unit", "missing"),
    (
        "light_van_rear",
        'outer = "shaft_outer_l"',
        'outer = "shaft_inner_l"',
        "wheels.wheel_l.half_shaft.outer",
        "apart",
    ),
    ("light_van_rear", "format = 1", "format = 1\nmeasured_at = -400", "measured_at", "stops at"),
    ("light_van_rear", "jounce = 90", "jounce = -90", "wheels.wheel_l.jounce", "above 0"),
    (
        "light_van_rear",
        'lever = "sensor_lever_l"',
        'lever = "sensor_l"',
        "sensors.height_l.lever",
        "no length",
    ),
    ("town_car_front", "rack = true\n", "", "joints.rack.travel", "rack = true"),
    (
        "town_car_front",
        'axis = "left"\nrack = true',
        'axis = "forward"\nrack = true',
        "joints.rack.axis",
        "across",
    ),
]


@pytest.mark.parametrize(("case", "old", "new", "place", "words"), MISTAKES)
def test_mistakes_name_their_place(changed, case, old, new, place, words):
    with pytest.raises(CaseError) as caught:
        changed(case, (old, new))
    assert place in str(caught.value)
    assert words in str(caught.value)
