"""Plate buckling, effective widths and notches against published values."""

import numpy as np
import pytest
from published.section_geometry import path

from sections import walls_section
from sections.notches import hole_factor
from sections.plates import (
    buckling_factor,
    buckling_stress,
    effective_ends,
    effective_section,
    reduction,
    slenderness,
)

E = 210000.0


@pytest.mark.parametrize(
    ("psi", "k"),
    [
        pytest.param(1.0, 4.000208415907898, id="I01"),
        pytest.param(0.0, 7.810514194336131, id="I02"),
        pytest.param(-1.0, 23.887466436469975, id="I03"),
        pytest.param(0.5, 5.31888954052502, id="I04"),
    ],
)
def test_en_1993_1_5_table_4_1_against_finite_strips(psi, k):
    """EN 1993-1-5 table 4.1 (from memory) against finite strips of a long plate, nu = 0.3.

    The strips were recomputed apart from this code; no publication.
    """
    assert buckling_factor(psi) == pytest.approx(k, rel=0.007)


@pytest.mark.parametrize(
    ("psi", "edge", "k"),
    [
        pytest.param(1.0, "tip", 0.42581730396918055, id="I06"),
        pytest.param(-1.0, "tip", 0.8516371858893186, id="I08"),
        pytest.param(0.0, "root", 1.7031654688063886, id="I09"),
        pytest.param(-1.0, "root", 23.85790293758687, id="I10"),
    ],
)
def test_en_1993_1_5_table_4_2_against_finite_strips(psi, edge, k):
    """EN 1993-1-5 table 4.2 (from memory) against finite strips of a long plate, nu = 0.3.

    The strips were recomputed apart from this code; no publication.
    """
    assert buckling_factor(psi, edge) == pytest.approx(k, rel=0.012)


def relative(slender, fy, k=4.0):
    return float(slenderness(fy, buckling_stress(k, slender, E)))


def test_published_plate_of_300_by_8_in_s355_I11():
    """EN 1993-1-5 4.4 (2), looked up in a worked example whose name was not kept: 0.8115, 0.8982, 269.5 mm."""
    found = relative(300 / 8, 355.0)
    rho = float(reduction(found, 1.0))
    assert found == pytest.approx(0.8115, rel=0.001)
    assert rho == pytest.approx(0.8982, rel=0.001)
    assert rho * 300 == pytest.approx(269.5, rel=0.001)
    assert float(reduction(0.8114526397607982, 1.0)) == pytest.approx(0.898243, rel=1e-6)


def test_aisi_effective_width_of_a_stiffened_element_I14():
    """AISI S100: lambda = 1.052/sqrt(k) (w/t) sqrt(f/E), rho = (1 - 0.22/lambda)/lambda (closed form); w 75, t 1,
    f 350, E 203000."""
    found = float(slenderness(350.0, buckling_stress(4.0, 75.0, 203000.0)))
    assert found == pytest.approx(1.6380720901150212, rel=0.001)
    assert 75 * float(reduction(found, 1.0)) == pytest.approx(39.636340570039174, rel=0.001)


def test_stamped_box_wall_of_s500():
    """EN 1993-1-5 equation 4.2, closed form: 75 x 1.8, fy 500, rho 0.742413."""
    assert float(reduction(relative(75 / 1.8, 500.0), 1.0)) == pytest.approx(0.742413, rel=0.001)


def test_weld_flange_of_s500():
    """EN 1993-1-5 equation 4.3, closed form: c 18, t 1.8, lambda 0.7832, rho 0.970286; whole up to c/t 9.54999."""
    assert relative(10.0, 500.0, 0.43) == pytest.approx(0.7832, rel=0.001)
    assert float(reduction(relative(10.0, 500.0, 0.43), 1.0, "tip")) == pytest.approx(0.970286, rel=0.001)
    assert float(reduction(relative(9.53, 500.0, 0.43), 1.0, "tip")) == 1.0
    assert float(reduction(relative(9.57, 500.0, 0.43), 1.0, "tip")) < 1.0


def test_elastic_buckling_stress():
    """EN 1993-1-5 Annex A (from memory): 190000 (t/b)² k with a rounded constant, b/t 41.67, k 4, 437.76 MPa."""
    assert buckling_stress(4.0, 125 / 3, E) == pytest.approx(190000 * 4.0 * (3 / 125) ** 2, rel=0.002)


def test_effective_width_of_a_plate_is_shared_as_the_table_has_it():
    """EN 1993-1-5 tables 4.1 and 4.2 (from memory): 2/(5 - psi), 0.4 and 0.6 of b_c, and from the held edge."""
    assert effective_ends(0.8, 1.0) == pytest.approx((0.4, 0.6))
    low, high = effective_ends(0.8, 0.5)
    assert (low, 1 - high) == pytest.approx((0.8 * 2 / 4.5, 0.8 * 2.5 / 4.5))
    low, high = effective_ends(0.8, -1.0)
    assert (low, 0.5 - high) == pytest.approx((0.4 * 0.4, 0.6 * 0.4))
    assert effective_ends(0.8, 0.2, "tip") == pytest.approx((0.0, 0.2))
    assert effective_ends(0.8, 0.2, "root") == pytest.approx((0.8, 1.0))


def test_square_box_in_compression():
    """A_eff of four plates of the published 300 x 8 in S355: each keeps 269.5 mm, so 4 x 269.5 x 8 mm²."""
    box = walls_section(path([(0, 0), (300, 0), (300, 300), (0, 300)], 8.0, closed=True))
    found = effective_section(box.midline, (-1.0, 0.0, 0.0), 355.0)
    assert found.area == pytest.approx(4 * 269.5 * 8, rel=0.001)
    assert found.shift == pytest.approx([0, 0], abs=1e-9)
    assert found.factor == pytest.approx(found.area * 355.0, rel=1e-9)
    assert len(found.lost) == 4


def test_box_in_bending_by_hand():
    """300 x 300 x 8, S355, bent about y. By hand: the top keeps 0.8982 x 300 mm, both webs stay whole (psi near -1,
    k 23.9, lambda 0.332), so the centroid drops by (300 - 269.5) 8 150/A_eff."""
    box = walls_section(path([(0, 0), (300, 0), (300, 300), (0, 300)], 8.0, closed=True))
    found = effective_section(box.midline, (0.0, -1.0, 0.0), 355.0)
    lost = (300 - 269.5) * 8
    area = 4 * 300 * 8 - lost
    drop = lost * 150 / area
    inertia = 2 * 8 * 300**3 / 12 + 2 * 300 * 8 * 150**2 - lost * 150**2 - area * drop**2
    assert found.area == pytest.approx(area, rel=0.001)
    assert found.shift == pytest.approx([0, -drop], rel=0.005, abs=1e-6)
    assert found.inertia[1, 1] == pytest.approx(inertia, rel=0.001)
    assert found.factor == pytest.approx(355.0 * inertia / (150 + drop), rel=0.002)


@pytest.mark.parametrize(
    ("ratio", "formula", "howland"),
    [
        pytest.param(0.1, 2.72207, 2.72, id="L01"),
        pytest.param(0.3, 2.34909, 2.36, id="L02"),
        pytest.param(0.5, 2.15875, 2.16, id="L03"),
    ],
)
def test_howland_round_hole_in_a_strip(ratio, formula, howland):
    """Howland (1930) by Peterson and Roark (from memory): on the net section."""
    assert hole_factor(ratio) == pytest.approx(formula, rel=1e-5)
    assert hole_factor(ratio) == pytest.approx(howland, rel=0.012)


def test_hole_wider_than_the_strip_is_refused():
    with pytest.raises(ValueError, match="diameter"):
        hole_factor(np.array([0.2, 1.0]))
