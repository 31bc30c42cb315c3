"""Warnings about poses: springs against their law at the travel of a body's roll, travel beyond what is known."""

from dataclasses import replace

import pytest
from published.test_pose_statics import COIL, standing_under, trailing_arm, weighed

from loadpath.checks import analyse_stands
from loadpath.model import PoseWish
from loadpath.report.posewarnings import pose_warnings


def analysed(wish, load, wheel=None):
    """The trailing arm under a load: its spring has 5 kN at design height, 300 mm from the pivot, not 500."""
    model = trailing_arm(COIL)
    if wheel is not None:
        model = replace(model, wheels={n: replace(w, **wheel) for n, w in model.wheels.items()})
    return analyse_stands(model, standing_under(model, weighed(load, wish)), ())


@pytest.mark.parametrize(("load", "told"), [(3000.0, False), (3600.0, False), (3900.0, True)])
def test_springs_that_do_not_balance_at_the_travel_of_roll(load, told):
    """3 kN × 500 mm = 5 kN × 300 mm: no travel is asked for, so 3.9 kN needs 30 % more than the law gives."""
    analysis = analysed(PoseWish(by="from roll"), load)
    lines = pose_warnings(analysis)
    assert bool(lines) == told
    if told:
        assert "weight (spring_l by 30 %)" in lines[0]


def test_travel_beyond_what_is_taken_where_none_is_given():
    load = PoseWish(by="from load")
    (line,) = pose_warnings(analysed(load, 5500.0))
    assert line.startswith("Warning: beyond the full travel: weight wheel_l")
    assert "60 mm taken, none is given" in line
    assert pose_warnings(analysed(load, 5500.0, {"jounce": 150.0})) == []


def test_travel_beyond_the_one_that_is_given():
    given = PoseWish(jounce=40.0)
    (line,) = pose_warnings(analysed(given, 5500.0, {"jounce": 30.0, "rebound": 30.0}))
    assert line == "Warning: beyond the full travel: weight wheel_l +40.0 (full 30 mm)."


def test_a_held_spring_that_pulls_where_the_load_hangs():
    """1 kN down at the wheel asks the spring, which pushes 5 kN by its law, to pull."""
    (line,) = pose_warnings(analysed(PoseWish(by="design"), -1000.0))
    assert "springs that pull: weight (spring_l -1.6" in line
