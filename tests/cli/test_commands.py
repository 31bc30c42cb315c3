"""Commands: output, files and exit codes."""

import csv
import json
import re

import pytest

CAUTION = "CAUTION: a screening result for chassis parts whose failure can kill."


def test_check_of_the_demo_exceeds_and_says_so(loadpath, cases):
    code, out, err = loadpath("check", cases / "light_van_rear.toml")
    assert (code, err) == (1, "")
    first = next(line for line in out.splitlines() if line.startswith("exceeds"))
    assert "lower_arm_l.rear_leg" in first
    for words in (
        "Load cases and their capacity",
        "Pickup stiffness",
        "Masses",
        "Self-checks:",
        "Defaults used:",
    ):
        assert words in out
    assert CAUTION in out
    assert "Not checked: cradle (brackets" in out


def test_one_load_case_is_judged_alone_and_says_so(loadpath, cases):
    code, out, _ = loadpath("check", cases / "light_van_rear.toml", "--case", "launch")
    verdicts = out[out.index("Verdicts") : out.index("Self-checks")]
    assert "Load case launch alone: the 13 others are not judged here." in verdicts
    assert not re.search(r"\bbump\b", verdicts)
    assert code == 1  # the pickup stiffness has no load case
    code, out, err = loadpath("check", cases / "light_van_rear.toml", "--case", "lunch")
    assert (code, out) == (2, "")
    assert "nearest: launch" in err


def test_one_load_case_is_shown_whatever_becomes_of_the_others(loadpath, cases, tmp_path):
    text = (cases / "light_van_rear.toml").read_text(encoding="utf-8")
    file = tmp_path / "van.toml"
    file.write_text(
        text + '\n[load_cases.far]\nkind = "bump"\ng = 15\npose = "from load"\n', encoding="utf-8"
    )
    for command in ("check", "solve"):
        code, out, err = loadpath(command, file)
        assert (code, out) == (2, "")
        assert "load case far:" in err
        code, out, _ = loadpath(command, file, "--case", "cornering_left")
        assert code == (command == "check")
        own = loadpath(command, cases / "light_van_rear.toml", "--case", "cornering_left").out
        shown = [text[: text.index("Self-checks")].splitlines()[2:] for text in (out, own)]
        assert [line.replace("the 14 others", "the 13 others") for line in shown[0]] == shown[1]
        assert loadpath(command, file, "--case", "far").code == 2
    assert (
        "cornering_left" in loadpath("solve", file, "--at", "strut_lower_l", "--case", "cornering_left").out
    )


@pytest.mark.parametrize(
    ("name", "code"),
    [("light_van_rear", 1), ("light_van_rear_b", 1), ("town_car_front", 1), ("portal_bracket", 0)],
)
def test_every_case_runs(loadpath, cases, name, code):
    outcome = loadpath("check", cases / f"{name}.toml")
    assert outcome.code == code
    assert "REFUSED" not in outcome.out


def test_check_writes_its_tables(loadpath, cases, tmp_path):
    code, out, _ = loadpath(
        "check", cases / "portal_bracket.toml", "--csv", tmp_path / "c", "--json", tmp_path / "j"
    )
    assert code == 0
    with (tmp_path / "c" / "checks.csv").open(encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    assert {r["verdict"] for r in rows} == {"holds", "not checked"}
    told = json.loads((tmp_path / "j" / "masses.json").read_text(encoding="utf-8"))
    assert told["rows"][-1]["part"] == "total"
    assert told["rows"][-1]["mass [kg]"] == pytest.approx(12.56, abs=0.01)  # 1000 mm of 40 x 40 steel
    assert "files written to" in out
    assert CAUTION in (tmp_path / "c" / "statements.txt").read_text(encoding="utf-8")
    assert any(CAUTION in text for text in told["statements"])


def test_solve_gives_envelopes_with_the_governing_case(loadpath, cases):
    code, out, _ = loadpath("solve", cases / "light_van_rear.toml")
    assert code == 0
    for words in (
        "Wheel loads",
        "Balance",
        "Mounts, force on the body",
        "governing case",
        "Springs, dampers",
    ):
        assert words in out


def test_solve_one_case_gives_peaks_with_their_place(loadpath, cases):
    """Portal of Kleinlogel's formulas: feet 886 N·m, corners 614 N·m without axial and shear deformation."""
    _, out, _ = loadpath("solve", cases / "portal_bracket.toml", "--case", "side_push")
    joints = {line.split()[0]: line.split() for line in out.splitlines() if re.match(r"n[14] ", line)}
    assert abs(float(joints["n4"][-2])) == pytest.approx(886.4, rel=0.02)
    assert abs(float(joints["n1"][-2])) == pytest.approx(886.4, rel=0.02)
    assert "Members: largest section forces with their distance" in out


def test_solve_at_a_point(loadpath, cases):
    code, out, _ = loadpath("solve", cases / "light_van_rear.toml", "--at", "lower_ball_l")
    assert code == 0
    assert "Forces at lower_ball_l" in out
    assert "Movement at lower_ball_l" in out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--case", "bum"), "no load case 'bum'"),
        (("--at", "lower_bal_l"), "nearest: lower_ball_l"),
    ],
)
def test_solve_names_the_nearest(loadpath, cases, arguments, words):
    code, out, err = loadpath("solve", cases / "light_van_rear.toml", *arguments)
    assert (code, out) == (2, "")
    assert words in err


def test_section_prints_both_theories_and_draws(loadpath, cases, tmp_path):
    picture = tmp_path / "rail.png"
    code, out, _ = loadpath("section", cases / "light_van_rear.toml", "rail", "--picture", picture)
    assert code == 0
    assert "walls less outline" in out
    assert picture.read_bytes().startswith(b"\x89PNG")


def test_section_refuses_another_ending_before_it_writes(loadpath, cases, tmp_path):
    code, _, err = loadpath(
        "section", cases / "light_van_rear.toml", "rail", "--picture", tmp_path / "rail.gif"
    )
    assert code == 2
    assert ".png or .svg" in err
    assert not list(tmp_path.iterdir())


def test_new_writes_a_case_that_runs_and_leaves_files_alone(loadpath, tmp_path):
    file = tmp_path / "mine.toml"
    assert loadpath("new", file).code == 0
    assert loadpath("check", file).code == 0
    text = file.read_text(encoding="utf-8")
    code, _, err = loadpath("new", file)
    assert code == 2
    assert "exists already" in err
    assert file.read_text(encoding="utf-8") == text


def test_schema_is_json(loadpath):
    code, out, _ = loadpath("schema")
    assert code == 0
    assert "load_cases" in json.loads(out)["properties"]


def test_a_bad_case_tells_all_mistakes_and_writes_nothing(loadpath, cases, tmp_path):
    text = (cases / "light_van_rear.toml").read_text(encoding="utf-8")
    text = text.replace('section = "rail"', 'section = "rial"').replace("cg_height = 760", "cg_hieght = 760")
    bad = tmp_path / "bad.toml"
    bad.write_text(text, encoding="utf-8")
    code, out, err = loadpath("check", bad, "--csv", tmp_path / "out")
    assert (code, out) == (2, "")
    assert "rail" in err
    assert "cg_height" in err
    assert "Traceback" not in err
    assert not (tmp_path / "out").exists()


def test_a_missing_file_is_one_message(loadpath, tmp_path):
    code, _, err = loadpath("check", tmp_path / "none.toml")
    assert code == 2
    assert "none.toml" in err


def test_a_mechanism_is_refused_in_words(loadpath, cases, tmp_path):
    text = (cases / "light_van_rear.toml").read_text(encoding="utf-8")
    start = text.index("[joints.toe_outer_l]")
    end = text.index("[joints.bar_bush_l]")
    loose = tmp_path / "loose.toml"
    loose.write_text(text[:start] + text[end:], encoding="utf-8")
    code, out, err = loadpath("check", loose)
    assert (code, out) == (2, "")
    assert "knuckle_l" in err
    assert "joint is missing" in err


def test_an_unwritable_folder_is_one_message(loadpath, cases, tmp_path):
    (tmp_path / "file").write_text("", encoding="utf-8")
    code, _, err = loadpath("check", cases / "portal_bracket.toml", "--csv", tmp_path / "file")
    assert code == 2
    assert "cannot write" in err
    assert "verdict" not in err


def test_what_cannot_be_judged_ends_with_its_own_code(loadpath, cases, tmp_path):
    text = (cases / "portal_bracket.toml").read_text(encoding="utf-8").replace("proof = 345\n", "")
    file = tmp_path / "unknown.toml"
    file.write_text(text, encoding="utf-8")
    code, out, _ = loadpath("check", file)
    assert code == 3
    assert "this could not be judged: portal.column_a" in out
    assert "Not checked: portal.column_a" in out


def test_only_fatigue_cases_still_print_their_verdict_table(loadpath, cases, tmp_path):
    text = (cases / "portal_bracket.toml").read_text(encoding="utf-8")
    text = text[: text.index("[targets")].replace('kind = "given"', 'kind = "given"\nclass = "repeated"')
    file = tmp_path / "repeated.toml"
    file.write_text(text, encoding="utf-8")
    code, out, _ = loadpath("check", file)
    assert code == 3
    assert "fatigue needs a stress range" in out


def test_notes_of_load_cases_stand_above_the_verdicts(loadpath, cases, tmp_path):
    text = (cases / "light_van_rear.toml").read_text(encoding="utf-8")
    start = text.index("roll_stiffness")
    file = tmp_path / "no_roll.toml"
    file.write_text(text[:start] + text[text.index("front_roll_share") :], encoding="utf-8")
    _, out, _ = loadpath("check", file)
    before = out[: out.index("Verdicts, worst first")]
    assert "twist" in before
    assert "cornering_right" in before


def test_a_fault_of_the_program_is_not_taken_for_a_verdict(loadpath, cases, monkeypatch):
    import loadpath.cli.checking as checking

    monkeypatch.setattr(checking, "run_checks", lambda analysis: 1 / 0)
    code, _, err = loadpath("check", cases / "portal_bracket.toml")
    assert code == 4
    assert "fault of the program" in err


def test_output_that_cannot_show_a_sign(cases):
    import os
    import subprocess
    import sys

    told = subprocess.run(
        [
            sys.executable,
            "-c",
            "from loadpath.cli import run; run()",
            "check",
            str(cases / "portal_bracket.toml"),
        ],
        capture_output=True,
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
        check=False,
    )
    assert told.returncode == 0
    assert b"Traceback" not in told.stderr


def test_members_in_json_keep_every_place(loadpath, cases, tmp_path):
    loadpath("solve", cases / "portal_bracket.toml", "--case", "side_push", "--json", tmp_path)
    rows = json.loads((tmp_path / "members_side_push.json").read_text(encoding="utf-8"))["rows"]
    assert {"N at [mm]", "My at [mm]", "vM at [mm]"} <= rows[0].keys()


def test_a_point_shows_its_spring(loadpath, cases):
    _, out, _ = loadpath("solve", cases / "light_van_rear.toml", "--at", "strut_lower_l", "--case", "bump")
    assert re.search(r"strut_l +lower_arm_l +bump", out)
