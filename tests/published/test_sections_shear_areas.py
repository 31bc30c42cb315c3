"""Energy shear areas against published values. Cowper's coefficients are another quantity and not tested, except
where they agree with the energy's."""

from __future__ import annotations

import numpy as np
import pytest
from published.section_geometry import ellipse, midline_box, midline_i, rectangle, ring, solved

from sections import Outline, Section, walls_section


def factors(made: Section) -> np.ndarray:
    """Shear areas for Vy and Vz as parts of the area."""
    return 1 / np.diag(made.shear_tensor) / made.area


@pytest.mark.parametrize(("b", "h"), [pytest.param(40, 40, id="F01"), pytest.param(20, 60, id="F02")])
def test_pilkey_rectangle_without_contraction(b, h):
    """Cowper 1966, J. Appl. Mech. 33: K=10(1+nu)/(12+11nu); energy value nu=0: 5/6 (Pilkey) (from memory)."""
    assert factors(solved(rectangle(b, h), nu=0.0))[1] == pytest.approx(0.8333333333333334, rel=1e-4)


@pytest.mark.parametrize(("nu", "k"), [(0.0, 0.8333333333333334), (0.3, 0.6939260158723904)])
def test_pilkey_renton_wide_rectangle_F03(nu, k):
    """Pilkey / Renton 1991 energy factor (nu=0 -> 5/6) (numeric reference, no publication)."""
    assert factors(solved(rectangle(60, 20), nu))[1] == pytest.approx(k, rel=1e-4)


@pytest.mark.parametrize(("nu", "k"), [(0.3, 0.8506711409395974), (0.0, 0.8571428571428571)])
def test_renton_hutchinson_circle_F04(nu, k):
    """Cowper: 6(1+nu)/(7+6nu); energy: 6(1+nu)^2/(7+14nu+8nu^2) (Renton / Hutchinson 2001) (from memory)."""
    assert factors(solved(ellipse(20, 20, 96), nu))[1] == pytest.approx(k, rel=2e-4)


def test_cowper_thick_round_tube_F06():
    """Cowper, hollow circle (from memory): K = 6(1+nu)(1+m²)²/((7+6nu)(1+m²)²+(20+12nu)m²), m = inner/outer = 0.5. It
    is 0.6202290 for nu = 0.3, as published; without contraction it is the energy's factor."""

    def cowper(nu, m):
        square = (1 + m**2) ** 2
        return 6 * (1 + nu) * square / ((7 + 6 * nu) * square + (20 + 12 * nu) * m**2)

    assert cowper(0.3, 0.5) == pytest.approx(0.6202290076335878, rel=5e-4)
    assert factors(solved(ring(30, 15, 96), nu=0.0))[1] == pytest.approx(cowper(0.0, 0.5), rel=5e-4)


def test_cowper_thin_square_tube_F07():
    """Cowper thin square tube: 20(1+nu)/(48+39nu) (from memory); the thin energy value is its nu = 0."""
    assert 1 / walls_section(midline_box(100, 100, 2)).shear_tensor[1, 1] == pytest.approx(
        333.3333333333334, rel=0.02
    )
    outer, inner = [(0, 0), (102, 0), (102, 102), (0, 102)], [(2, 2), (100, 2), (100, 100), (2, 100)]
    true = solved(Outline(outer, (inner,)), nu=0.0)
    assert 1 / true.shear_tensor[1, 1] == pytest.approx(333.3333333333334, rel=0.02)


def test_cowper_i_section_without_contraction_F09():
    """Cowper with nu=0 against energy integral (closed form)."""
    assert factors(walls_section(midline_i(80, 80, 100, 4, 3)))[1] == pytest.approx(
        0.29593260201640564, rel=1e-9
    )


def test_thin_energy_rectangular_tube_F10():
    """Thin shear-flow energy integral against FEM (numeric reference, no publication)."""
    thin = walls_section(midline_box(60, 100, 3))
    assert 1 / np.diag(thin.shear_tensor) == pytest.approx([258.74001774622894, 541.4364640883983], rel=0.03)
    true = solved(Outline([(0, 0), (63, 0), (63, 103), (0, 103)], ([(3, 3), (60, 3), (60, 100), (3, 100)],)))
    assert 1 / np.diag(true.shear_tensor) == pytest.approx([258.74001774622894, 541.4364640883983], rel=0.03)
