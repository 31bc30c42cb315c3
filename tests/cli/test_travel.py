"""`loadpath travel`: tables, files, pictures and what it refuses."""

import csv
import re

import pytest

CAUTION = "CAUTION: a screening result for chassis parts whose failure can kill."


def rows(path):
    with path.open(encoding="utf-8") as stream:
        return list(csv.DictReader(stream))


def test_heave_prints_one_side_and_writes_all(loadpath, cases, tmp_path):
    code, out, err = loadpath("travel", cases / "light_van_rear.toml", "--csv", tmp_path, "--step", 30)
    assert (code, err) == (0, "")
    for words in (
        "Alignment of wheel_l",
        "anti-squat",
        "strut_l",
        "toe_outer_l",
        "plunge",
        "height_l",
        CAUTION,
    ):
        assert words in out
    assert "Alignment of wheel_r" not in out
    assert "the same as on the left: wheel_r" in out
    alignment = rows(tmp_path / "alignment_wheel_r_heave.csv")
    assert [float(r["travel [mm]"]) for r in alignment] == [-95, -90, -60, -30, 0, 30, 60, 90]
    at_design = next(r for r in alignment if float(r["travel [mm]"]) == 0)
    assert float(at_design["camber [deg]"]) == pytest.approx(-0.8)
    assert float(at_design["toe [deg]"]) == pytest.approx(0.1)
    joints = {r["joint"] for r in rows(tmp_path / "joint_angles_all_heave.csv")}
    assert {"lower_ball_l", "lower_ball_r", "mount_front_l", "bar_bush_r", "link_lower_l"} <= joints
    points = [r for r in rows(tmp_path / "points_heave.csv") if r["point"] == "wheel_l"]
    assert [float(r["z [mm]"]) for r in points] == pytest.approx([257, 262, 292, 322, 352, 382, 412, 442])
    assert CAUTION in (tmp_path / "statements.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("case", ["light_van_rear", "light_van_rear_b", "town_car_front"])
@pytest.mark.parametrize("motion", ["roll", "left"])
def test_every_axle_moves(loadpath, cases, case, motion):
    code, out, _ = loadpath("travel", cases / f"{case}.toml", "--motion", motion)
    assert code == 0
    assert "Alignment of wheel_r" in out
    assert "Self-check: the joints close to" in out


def test_springs_and_stops_between_the_same_points_are_told_together(loadpath, cases):
    _, out, _ = loadpath("travel", cases / "town_car_front.toml")
    assert "spring_l, bump_stop_l, rebound_stop_l act between the same points" in out
    assert "wheel rate of the springs" in out
    assert out.count("motion ratio of") == 1


def test_steering_turns_both_wheels_the_same_way(loadpath, cases, tmp_path):
    code, _, _ = loadpath("travel", cases / "town_car_front.toml", "--motion", "steer", "--csv", tmp_path)
    assert code == 0
    left, right = (rows(tmp_path / f"alignment_wheel_{s}_steer.csv") for s in "lr")
    assert float(left[-1]["rack [mm]"]) == 70
    assert float(left[-1]["toe [deg]"]) > 25
    assert float(right[-1]["toe [deg]"]) < -25


@pytest.mark.parametrize("ending", ["png", "svg"])
def test_picture(loadpath, cases, tmp_path, ending):
    picture = tmp_path / f"travel.{ending}"
    code, out, _ = loadpath("travel", cases / "light_van_rear.toml", "--picture", picture)
    assert code == 0
    assert "picture written to" in out
    assert picture.stat().st_size > 10000


def test_limits_of_the_case_are_judged(loadpath, cases, tmp_path):
    text = (cases / "light_van_rear.toml").read_text(encoding="utf-8")
    path = tmp_path / "case.toml"
    path.write_text(text.replace("inner_limit = 23", "inner_limit = 9", 1), encoding="utf-8")
    code, out, _ = loadpath("travel", path)
    assert code == 1
    assert re.search(r"exceeds +half-shaft of wheel_l, inner joint +10\.3 +9\.0 +deg +90\.0", out)
    assert re.search(r"holds +upper_ball_l, swing", out)


REFUSED = [
    ((), "jounce = 90", "jounce = 900", r"stops at wheel_l \+3\d\d\.\d.* mm, where drop_link_\w binds"),
    ((), 'split = "bar_6"', "", r"1 of 2 travels .* misses by 2\.\d+ mm, or 0\.\d+ degrees on a lever"),
    (("--motion", "steer"), "", "", "no steering rack"),
    (("--motion", "yaw"), "", "", "there are: heave, roll, left, right, steer"),
    ((), "axial = 600\n", "axial = 600\nclamped_at = -400\n", "stops at wheel_l -"),
    (
        (),
        "sensor_lever_l = [134, 436, 322]",
        "sensor_lever_l = [192, 433, 328]",
        "the rod of sensor height_l is too short or too long",
    ),
    (("--step", "0"), "", "", "a step of 0.1 mm or more"),
    (("--picture", "a.gif"), "", "", "a picture ends in"),
]


@pytest.mark.parametrize(("options", "old", "new", "words"), REFUSED)
def test_refusals(loadpath, cases, tmp_path, options, old, new, words):
    text = (cases / "light_van_rear.toml").read_text(encoding="utf-8")
    path = tmp_path / "case.toml"
    path.write_text(text.replace(old, new, 1) if old else text, encoding="utf-8")
    code, out, err = loadpath("travel", path, *options)
    assert (code, out) == (2, "")
    assert len(err.strip().splitlines()) == 1
    assert re.search(words, err), err


def test_a_case_without_wheels_is_told_so(loadpath, cases):
    code, _, err = loadpath("travel", cases / "portal_bracket.toml")
    assert code == 2
    assert "no wheels" in err
