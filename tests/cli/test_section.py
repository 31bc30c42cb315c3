"""`loadpath section`: both theories, and its picture."""

import json

import numpy as np
import pytest
from section_files import rows

CASE = "light_van_rear.toml"


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
