"""`loadpath section`: both theories, changes, ranges, pictures."""

import csv
import json
from typing import NamedTuple

import numpy as np
import pytest

CASE = "light_van_rear.toml"


class Told(NamedTuple):
    code: int
    out: str
    err: str
    words: str  # of the output, however its lines are broken


@pytest.fixture
def section(loadpath, cases):
    def invoke(*arguments, case=cases / CASE):
        code, out, err = loadpath("section", case, *arguments)
        return Told(code, out, err, " ".join(out.split()))

    return invoke


def rows(folder, name):
    with (folder / f"{name}.csv").open(encoding="utf-8") as stream:
        return list(csv.DictReader(stream))


def column(folder, name, heading):
    return {r["property"]: float(r[heading]) for r in rows(folder, name) if r[heading]}


def test_both_theories_and_their_difference(section):
    """A 22 x 3 tube: A = π/4 (22² − 16²) = 179.07 mm², I = π/64 (22⁴ − 16⁴) = 8282.3 mm⁴ (circles)."""
    code, out, err, _ = section("toe_tube")
    assert (code, err) == (0, "")
    lines = {line[:25].strip(): line[25:].split("  ") for line in out.splitlines()}
    assert [c.strip() for c in lines["area"] if c.strip()] == ["mm²", "179.1", "179.1", "0.0 %"]
    assert "8 282" in out
    assert "E·Iyy in E355_tube" in out
    assert "mass of members in E355_tube" in out
    assert "CAUTION" in out


def test_no_powers_of_ten_no_signs_of_rounding(section):
    for name in ("rail", "front_beam", "bar", "toe_tube"):
        out = section(name).out
        assert " e3" not in out
        assert "-90" not in out
        assert "0.000" not in out


def test_a_round_section_has_no_angle(section, tmp_path):
    section("bar", "--csv", tmp_path)
    angle = next(r for r in rows(tmp_path, "section_bar") if r["property"].startswith("angle"))
    assert angle["by outline (used)"] == ""


def test_numbers_stay_numbers_in_json(section, tmp_path):
    section("bar", "--json", tmp_path)
    told = json.loads((tmp_path / "section_bar.json").read_text(encoding="utf-8"))
    area = next(r for r in told["rows"] if r["property"] == "area")
    assert area["by outline (used)"] == pytest.approx(np.pi * 144, rel=1e-6)
    assert any("CAUTION" in s for s in told["statements"])


def test_nothing_is_drawn_unless_asked(section, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert section("rail").code == 0
    assert not list(tmp_path.iterdir())


def test_a_picture_says_when_it_takes_the_place_of_another(section, tmp_path):
    file = tmp_path / "rail.png"
    first = section("rail", "--picture", file)
    assert file.read_bytes().startswith(b"\x89PNG")
    assert "in place of" not in first.out
    assert "in place of the one there" in section("rail", "--picture", file).words


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


def stresses(folder, name, heading="value"):
    return {r["largest"]: float(r[heading]) for r in rows(folder, f"section_{name}_stress") if r[heading]}


def test_stress_under_given_forces(section, tmp_path):
    """A round bar of 24 mm: σ = N/A ± 32 M/(π d³), τ = 16 T/(π d³); von Mises sqrt(σ² + 3 τ²) at the top."""
    code, out, _, words = section(
        "bar", "--under", "N=10 kN, My=50 N*m", "--under", "T=80kN*mm", "--csv", tmp_path
    )
    assert code == 0
    assert "Under N 10 kN, T 80 N·m, My 50 N·m." in words
    found = stresses(tmp_path, "bar")
    bending, axial, shear = 32 * 5e4 / (np.pi * 24**3), 1e4 / (np.pi * 144), 16 * 8e4 / (np.pi * 24**3)
    assert found["tension σ"] == pytest.approx(axial + bending, rel=5e-3)
    assert found["compression σ"] == pytest.approx(axial - bending, rel=5e-3)
    assert found["shear stress"] == pytest.approx(shear, rel=5e-3)
    assert found["von Mises stress"] == pytest.approx(np.hypot(axial + bending, np.sqrt(3) * shear), rel=5e-3)
    assert "shear flow" not in out


def test_shear_flow_in_a_closed_wall_and_through_its_weld(section, tmp_path):
    """Bredt: q = T/(2 A_m) all round one cell; the weld carries it too. The mid-line cell of the front beam is
    84 - 2.3 wide and about 62 - 2.3 high, its corners rounded."""
    section("front_beam", "--under", "T=500 N*m", "--csv", tmp_path)
    found = stresses(tmp_path, "front_beam")
    cell = (84 - 2.3) * (62 - 2.3)
    assert found["shear flow in a wall"] == pytest.approx(5e5 / (2 * cell), rel=0.03)
    assert found["shear flow through a weld"] == pytest.approx(found["shear flow in a wall"], rel=1e-6)


@pytest.mark.parametrize(("name", "member"), [("rear_beam", "cradle.rear_beam"), ("rail", "cradle.rail_r")])
def test_stress_in_a_load_case_is_that_of_the_members(section, loadpath, cases, tmp_path, name, member):
    """The peak that `solve` finds along the member, for a twin too, whose section is the mirror image."""
    picture = tmp_path / "stress.png"
    code, _, _, words = section(
        name,
        "--under",
        "bump",
        "--member",
        member,
        "--csv",
        tmp_path,
        "--picture",
        picture,
        "--colour",
        "flow",
    )
    assert code == 0
    assert f"Under bump, {member} " in words
    assert ("mirrored to the section as drawn" in words) == member.endswith("_r")
    assert "a change of the section moves them too" in words
    assert picture.read_bytes().startswith(b"\x89PNG")
    loadpath("solve", cases / CASE, "--case", "bump", "--json", tmp_path)
    table = json.loads((tmp_path / "members_bump.json").read_text(encoding="utf-8"))["rows"]
    peak = next(r["von Mises [MPa]"] for r in table if r["member"] == member)
    assert stresses(tmp_path, name)["von Mises stress"] == pytest.approx(peak, rel=1e-6)


def test_without_a_member_the_worst_one_is_taken(section, tmp_path):
    both = []
    for member in ("cradle.rail_l", "cradle.rail_r"):
        section("rail", "--under", "bump_l", "--member", member, "--csv", tmp_path)
        both.append(stresses(tmp_path, "rail")["von Mises stress"])
    section("rail", "--under", "bump_l", "--csv", tmp_path)
    assert stresses(tmp_path, "rail")["von Mises stress"] == max(both)
    assert both[0] != pytest.approx(both[1])


def test_stress_before_and_after_a_change(section, tmp_path):
    section("bar", "--set", "diameter=26", "--under", "My=50 N*m", "--csv", tmp_path)
    ratio = stresses(tmp_path, "bar", "after / before")
    assert ratio["von Mises stress"] == pytest.approx((24 / 26) ** 3, rel=1e-3)


def test_shear_flow_of_what_has_no_thin_walls_is_told(section, tmp_path):
    file = tmp_path / "bar.png"
    code, out, err, _ = section("bar", "--under", "T=1 N*m", "--colour", "flow", "--picture", file)
    assert (code, out) == (2, "")
    assert "thin walls" in err
    assert not file.exists()


@pytest.fixture
def open_portal(cases, tmp_path):
    """The portal of channels, pushed out of its plane too; `warping` says what its ends do."""

    def make(warping=""):
        text = (cases / "portal_bracket.toml").read_text(encoding="utf-8")
        text = text.replace(
            '"solid rectangle"\nwidth = 40\nheight = 40', '"channel"\nwidth = 30\nheight = 50\ngauge = 3'
        )
        text = text.replace("force = [10000, 0, 0]", "force = [1000, 600, 0]").replace(
            'up = "left"', f'up = "left"\n{warping}'
        )
        file = tmp_path / "open.toml"
        file.write_text(text, encoding="utf-8")
        return file

    return make


def test_restrained_warping_is_in_the_stress(section, loadpath, open_portal, tmp_path):
    """The peak of the member that `solve` tells has the bimoment's stress in it."""
    case = open_portal('warping = { first = "held", last = "held" }')
    code, _, _, words = section(
        "bar", "--under", "side_push", "--member", "portal.beam", "--csv", tmp_path, case=case
    )
    assert code == 0
    assert "bimoment" in words
    assert "NOT VALID" not in words
    loadpath("solve", case, "--case", "side_push", "--json", tmp_path)
    table = json.loads((tmp_path / "members_side_push.json").read_text(encoding="utf-8"))["rows"]
    peak = next(r["von Mises [MPa]"] for r in table if r["member"] == "portal.beam")
    assert stresses(tmp_path, "bar")["von Mises stress"] == pytest.approx(peak, rel=1e-9)


def test_what_a_beam_cannot_judge_is_told_before_the_stress(section, open_portal):
    words = section("bar", "--under", "side_push", "--member", "portal.beam", case=open_portal()).words
    assert "NOT VALID, portal.beam: open section in torsion" in words
    assert words.index("NOT VALID") < words.index("Stress in bar")


def test_torsion_of_an_open_section_under_given_forces_is_not_valid(section, open_portal):
    """As in load cases: what its warping adds is not known. A force off the shear centre twists it too."""
    for forces in ("T=5 N*m", "Vz=1 kN"):
        words = section("bar", "--under", forces, case=open_portal()).words
        assert "NOT VALID: open section in torsion" in words
        assert words.index("NOT VALID") < words.index("Stress in bar")
    assert "NOT VALID" not in section("bar", "--under", "My=10 N*m", case=open_portal()).words
    assert "NOT VALID" not in section("front_beam", "--under", "T=5 N*m").words


def test_a_plot_against_several_properties_some_with_commas_in_their_names(section, tmp_path):
    file = tmp_path / "plot.svg"
    told = section(
        "front_beam", "--vary", "gauge=2:3:0.5", "--mass-against", "J,Wel y, top, area", "--picture", file
    )
    assert told.code == 0
    text = file.read_text(encoding="utf-8")
    assert all(f"<!-- {name}, mm" in text for name in ("J", "Wel y, top", "area"))


def test_ribs_across_are_no_weld():
    from loadpath.report.section import stress_table
    from sections import SHAPES, Acting
    from sections import section as made_of

    shape = SHAPES["cast crossed channel"](width=60, height=70, wall=5, base=6, pitch=60)
    told = stress_table("casting", Acting([0, 0, 0, 1e5, 0, 0], "T 100 N·m"), made_of(shape))
    assert "shear flow in a wall" in [row[0] for row in told.rows]
    assert "shear flow through a weld" not in [row[0] for row in told.rows]


def test_defaults_of_a_changed_section_are_those_of_the_file(section):
    """The side walls follow the gauge that is changed; what is listed is what the file led to."""
    assert "Defaults used: sections.*.upper_web_gauge = 2.5 mm (rail)" in section("rail").words
    changed = section("rail", "--set", "upper_gauge=2.8").words
    assert "in the file as it stands, some of which follow what is changed: sections.*.upper" in changed


def test_a_range_of_many_columns_keeps_its_digits(section):
    out = section("rail", "--vary", "upper_gauge=1.8:2.2:0.2").out
    assert {"1.800", "2.000", "2.200"} <= set(out.split())
