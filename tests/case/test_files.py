"""The files of a case, and what is said where they cannot be read."""

from __future__ import annotations

import pytest
from case_files import GOOD, edited, mistakes, read

from loadpath.case import CaseError, read_case

POINTS = """name,x,y,z
# measured on the table
ball_l, 4, 742, "214 ± 0.5"
upper_l,-8,700,488

toe_out_l,-176,738,252 mm
"""
FROM_CSV = edited(
    ("ball_l = [4, 742, 214]\n", ""),
    ("upper_l = [-8, 700, 488]\n", ""),
    ("toe_out_l = [-176, 738, 252]\n", ""),
    ('title = "small"', 'points_file = "points.csv"'),
)


def test_hardpoints_from_a_csv_are_mirrored_like_all_others():
    case, base = read(FROM_CSV, points_csv=POINTS), read(GOOD)
    assert {n: p.tolist() for n, p in case.model.points.items()} == {
        n: p.tolist() for n, p in base.model.points.items()
    }
    assert case.tolerances == {"points.ball_l[2]": 0.5, "points.ball_r[2]": 0.5}
    assert case.title == "case"


def test_a_csv_in_a_folder_below(tmp_path):
    (tmp_path / "data").mkdir()
    (tmp_path / "data" / "points.csv").write_text(POINTS, encoding="utf-8")
    (tmp_path / "case.toml").write_text(FROM_CSV.replace("points.csv", "data/points.csv"), encoding="utf-8")
    assert len(read_case(str(tmp_path / "case.toml")).model.points) == 24


@pytest.mark.parametrize(
    ("old", "new", "path", "what"),
    [
        ("name,x,y,z", "name;x;y;z", "line 1", "the columns are 'name;x;y;z'"),
        ("upper_l,-8,700,488", "upper_l,-8,700", "points.upper_l", "has 2 entries"),
        ("upper_l,-8,700,488", "ball_l,-8,700,488", "line 4", "'ball_l' stands twice"),
        ("upper_l,-8,700,488", 'upper_l,-8,"700,488', "line 4", "not valid CSV"),
        ("upper_l,-8,700,488", "upper_l,-8,seven,488", "points.upper_l[1]", "'seven' is not a number"),
        ("upper_l,-8,700,488", "upper_l,-8,nan,488", "points.upper_l[1]", "nan is not a usable number"),
        ("upper_l,-8,700,488", "upper_l,-8,700 kN,488", "points.upper_l[1]", "is a force"),
        ("upper_l,-8,700,488", "Upper,-8,700,488", "points.Upper", "cannot be a name"),
        ("upper_l,-8,700,488", "wheel_l,0,1,2", "points.wheel_l", "stands in points.csv too"),
    ],
)
def test_mistakes_of_the_csv(old, new, path, what):
    found = mistakes(FROM_CSV, points_csv=POINTS.replace(old, new))
    match = [m for m in found if m.path == path and what in m.what]
    assert match, "\n".join(map(str, found))
    assert match[0].file == ("case.toml" if "wheel_l" in path else "points.csv")


@pytest.mark.parametrize(
    ("text", "path", "what"),
    [
        ("format = 1\na = \n", "line 2, column 5", "invalid value"),
        ("format = 1\nformat = 1\n", "line 2", "overwrite"),
        ("a = [", "end of the file", "invalid value"),
        ("a = 2020-13-45", "line 1", "expected newline"),
        ("a = " + "[" * 3000, "", "nested too deeply"),
        ("a = " + "9" * 5000, "", "digits"),
    ],
)
def test_no_toml(text, path, what):
    (mistake,) = mistakes(text)
    assert mistake.path.startswith(path)
    assert mistake.what.startswith("not valid TOML")
    assert what in mistake.what


def test_not_utf_8(tmp_path):
    (tmp_path / "case.toml").write_bytes(b'format = 1\ntitle = "\xe4"\n')
    with pytest.raises(CaseError) as caught:
        read_case(tmp_path / "case.toml")
    (mistake,) = caught.value.mistakes
    assert (mistake.path, mistake.what) == ("line 2", "is not UTF-8 text")


def test_a_missing_file_names_its_neighbour(tmp_path):
    (tmp_path / "cradle.toml").write_text("")
    with pytest.raises(CaseError) as caught:
        read_case(tmp_path / "cradel.toml")
    (mistake,) = caught.value.mistakes
    assert mistake.what == "there is no such file"
    assert mistake.nearest == "cradle.toml"


@pytest.mark.parametrize("name", ["", "no/such/folder/case.toml", "a\0b"])
def test_what_is_no_file(tmp_path, name):
    with pytest.raises(CaseError):
        read_case(tmp_path / name)


def test_an_empty_file_lacks_its_format():
    (mistake,) = mistakes("")
    assert (mistake.path, mistake.what) == ("format", "is missing")


def test_a_section_traced_from_a_csv_beside_the_case():
    text = edited(
        ('shape = "channel"\nwidth = 40\nheight = 60\ngauge = 2.9', 'shape = "traced"\nfile = "trace.csv"')
    )
    trace = "y,z,thickness\n40,1.5,3\n1.5,1.5,3\n1.5,58.5,3\n40,58.5,3\n"
    case = read(text, trace_csv=trace)
    left, right = (case.model.parts[p].members[0].sections[0][0] for p in ("arm_l", "arm_r"))
    assert left.area == pytest.approx(3 * (38.5 + 57 + 38.5), rel=0.03)
    assert right.shear_centre[0] == -left.shear_centre[0]
    (mistake,) = mistakes(text, trace_csv=trace.replace("40,58.5,3", "40,seven,3"))
    assert (mistake.file, mistake.path) == ("trace.csv", "sections.leg.file, line 5, z")
    assert (mistake.what, mistake.expected) == ("is 'seven'", "a number")
    (mistake,) = mistakes(text)
    assert mistake.path == "sections.leg.file"
