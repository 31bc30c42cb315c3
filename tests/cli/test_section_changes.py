"""`loadpath section`: changes by hand and ranges of a dimension."""

import numpy as np
import pytest
from section_files import column, rows

CASE = "light_van_rear.toml"


def test_set_tells_before_after_and_ratio(section, tmp_path):
    """A bar: area goes with d², bending with d⁴; 24 to 26 mm gives 1.1736 and 1.3774."""
    code, out, _, _ = section("bar", "--set", "diameter=26", "--csv", tmp_path)
    assert code == 0
    assert "Section bar with diameter=26" in out
    ratio = column(tmp_path, "section_bar_changed", "after / before")
    for name in ("area", "mass in 51CrV4_d40", "mass of members in 51CrV4_d40", "shear area y"):
        assert ratio[name] == pytest.approx((26 / 24) ** 2, rel=1e-6)
    for name in ("Iyy", "J", "E·Iyy in 51CrV4_d40", "G·J in 51CrV4_d40"):
        assert ratio[name] == pytest.approx((26 / 24) ** 4, rel=1e-6)
    for name in ("Wel y, top", "Wpl z"):
        assert ratio[name] == pytest.approx((26 / 24) ** 3, rel=1e-6)
    assert "centroid z" not in ratio


def test_mass_of_members_is_area_times_density_times_their_length(section, tmp_path, cases):
    from loadpath.case import read_case

    section("toe_tube", "--csv", tmp_path)
    used = column(tmp_path, "section_toe_tube", "by outline (used)")
    points = read_case(cases / CASE).model.points
    length = np.linalg.norm(points["toe_outer_l"] - points["toe_inner_l"])
    per_metre = np.pi / 4 * (22**2 - 16**2) * 7850e-6
    assert used["mass in E355_tube"] == pytest.approx(per_metre, rel=1e-4)
    assert used["mass of members in E355_tube"] == pytest.approx(2 * per_metre * length / 1e3, rel=1e-4)


def test_units_are_those_of_the_case_file(section, tmp_path):
    section("front_beam", "--set", "gauge=0.11 in", "--csv", tmp_path / "inch")
    section("front_beam", "--set", "gauge = 2.794 mm", "--csv", tmp_path / "mm")
    inch, mm = (column(tmp_path / u, "section_front_beam_changed", "after") for u in ("inch", "mm"))
    assert inch == pytest.approx(mm)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--set", "guage=2.8"), ("sections.front_beam.guage", "unknown key", "nearest: gauge")),
        (("--set", "gauge=2.8 kN"), ("is a force", "a length")),
        (("--set", "gauge=2,8"), ("a decimal point, no comma",)),
        (("--set", "gauge"), ("is not a change", "gauge=2.8")),
        (("--set", "gauge=-1"), ("sections.front_beam.gauge", "above 0 mm")),
        (("--set", "gauge=60"), ("under 42 mm",)),
        (("--set", "gauge=2", "--set", "gauge=3"), ("is set twice",)),
        (("--set", "guage=2", "--set", "heigth=60"), ("2 mistakes", "nearest: gauge", "nearest: height")),
        (("--vary", "guage=1:2:0.5"), ("nearest: gauge",)),
        (("--vary", "gauge=1:2"), ("is not a range", "first:last:step")),
        (("--vary", "gauge=2:1:0.5"), ("leads nowhere",)),
        (("--vary", "gauge=1:2:0"), ("leads nowhere",)),
        (("--vary", "gauge=1:2:1e-6"), ("at most 500",)),
        (("--vary", "gauge=1 kN:2:0.5"), ("is a force",)),
        (("--vary", "gauge=2:60:10"), ("--vary gauge = 22 mm", "plate_gauge", "under 18 mm")),
        (("--vary", "gauge=2:3:0.5", "--mass-against", "Iy"), ("no property 'Iy'", "nearest: Iyy")),
        (("--vary", "gauge=2:3:0.5", "--mass-against", "Wel y"), ("Wel y, top; Wel y, bottom; ",)),
        (("--mass-against", "Iyy"), ("--vary",)),
        (("--set", "gauge=2", "--picture", "a/b.png"), ("there is no folder",)),
        (("--picture", "a.gif"), (".png or .svg",)),
        (("--under", "bum"), ("no load case 'bum'", "nearest: bump")),
        (("--under", "bump", "--member", "cradle.frontbeam"), ("nearest: cradle.front_beam",)),
        (("--under", "bump, static"), ("one load case, or forces",)),
        (("--under", "Mx=1"), ("no section force 'Mx'", "N, Vy, Vz, T, My, Mz")),
        (("--under", "My=1 kN"), ("is a force", "a moment")),
        (("--under", "Vz=0"), ("nothing acts",)),
        (("--under", "Vz=1,Vz=2"), ("stands twice",)),
        (("--under", "Vz=1", "--member", "cradle.front_beam"), ("goes with a load case",)),
        (("--under", "Vz=1", "--vary", "gauge=2,3"), ("not with a range",)),
        (("--under", "Vz=1", "--colour", "stres"), ("no colour 'stres'", "nearest: stress")),
        (("--colour", "stress"), ("needs --under",)),
        (("--member", "cradle.front_beam"), ("needs --under",)),
    ],
)
def test_what_cannot_be_done_is_told_and_nothing_is_written(section, tmp_path, monkeypatch, arguments, words):
    monkeypatch.chdir(tmp_path)
    more = () if "--picture" in arguments else ("--picture", "p.png")
    code, out, err, _ = section("front_beam", *arguments, *more, "--csv", "c", "--json", "j")
    assert (code, out) == (2, "")
    for word in words:
        assert word in err
    assert not list(tmp_path.iterdir())


def test_an_unknown_section_names_the_nearest(section):
    code, _, err, _ = section("frontbeam", "--set", "gauge=2")
    assert code == 2
    assert "nearest: front_beam" in err


def test_vary_gives_a_table_and_a_plot(section, tmp_path):
    picture = tmp_path / "over.png"
    code, out, _, _ = section(
        "bar",
        "--vary",
        "diameter=20:26:2",
        "--mass-against",
        "Wpl y",
        "--picture",
        picture,
        "--csv",
        tmp_path,
    )
    assert code == 0
    assert "As it stands, diameter is 24 mm." in out
    assert picture.read_bytes().startswith(b"\x89PNG")
    found = rows(tmp_path, "section_bar_over_diameter")
    assert [float(r["diameter [mm]"]) for r in found] == [20, 22, 24, 26]
    for r in found:
        d = float(r["diameter [mm]"])
        assert float(r["Iyy [mm⁴]"]) == pytest.approx(np.pi * d**4 / 64, rel=5e-3)
        assert float(r["Wpl y [mm³]"]) == pytest.approx(d**3 / 6, rel=5e-3)
        assert float(r["mass in 51CrV4_d40 [kg/m]"]) == pytest.approx(np.pi * d**2 / 4 * 7850e-6, rel=2e-3)


def test_vary_takes_values_one_by_one_several_keys_and_a_change_before(section, tmp_path):
    code, out, _, _ = section(
        "rail",
        "--set",
        "radius=5",
        "--vary",
        "upper_gauge,lower_gauge=2, 2.5,0.11 in",
        "--csv",
        tmp_path,
    )
    assert code == 0
    found = rows(tmp_path, "section_rail_over_upper_gauge_lower_gauge")
    assert [float(r["upper_gauge,lower_gauge [mm]"]) for r in found] == [2, 2.5, 2.794]
    section(
        "rail", "--set", "radius=5", "--set", "upper_gauge=2", "--set", "lower_gauge=2", "--csv", tmp_path
    )
    one = column(tmp_path, "section_rail_changed", "after")
    assert float(found[0]["Iyy [mm⁴]"]) == pytest.approx(one["Iyy"])
    assert "Wel z, left" not in out  # the same as on the right


def test_a_gauge_outside_its_grade_is_told_before_the_numbers(section):
    out = section("front_beam", "--set", "gauge=3.2").words
    assert out.index("strength and elongation of S420MC are those for 1.5 to 2.99 mm") < out.index("property")


def test_points_of_a_trace_cannot_be_varied(loadpath, cases, tmp_path):
    (tmp_path / "box.csv").write_text("y,z,thickness\n0,0,2\n60,0,2\n60,40,2\n0,40,2\n", encoding="utf-8")
    text = (cases / "portal_bracket.toml").read_text(encoding="utf-8")
    text += '\n[sections.scan]\nshape = "traced"\nfile = "box.csv"\nclosed = true\n'
    case = tmp_path / "traced.toml"
    case.write_text(text, encoding="utf-8")
    code, out, _ = loadpath("section", case, "scan")
    assert code == 0
    words = " ".join(out.split())
    assert "No member of the case uses this section" in words
    assert "assumed steel, 7850 kg/m³, E 210000 MPa" in words
    assert "one theory only" in words
    for change in (("--set", "file=other.csv"), ("--vary", "file=1:2:1")):
        code, out, err = loadpath("section", case, "scan", *change)
        assert (code, out) == (2, "")
        assert "names measured points" in err
    code, _, err = loadpath("section", case, "scan", "--vary", "kind=1:2:1")
    assert code == 2
    assert "it is no number" in err
    assert loadpath("section", case, "scan", "--set", "closed=false").code == 0


def test_a_plot_against_several_properties_some_with_commas_in_their_names(section, tmp_path):
    file = tmp_path / "plot.svg"
    told = section(
        "front_beam", "--vary", "gauge=2:3:0.5", "--mass-against", "J,Wel y, top, area", "--picture", file
    )
    assert told.code == 0
    text = file.read_text(encoding="utf-8")
    assert all(f"<!-- {name}, mm" in text for name in ("J", "Wel y, top", "area"))


def test_defaults_of_a_changed_section_are_those_of_the_file(section):
    """The side walls follow the gauge that is changed; what is listed is what the file led to."""
    assert "Defaults used: sections.*.upper_web_gauge = 2.5 mm (rail)" in section("rail").words
    changed = section("rail", "--set", "upper_gauge=2.8").words
    assert "in the file as it stands, some of which follow what is changed: sections.*.upper" in changed


def test_a_range_of_many_columns_keeps_its_digits(section):
    out = section("rail", "--vary", "upper_gauge=1.8:2.2:0.2").out
    assert {"1.800", "2.000", "2.200"} <= set(out.split())
