"""The load path by command: what a user sees, what is in the files, what is refused."""

import csv
import re

import pytest


def rows_of(path):
    with path.open(encoding="utf-8") as stream:
        return list(csv.DictReader(stream))


@pytest.mark.parametrize("name", ["light_van_rear", "light_van_rear_b", "town_car_front", "portal_bracket"])
def test_every_case_is_traced(loadpath, cases, name):
    code, out, err = loadpath("trace", cases / f"{name}.toml")
    assert (code, err) == (0, "")
    assert "Where it goes" in out
    assert "every load case: share of each part" in out
    tables = out[out.index("Where it goes") : out.index("Self-checks")]
    assert max(len(line) for line in tables.splitlines()) <= 114


def test_shares_in_the_file_sum_to_one_at_every_cut(loadpath, cases, tmp_path):
    loadpath("trace", cases / "light_van_rear.toml", "--csv", tmp_path)
    sums = {}
    for row in rows_of(tmp_path / "shares.csv"):
        if row["share"]:
            key = row["cut"], row["load case"], row["along"]
            sums[key] = sums.get(key, 0.0) + float(row["share"])
    assert len(sums) > 80
    assert list(sums.values()) == pytest.approx([1.0] * len(sums), abs=1e-10)
    for row in rows_of(tmp_path / "free_body_sums.csv"):
        assert float(row["closing error"]) < 1e-9
    assert "shares.csv: Shares at every cut" in (tmp_path / "statements.txt").read_text(encoding="utf-8")


def test_contributions_in_the_file_add_up_to_the_mount_sheet(loadpath, cases, tmp_path):
    """Two commands, one truth: what is followed through the cradle is what the mounts give to the body."""
    loadpath("trace", cases / "light_van_rear.toml", "--csv", tmp_path)
    loadpath("mounts", cases / "light_van_rear.toml", "--csv", tmp_path)
    sums = {}
    for row in rows_of(tmp_path / "contributions.csv"):
        key = row["taken by"], row["load case"]
        sums[key] = sums.get(key, 0.0) + float(row["Fz [kN]"])
    mounts = [row for row in rows_of(tmp_path / "mount_sheet.csv") if row["kind"] == "bushing"]
    assert len(mounts) == 8 * 12
    for row in mounts:
        assert sums[row["joint"], row["load case"]] == pytest.approx(float(row["Fz [kN]"]), abs=1e-9)


def test_all_but_the_spinning_bar_is_followed(loadpath, cases, tmp_path):
    """Cut free, a bar on two bushes spins; every other part is, what the pose of a turn winds up included."""
    loadpath("trace", cases / "light_van_rear.toml", "--csv", tmp_path)
    rows = rows_of(tmp_path / "contributions.csv")
    assert {r["part"].rstrip("lr").rstrip("_") for r in rows} == {
        *("cradle", "lower_arm", "upper_arm", "drive_unit")
    }
    assert "wind-up and twist of the pose" in {
        r["what comes in"] for r in rows if r["load case"] == "cornering_left"
    }
    said = (tmp_path / "statements.txt").read_text(encoding="utf-8")
    assert re.findall(r"Not followed: (\w+)", said) == ["anti_roll_bar"]


def test_one_load_case_and_one_part(loadpath, cases):
    _, out, _ = loadpath("trace", cases / "light_van_rear.toml", "--case", "cornering_right")
    assert "Arms to cradle and body, wheel_l: load case cornering_right" in out
    assert "Where it gives" in out
    _, out, _ = loadpath(
        "trace", cases / "light_van_rear.toml", "--part", "cradle", "--case", "cornering_right"
    )
    closing = re.search(r"The sum closes to (\S+) of", out)
    assert float(closing[1]) < 1e-9
    for words in ("Through cradle", "Inside cradle", "by torsion", "own mass", "together"):
        assert words in out


def test_without_a_load_case_a_part_is_shown_where_it_is_loaded_most(loadpath, cases):
    _, out, _ = loadpath("trace", cases / "light_van_rear.toml", "--part", "cradle", "--along", "up")
    assert "Free body of cradle: all that acts on it, load case reverse_braking" in out
    assert "force forward" not in out


def test_moments_about_a_line_of_ones_own(loadpath, cases):
    """Both ball joints lie on the line: the toe link alone turns the wheel about it. Statics."""
    _, out, _ = loadpath(
        *("trace", cases / "light_van_rear.toml", "--case", "braking", "--around", "knuckle_l"),
        *("--about", "lower_ball_l", "--toward", "upper_ball_l"),
    )
    share = {line.split()[0]: line.split()[-1] for line in out.splitlines() if "knuckle_l" in line}
    assert share["toe_outer_l"] == "100.0"
    assert float(share["lower_ball_l"]) == float(share["upper_ball_l"]) == 0


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--part", "cradel"], "nearest: cradle"),
        (["--case", "braknig"], "nearest: braking"),
        (["--around", "knuckle"], "nearest: knuckle_"),
        (["--along", "lft"], "nearest: left"),
        (["--about", "lower_bal_l"], "nearest: lower_ball_l"),
        (["--toward", "wheel_l"], "--about"),
        (["--picture", "flow.jpg"], ".png or .svg"),
        (["--picture", "flow.png"], "--case NAME"),
    ],
)
def test_wrong_questions_are_answered_in_words(loadpath, cases, arguments, words):
    code, out, err = loadpath("trace", cases / "light_van_rear.toml", *arguments)
    assert (code, out) == (2, "")
    assert words in err
    assert len(err.splitlines()) == 1


@pytest.mark.parametrize("more", [[], ["--part", "cradle"]])
def test_pictures_are_drawn(loadpath, cases, tmp_path, more):
    file = tmp_path / "flow.svg"
    code, out, _ = loadpath(
        "trace", cases / "light_van_rear.toml", "--case", "braking", "--picture", file, *more
    )
    assert code == 0
    assert "picture written to" in out
    assert "<svg" in file.read_text(encoding="utf-8")


def line_of(out, *words):
    return next(line.split() for line in out.splitlines() if line.split()[: len(words)] == list(words))


def test_upper_arms_on_the_body_against_on_the_cradle(loadpath, cases, tmp_path):
    """Arms moved from the body to the cradle: the cradle takes over exactly what they gave to the body."""
    files = cases / "light_van_rear.toml", cases / "light_van_rear_b.toml"
    picture = tmp_path / "both.svg"
    code, out, _ = loadpath(
        *("compare", *files, "--case", "cornering_right", "--along", "left"),
        *("--picture", picture, "--csv", tmp_path),
    )
    assert code == 0
    arms = [line_of(out, "cornering_right", "left", f"upper_arm_{side}") for side in "lr"]
    assert [row[4] for row in arms] == ["-", "-"]
    rows = {r["by"]: r for r in rows_of(tmp_path / "share_changes.csv")}
    readme = " ".join((cases.parent / "README.md").read_text(encoding="utf-8").split())
    told = re.search(
        r"gives (\d+) % of the side force .* take (\d+) % of it back; .* mounts carry (\d+) %", readme
    )
    before = {by: float(r["share before [%]"] or "nan") for by, r in rows.items()}
    back = before["upper_arm_l"] + before["upper_arm_r"]
    found = [before["cradle"], -back, float(rows["cradle"]["share after [%]"])]
    assert found == pytest.approx([float(number) for number in told.groups()], abs=0.5)
    change = {by: float(r["change [kN]"]) for by, r in rows.items()}
    assert change["cradle"] + change["upper_arm_l"] + change["upper_arm_r"] == pytest.approx(0, abs=0.1)
    assert float(rows["net"]["share before [%]"]) == pytest.approx(100)
    said = picture.read_text(encoding="utf-8")
    assert "Before. From the wheels" in said
    assert "After. From the wheels" in said
    assert "not the same before and after" not in out


def test_other_loads_are_told_when_cases_are_compared(loadpath, cases):
    _, out, _ = loadpath("compare", cases / "light_van_rear.toml", cases / "town_car_front.toml")
    assert "Warning: loads or field are not the same before and after: static, bump" in " ".join(out.split())
    assert (
        "Not compared, only before: bump_l, bump_r, blended_braking, cornering_right, cornering_left" in out
    )


def test_what_does_not_change_is_not_listed(loadpath, cases):
    _, out, _ = loadpath("compare", cases / "light_van_rear.toml", cases / "light_van_rear.toml")
    assert out.count("(none)") == 2
    assert "35 do not change." in out


def test_a_picture_that_cannot_be_written_leaves_nothing_behind(loadpath, cases, tmp_path):
    code, out, err = loadpath(
        *("trace", cases / "light_van_rear.toml", "--case", "bump"),
        *("--picture", tmp_path / "nowhere" / "x.png", "--csv", tmp_path / "tables"),
    )
    assert (code, out) == (2, "")
    assert "cannot write" in err
    assert not (tmp_path / "tables").exists()


def test_a_softer_rear_bushing_gives_to_the_front_one(loadpath, cases, tmp_path):
    loadpath(
        *("whatif", cases / "light_van_rear.toml", "--stiffness", "lower_rear_l=0.1"),
        *("--case", "braking", "--csv", tmp_path),
    )
    rows = {r["what"]: r for r in rows_of(tmp_path / "joint_changes.csv")}
    assert float(rows["lower_rear_l"]["change [kN]"]) < 0
    assert float(rows["lower_front_l"]["vector change [kN]"]) > 0.3


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ([], "--without NAME or --stiffness NAME=FACTOR"),
        (["--without", "cradle.front_bem"], "nearest: cradle.front_beam"),
        (["--without", "cradle.front_beam"], "give it a small stiffness instead"),
        (["--without", "toe_link_l"], "knuckle_l"),
        (["--without", "knuckle_l"], "it carries wheel_l"),
        (
            ["--without", "strut_l"],
            "without the strut strut_l, in the poses of the case before: no load case passed",
        ),
        (["--stiffness", "lower_rear_l"], "expected NAME=FACTOR"),
        (["--stiffness", "lower_rear_l=-1"], "above 0"),
        (["--stiffness", "lower_ball_l=0.5"], "without rates"),
        (["--without", "upper_rear_l", "--case", "bmup"], "nearest: bump"),
        (["--without", "upper_rear_l", "--picture", "a.png"], "--case NAME"),
    ],
)
def test_changes_that_cannot_be_made(loadpath, cases, arguments, words):
    code, out, err = loadpath("whatif", cases / "light_van_rear.toml", *arguments)
    assert (code, out) == (2, "")
    assert words in err


def test_parts_that_hang_on_one_joint_once_something_is_out_are_named(loadpath, cases):
    code, out, err = loadpath("whatif", cases / "town_car_front.toml", "--without", "anti_roll_bar")
    assert (code, out) == (2, "")
    assert "--without bar_link_l --without bar_link_r" in err


def test_parts_that_turn_wildly_are_told_once_with_the_load_cases(loadpath, cases):
    """Without the arm's front bushing nearly every load case is refused, each with angles of its own."""
    code, out, _ = loadpath("whatif", cases / "town_car_front.toml", "--without", "arm_front_l")
    assert code == 0
    assert out.count("far beyond what") == 1
    assert "REFUSED, not shown as a result: static, bump, bump_one_l/r" in " ".join(out.split())


def test_mount_sheet_has_each_extreme_with_the_other_five(loadpath, cases, tmp_path):
    """Minimum and maximum over the load cases, and what acts with them, as `solve` has it case by case."""
    loadpath("mounts", cases / "light_van_rear.toml", "--csv", tmp_path)
    loadpath("solve", cases / "light_van_rear.toml", "--csv", tmp_path)
    acting = {}
    for file in tmp_path.glob("joints_*.csv"):
        for row in rows_of(file):
            acting[row["joint"], file.stem.removeprefix("joints_")] = row
    sheet = [*rows_of(tmp_path / "mount_sheet.csv"), *rows_of(tmp_path / "joint_sheet.csv")]
    columns = [c for c in sheet[0] if c[:2] in ("Fx", "Fy", "Fz", "Mx", "My", "Mz")]
    for row in sheet:
        if row["kind"] == "strut":
            continue
        there = acting[row["joint"], row["load case"]]
        assert [float(row[c]) for c in columns] == pytest.approx([float(there[c]) for c in columns], abs=1e-9)
        component, end = row["extreme"].split()
        column = next(c for c in columns if c.startswith(component))
        every = [float(r[column]) for (joint, _), r in acting.items() if joint == row["joint"]]
        assert float(row[column]) == pytest.approx(min(every) if end == "min" else max(every), abs=1e-9)
    assert len(sheet) == 12 * (14 + 21)


def run_through(folder, matrix, load_case, field):
    """Largest difference [kN] between `solve` and the wheel loads of a load case run through a matrix by hand.

    field : [g] by direction, on every mass.
    """
    amounts = {
        f"{row['wheel']} contact patch, force {way} [per kN]": float(row[f"F {way} [kN]"])
        for row in rows_of(folder / "wheel_loads.csv")
        if row["load case"] == load_case
        for way in ("forward", "left", "up")
    }
    amounts |= {f"all masses, field {way} [per g]": g for way, g in field.items()}
    there = {r["joint"]: r for r in rows_of(folder / f"joints_{load_case}.csv")}
    missed = []
    for row in rows_of(folder / f"{matrix}.csv"):
        if row["joint"] in there and row["component"].startswith("F"):
            found = sum(value * float(row[column]) for column, value in amounts.items())
            found += float(row.get("without load, given pushes and wind-up", 0.0))
            missed.append(abs(found - float(there[row["joint"]][f"{row['component']} [kN]"])))
    assert len(missed) == 3 * 8
    return max(missed)


def test_wheel_loads_run_through_the_file_give_the_mounts_forces(loadpath, cases, tmp_path):
    """The matrix as a user has it: forces at the patches, 1 g down and 1 g along in a 1 g stop. 1e-9 of 12 kN."""
    loadpath("mounts", cases / "light_van_rear.toml", "--csv", tmp_path)
    loadpath("solve", cases / "light_van_rear.toml", "--csv", tmp_path)
    assert run_through(tmp_path, "unit_loads", "braking", {"up": -1.0, "forward": 1.0}) < 1e-8


@pytest.mark.parametrize("word", ["file", "vehicle", "own"])
def test_axes_of_the_mount_sheet(loadpath, cases, word):
    code, out, _ = loadpath("mounts", cases / "light_van_rear.toml", "--joint", "toe_inner_l", "--axes", word)
    assert code == 0
    assert {"file": "Fx max", "vehicle": "F forward max", "own": "F1 max"}[word] in out
    assert "force of toe_link_l on cradle" in out


def test_the_mount_sheet_has_no_lines_of_zeros(loadpath, cases, tmp_path):
    """A bump stop pushes one way, and not at all in most load cases; the file has both ends of every component."""
    _, out, _ = loadpath("mounts", cases / "light_van_rear.toml", "--axes", "own", "--csv", tmp_path)
    lines = [line for line in out.splitlines() if re.match(r"\w+ +[FM]\d (min|max)", line)]
    assert len(lines) > 60
    assert not [line for line in lines if not re.search(r"[1-9]", line.split("  ", 2)[2])]
    assert [line.split()[1:3] for line in lines if line.startswith("bump_stop_l")] == [["F1", "max"]]
    kept = [r for r in rows_of(tmp_path / "mount_sheet.csv") if r["joint"] == "bump_stop_l"]
    assert len(kept) == 12


@pytest.mark.parametrize(
    ("arguments", "words"),
    [(["--joint", "toe_iner_l"], "nearest: toe_inner_l"), (["--axes", "vehicel"], "nearest: vehicle")],
)
def test_wrong_names_of_the_mount_sheet(loadpath, cases, arguments, words):
    code, out, err = loadpath("mounts", cases / "light_van_rear.toml", *arguments)
    assert (code, out) == (2, "")
    assert words in err


POSED = """
[load_cases.bump_up]
kind = "bump"
g = 2.0
pose = { jounce = 30 }

[load_cases.brake_down]
kind = "braking"
g = 0.8
pose = { jounce = -20 }
"""


def test_load_cases_in_several_poses(loadpath, cases, tmp_path):
    """Shares, contributions and unit loads are those of the pose that a load case acts in."""
    case = tmp_path / "posed.toml"
    case.write_text((cases / "light_van_rear.toml").read_text(encoding="utf-8") + POSED, encoding="utf-8")
    code, out, _ = loadpath("trace", case, "--part", "lower_arm_l", "--case", "bump_up", "--along", "up")
    assert code == 0
    assert "wind-up and twist of the pose" in out
    assert "bump_up, jounce 30.0 mm" in out
    code, out, _ = loadpath("mounts", case, "--csv", tmp_path / "m")
    assert code == 0
    said = (tmp_path / "m" / "statements.txt").read_text(encoding="utf-8")
    assert "Unit loads, jounce 30.0 mm: mounts" in said
    assert "Unit loads, jounce -20.0 mm: mounts" in said
    loadpath("solve", case, "--csv", tmp_path / "m")
    number = re.search(r"(unit_loads_pose_\d+)\.csv: Unit loads, jounce 30.0 mm", said)[1]
    assert run_through(tmp_path / "m", number, "bump_up", {"up": -2.0}) < 1e-8
    loadpath("trace", case, "--csv", tmp_path / "t")
    assert {r["load case"] for r in rows_of(tmp_path / "t" / "contributions.csv")} >= {
        "bump_up",
        "brake_down",
    }
