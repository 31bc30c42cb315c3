"""Shear centres and warping constants against published values."""

from __future__ import annotations

import pytest
from published.section_geometry import (
    midline_arc,
    midline_box,
    midline_channel,
    midline_i,
    midline_z,
    path,
    semicircle,
    sheet,
    solved,
)

from sections import walls_section


def test_timoshenko_gere_channel_E01():
    """Timoshenko & Gere, Theory of Elastic Stability; Megson ch. 9: e=3b^2/(h+6b);
    Cw=t b^3 h^2/12*(3b+2h)/(6b+h) (looked up)."""
    made = walls_section(midline_channel(40, 60, 2))
    assert -made.shear_centre[0] == pytest.approx(16.0, rel=1e-9)
    assert made.Cw == pytest.approx(30720000.0, rel=1e-9)


def test_timoshenko_gere_unequal_flange_i_E03():
    """Timoshenko & Gere; Roark: e=h I2/(I1+I2), Cw=h^2 I1 I2/(I1+I2) (closed form)."""
    made = walls_section(midline_i(100, 60, 120, 5, 4))
    assert made.shear_centre[1] == pytest.approx(21.31578947368421, rel=1e-9)
    assert made.Cw == pytest.approx(1065789473.6842105, rel=1e-9)


def test_timoshenko_gere_angle_E04():
    """Timoshenko & Gere (shear centre at leg intersection); Cw=t^3(a^3+b^3)/36 (closed form)."""
    legs = [(80, 0), (0, 0), (0, 50)]
    assert walls_section(path(legs, 5)).shear_centre == pytest.approx([0.0, 0.0], abs=1e-9)
    assert solved(sheet(legs, 5)).Cw == pytest.approx(2211805.5555555555, rel=0.08)


def test_timoshenko_gere_slit_tube_E06():
    """Timoshenko & Gere; Roark: e=2r(sin a-a cos a)/(a-sin a cos a),
    Cw=(2 t r^5/3)[a^3-6(sin a-a cos a)^2/(a-sin a cos a)] (from memory)."""
    made = walls_section(midline_arc(30, 2, 720))
    assert made.shear_centre[0] == pytest.approx(59.99999999999999, rel=1e-4)
    assert made.Cw == pytest.approx(393877752.58385825, rel=1e-4)
    assert pytest.approx(502.65482457436684, rel=1e-4) == made.J


def test_roark_aisi_lipped_channel_E07():
    """Roark (lipped channel e); AISI Cold-Formed Steel Design Manual Part I / Yu, Cw of C with lips (from memory)."""
    made = walls_section(path([(60, 20), (60, 0), (0, 0), (0, 100), (60, 100), (60, 80)], 2))
    assert -made.shear_centre[0] == pytest.approx(32.719167904903415, rel=1e-6)
    assert made.Cw == pytest.approx(805765230.3120357, rel=1e-6)


def test_timoshenko_gere_z_section_E09():
    """Timoshenko & Gere; AISI manual: Cw=t b^3 h^2 (b+2h)/[12(2b+h)] (from memory)."""
    made = walls_section(midline_z(50, 90, 3))
    assert made.shear_offset == pytest.approx([0.0, 0.0], abs=1e-9)
    assert made.Cw == pytest.approx(306414473.68421054, rel=1e-9)


def test_timoshenko_gere_i_section_E10():
    """Timoshenko & Gere: Cw=Iy h^2/4 (closed form)."""
    assert walls_section(midline_i(100, 100, 191.5, 8.5, 5.6)).Cw == pytest.approx(
        12988088541.666668, rel=1e-9
    )


def test_megson_boresi_slit_box_E11():
    """Classical open-section shear-flow integration (Megson/Boresi method), formula derived with sympy:
    e=b*(3*b + 2*h)/(2*(3*b + h)) (closed form)."""
    made = walls_section(path([(60, 40), (60, 80), (0, 80), (0, 0), (60, 0), (60, 40 - 1e-7)], 2))
    assert -made.shear_centre[0] == pytest.approx(39.23076923076923, rel=1e-6)


def test_megson_bruhn_box_of_unequal_webs_E12():
    """Megson / Bruhn cut-and-close method (zero twist), evaluated here (closed form)."""
    made = walls_section(midline_box(120, 80, [4, 3, 4, 6]))
    assert made.shear_centre[0] == pytest.approx(43.19999999999999, rel=1e-9)


def test_trefftz_semicircle_E15():
    """Timoshenko & Goodier, semicircular section (from memory): 8/(5 pi) r, the energy (Trefftz) shear centre,
    which Poisson's ratio does not move."""
    for nu in (0.0, 0.3):
        made = solved(semicircle(50, 240), nu)
        assert made.shear_centre[1] == pytest.approx(25.464790894703253, rel=0.0003)
