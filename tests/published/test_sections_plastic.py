"""Plastic moduli against published values."""

from __future__ import annotations

import pytest
from published.section_geometry import ellipse, ring, solved

from sections import SHAPES, Outline, section


def test_elementary_rectangle_G01():
    """Elementary (closed form)."""
    made = section(SHAPES["solid rectangle"](width=30, height=60))
    assert made.Wpl_y == pytest.approx(27000.0, rel=1e-9)
    assert made.Wpl_y / made.elastic_moduli["Wy_top"] == pytest.approx(1.5, rel=1e-9)


def test_elementary_circle_G02():
    """Elementary: 16/(3 pi) (closed form)."""
    made = solved(ellipse(25, 25, 1200))
    assert made.Wpl_y == pytest.approx(20833.333333333332, rel=2e-5)
    assert made.Wpl_y / made.elastic_moduli["Wy_top"] == pytest.approx(1.6976527263135501, rel=2e-5)


def test_elementary_diamond_G03():
    """Elementary: 2.0 (closed form)."""
    made = solved(Outline([(30, 0), (0, 30), (-30, 0), (0, -30)]))
    assert made.Wpl_y == pytest.approx(18000.0, rel=1e-6)
    assert made.Wpl_y / made.elastic_moduli["Wy_top"] == pytest.approx(2.0, rel=1e-6)


def test_elementary_round_tube_G05():
    """Elementary: (D^3-d^3)/6 (closed form)."""
    made = solved(ring(30, 26, 900))
    assert made.Wpl_y == pytest.approx(12565.333333333334, rel=3e-5)
    assert made.elastic_moduli["Wy_top"] == pytest.approx(9242.146707840693, rel=3e-5)


def test_equal_area_axis_tee_G06():
    """Equal-area axis (closed form): it lies inside the flange, at 102 mm, where mid-line theory would miss
    b t^2/4 of the flange."""
    tee = [(-4, 0), (4, 0), (4, 100), (50, 100), (50, 112), (-50, 112), (-50, 100), (-4, 100)]
    assert solved(Outline(tee)).Wpl_y == pytest.approx(46800.0, rel=1e-8)
