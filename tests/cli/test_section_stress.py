"""`loadpath section`: stress and shear flow under given forces and in load cases."""

import json

import numpy as np
import pytest
from section_files import rows

CASE = "light_van_rear.toml"


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


def test_ribs_across_are_no_weld():
    from loadpath.report.section import stress_table
    from sections import SHAPES, Acting
    from sections import section as made_of

    shape = SHAPES["cast crossed channel"](width=60, height=70, wall=5, base=6, pitch=60)
    told = stress_table("casting", Acting([0, 0, 0, 1e5, 0, 0], "T 100 N·m"), made_of(shape))
    assert "shear flow in a wall" in [row[0] for row in told.rows]
    assert "shear flow through a weld" not in [row[0] for row in told.rows]
