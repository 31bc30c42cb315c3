"""`loadpath compliance` as a user runs it."""

import csv
import json

import pytest


def test_it_tells_figures_shares_and_what_holds_the_wheels(loadpath, cases):
    outcome = loadpath("compliance", cases / "light_van_rear.toml")
    assert outcome.code == 0
    for words in (
        "toe by lateral force",
        "recession by impact",
        "remainder",
        "ride on their",
        "Toe-in positive",
    ):
        assert words in outcome.out
    assert "CAUTION" in outcome.out


def test_locked_says_so(loadpath, cases):
    outcome = loadpath("compliance", cases / "town_car_front.toml", "--locked")
    assert outcome.code == 0
    assert "spring_l, spring_r locked at length" in outcome.out
    assert "wheel rate" not in outcome.out


def test_files_hold_every_loading_and_every_single_thing(loadpath, cases, tmp_path):
    outcome = loadpath(
        "compliance", cases / "light_van_rear.toml", "--csv", tmp_path / "c", "--json", tmp_path / "j"
    )
    assert outcome.code == 0
    names = {f.stem for f in (tmp_path / "c").glob("*.csv")}
    for way in ("together", "alone", "opposite"):
        assert {f"compliance_{way}", f"compliance_shares_{way}", f"compliance_singles_{way}"} <= names
    with (tmp_path / "c" / "compliance_shares_together.csv").open() as stream:
        rows = list(csv.DictReader(stream))
    assert {r["wheel"] for r in rows} == {"wheel_l", "wheel_r"}
    row = next(r for r in rows if r["figure"] == "toe by braking" and r["wheel"] == "wheel_l")
    parts = [float(v) for k, v in row.items() if k not in ("wheel", "figure", "per", "as built")]
    assert sum(parts) == pytest.approx(float(row["as built"]), abs=1e-9)
    told = json.loads((tmp_path / "j" / "compliance_together.json").read_text())
    assert any("CAUTION" in line for line in told["statements"])


@pytest.mark.parametrize("ending", ["png", "svg"])
def test_a_picture_is_written(loadpath, cases, tmp_path, ending):
    file = tmp_path / f"shares.{ending}"
    outcome = loadpath("compliance", cases / "light_van_rear.toml", "--picture", file)
    assert outcome.code == 0
    assert file.stat().st_size > 10_000


def test_wrong_words_are_told(loadpath, cases):
    outcome = loadpath("compliance", cases / "light_van_rear.toml", "--loaded", "togther")
    assert outcome.code == 2
    assert "nearest: together" in outcome.err
    outcome = loadpath("compliance", cases / "portal_bracket.toml")
    assert outcome.code == 2
    assert "no wheels" in outcome.err
