"""Poses beyond what wheels, racks and springs can do: told, never silent."""

import pytest


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("travel", "--jounce", "500", "--motion", "steer"), "wheel_l travels from -85 to 80 mm"),
        (("travel", "--jounce", "10"), "the motion heave moves all wheels"),
        (("travel", "--rack", "10", "--motion", "steer"), "moves all racks"),
        (("travel", "--rack", "nan"), "travels from -70 to 70 mm"),
        (("compliance", "--rack", "90"), "travels from -70 to 70 mm"),
        (("compliance", "--jounce", "inf"), "travels from -85 to 80 mm"),
        (("room", "--clearance", "nan"), "a clearance is 0 mm or more"),
    ],
)
def test_a_place_beyond_full_travel_is_refused(loadpath, cases, words, said):
    command, *options = words
    outcome = loadpath(command, cases / "town_car_front.toml", *options)
    assert outcome.code == 2
    assert said in outcome.err
    assert not outcome.out


def test_a_rack_that_is_not_there_is_refused(loadpath, cases):
    outcome = loadpath("compliance", cases / "light_van_rear.toml", "--rack", 10)
    assert outcome.code == 2
    assert "no joint of the case has rack = true" in outcome.err


def test_load_cases_beyond_full_travel_and_springs_that_pull_are_warned_of(loadpath, cases, tmp_path):
    text = (cases / "light_van_rear.toml").read_text()
    more = '[load_cases.deep]\nkind = "static"\npose = { jounce = 92 }\n\n[targets.'
    file = tmp_path / "deep.toml"
    file.write_text(text.replace("[targets.", more, 1))
    outcome = loadpath("check", file, "--case", "deep")
    plain = " ".join(outcome.out.split())
    assert (
        "Warning: beyond the full travel: deep wheel_l +92.0 (full 90 mm), deep wheel_r +92.0 (full 90 mm)"
        in plain
    )
    assert "Warning: springs that pull: deep (strut_l -" in plain
    untouched = loadpath("check", cases / "light_van_rear.toml", "--case", "bump").out
    assert "beyond the full travel" not in untouched
    assert "springs that pull" not in untouched


def test_a_table_that_does_not_rise_says_where_and_nothing_else(loadpath, cases, tmp_path):
    text = (cases / "light_van_rear.toml").read_text()
    assert "travel = [0, 10, 20, 30" in text
    file = tmp_path / "falls.toml"
    file.write_text(text.replace("travel = [0, 10, 20, 30", "travel = [0, 10, 10, 30", 1))
    outcome = loadpath("check", file)
    assert outcome.code == 2
    assert "1 mistake" in outcome.err
    assert "10 stands after 10; expected two points or more, with rising travel" in outcome.err


def test_a_rack_that_nothing_steers_is_told_with_what_it_lacks(loadpath, cases, tmp_path):
    text = (cases / "town_car_front.toml").read_text()
    assert "rack = true\ntravel = 70\n" in text
    file = tmp_path / "loose.toml"
    file.write_text(text.replace("rack = true\ntravel = 70\n", "", 1))
    outcome = loadpath("travel", file)
    assert outcome.code == 2
    assert "a steering rack lacks rack = true" in outcome.err


@pytest.mark.parametrize("command", ["travel", "room", "compliance"])
def test_a_picture_in_no_folder_is_refused_before_anything_is_written(loadpath, cases, tmp_path, command):
    file, folder = tmp_path / "none" / "x.png", tmp_path / "csv"
    outcome = loadpath(command, cases / "light_van_rear.toml", "--picture", file, "--csv", folder)
    assert outcome.code == 2
    assert "there is no folder" in outcome.err
    assert not outcome.out
    assert not folder.exists()


def test_two_cases_without_a_load_case_in_common_are_told_by_their_load_cases(loadpath, cases):
    outcome = loadpath("compare", cases / "light_van_rear.toml", cases / "portal_bracket.toml")
    assert outcome.code == 2
    assert "before: static, bump" in outcome.err
    assert "after: side_push" in outcome.err
