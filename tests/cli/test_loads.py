"""`loadpath loads`, and what `solve` says of each load case."""

import csv
import json

import pytest

from loadpath.loads import standard_set

STATED = """
[vehicle.states.gross]
mass = 3600
front_share = 0.42
rear_travel = 15

[load_cases.bump_gross]
kind = "bump"
state = "gross"
"""


@pytest.fixture
def van(cases, tmp_path):
    """The van with a loading state and more text."""

    def write(more: str = STATED):
        text = (cases / "light_van_rear.toml").read_text(encoding="utf-8")
        path = tmp_path / "van.toml"
        path.write_text(text + more, encoding="utf-8")
        return path

    return write


def test_the_standard_set_with_a_source_beside_each_row(loadpath, tmp_path):
    code, out, err = loadpath("loads", "--csv", tmp_path)
    assert (code, err) == (0, "")
    assert "No single open table of such factors is authoritative" in out
    assert "CAUTION" in out
    with (tmp_path / "standard_loads.csv").open(encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    assert [r["row"] for r in rows] == list(standard_set())
    assert all(r["source"] and r["multiplies"] and r["acts at"] and r["pose"] for r in rows)


def test_load_cases_of_a_case_with_the_wheel_load_that_each_multiplies(loadpath, van, tmp_path):
    code, out, _ = loadpath("loads", van(), "--json", tmp_path)
    assert code == 0
    told = json.loads((tmp_path / "load_case_sources.json").read_text(encoding="utf-8"))
    rows = {r["load case"]: r for r in told["rows"]}
    # 3600 kg, 58 % behind, half of it on a wheel
    assert rows["bump_gross"]["static wheel load, kN"] == f"gross: rear {3.6 * 0.58 * 9.80665 / 2:.2f}"
    assert rows["bump"]["static wheel load, kN"] == f"design: rear {3.05 * 0.54 * 9.80665 / 2:.2f}"
    assert rows["bump_gross"]["pose"] == "jounce 15 mm"
    assert rows["launch"]["acts at"].endswith("half-shaft torque of wheel_l, wheel_r")
    states = json.loads((tmp_path / "states.json").read_text(encoding="utf-8"))["rows"]
    assert [(s["state"], s["rear travel [mm]"]) for s in states] == [("design", 0), ("gross", 15)]
    assert "Loading states of the vehicle" in out


def test_a_case_with_the_whole_standard_set(loadpath, cases, tmp_path):
    code, out, err = loadpath("loads", cases / "town_car_front.toml", "--csv", tmp_path)
    assert (code, err) == (0, "")
    with (tmp_path / "load_case_sources.csv").open(encoding="utf-8") as stream:
        rows = {r["load case"]: r for r in csv.DictReader(stream)}
    assert rows["cornering_r"]["from"] == "standard, changed"
    assert rows["kerb_strike_r"]["from"] == "standard"
    assert rows["bump_gross"]["from"] == "case file"
    assert [rows[n]["pose"] for n in ("static", "cornering_l", "bump", "bump_gross")] == [
        *("design height", "travel by the load", "travel by the load", "jounce 8 mm"),
    ]
    assert rows["jacking_side_4_r"]["acts at"].endswith("jack at side_4_r")
    assert "written over the standard load cases: load_cases.braking.g, load_cases.cornering_l.g" in " ".join(
        out.split()
    )


def test_what_the_set_asks_for_and_the_case_has_not_got(loadpath, van):
    path = van("")
    path.write_text(
        'standard_loads = ["jacking", "twist_l"]\n' + path.read_text(encoding="utf-8"), encoding="utf-8"
    )
    for command in ("loads", "check"):
        _, out, _ = loadpath(command, path)
        assert "left out: jacking (standard_loads.jack_at names no point)" in " ".join(out.split())


def test_solve_prints_terms_and_balance_of_one_load_case(loadpath, cases, tmp_path):
    """3.6 kN·m of drive: force at the centre, its reaction on the unit, and what masses take of it."""
    code, out, _ = loadpath("solve", cases / "light_van_rear.toml", "--case", "launch", "--json", tmp_path)
    assert code == 0
    assert "longitudinal transfer 1.17" in out
    assert "Balance: loads that enter + masses in the field = forces on the body" in out
    tables = {f.stem: json.loads(f.read_text(encoding="utf-8"))["rows"] for f in tmp_path.glob("*.json")}
    torques = {r["on part"]: r for r in tables["other_loads"] if r["load case"] == "launch"}
    assert torques["drive_unit"]["My [N·m]"] == -3600
    row = next(r for r in tables["balance"] if r["load case"] == "launch")
    forward, masses, body = (row[f"forward: {word} [kN]"] for word in ("loads", "masses", "body"))
    assert forward == pytest.approx(3.6e3 / 352)
    assert forward + masses == pytest.approx(body)
    assert body < forward


def test_no_such_file(loadpath, tmp_path):
    code, out, err = loadpath("loads", tmp_path / "nothing.toml")
    assert (code, out) == (2, "")
    assert "nothing.toml" in err
