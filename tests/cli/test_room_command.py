"""`loadpath room` as a user runs it."""

import csv

import pytest


def test_it_tells_clearances_free_widths_and_what_it_took(loadpath, cases):
    outcome = loadpath("room", cases / "light_van_rear.toml")
    assert outcome.code == 1
    for words in (
        "toe_link_l",
        "short by",
        "How far sections may grow",
        "235 mm wide",
        "no source",
        "CAUTION",
    ):
        assert words in outcome.out


def test_the_exit_code_tells_whether_a_clearance_is_less_than_asked_for(loadpath, cases, tmp_path):
    text = (cases / "light_van_rear.toml").read_text()
    thin = tmp_path / "thin_shafts.toml"
    thin.write_text(text.replace("diameter = 30", "diameter = 20"))
    outcome = loadpath("room", thin, "--clearance", 0, "--shaft-clearance", 0)
    assert (outcome.code, outcome.err) == (0, "")
    assert loadpath("room", thin, "--clearance", 0, "--shaft-clearance", 60).code == 1


def test_files_hold_both_sides_and_every_way(loadpath, cases, tmp_path):
    outcome = loadpath("room", cases / "light_van_rear.toml", "--clearance", 20, "--csv", tmp_path)
    assert outcome.code == 1
    with (tmp_path / "free_ways.csv").open() as stream:
        rows = list(csv.DictReader(stream))
    assert {r["way"] for r in rows} == {"+y", "-y", "+z", "-z"}
    assert {"lower_arm_l.rear_leg", "lower_arm_r.rear_leg"} <= {r["member"] for r in rows}
    with (tmp_path / "clearances.csv").open() as stream:
        names = {r["of"] for r in csv.DictReader(stream)}
    assert names == {"wheel_l", "wheel_r", "half-shaft of wheel_l", "half-shaft of wheel_r"}


@pytest.mark.parametrize("ending", ["png", "svg"])
def test_a_picture_is_written(loadpath, cases, tmp_path, ending):
    file = tmp_path / f"room.{ending}"
    outcome = loadpath("room", cases / "light_van_rear.toml", "--picture", file)
    assert outcome.code == 1
    assert file.stat().st_size > 10_000


def test_a_case_without_tyres_or_wheels_says_so(loadpath, cases, tmp_path):
    outcome = loadpath("room", cases / "portal_bracket.toml")
    assert outcome.code == 2
    assert "no wheels" in outcome.err
    text = (cases / "light_van_rear.toml").read_text()
    bare = text.replace('tyre = { size = "235/55R19" }\n', "").replace(", diameter = 30", "")
    file = tmp_path / "bare.toml"
    file.write_text(bare)
    outcome = loadpath("room", file)
    assert outcome.code == 2
    assert "its tyre is not given" in outcome.err
    assert "its diameter is not given" in outcome.err


def test_travel_that_cannot_be_reached_is_told(loadpath, cases, tmp_path):
    text = (cases / "light_van_rear.toml").read_text()
    file = tmp_path / "far.toml"
    file.write_text(text.replace("jounce = 90", "jounce = 400"))
    outcome = loadpath("room", file)
    assert outcome.code == 2
    assert "cannot be reached" in outcome.err


def test_the_picture_is_headed_by_the_case(loadpath, cases, tmp_path):
    file = tmp_path / "room.svg"
    text = (cases / "light_van_rear.toml").read_text()
    case = tmp_path / "named.toml"
    case.write_text(
        text.replace("Light van, rear cradle, concept A: upper arms on the body", "heading of the case")
    )
    assert loadpath("room", case, "--picture", file).code == 1
    assert "<!-- heading of the case -->" in file.read_text()
