"""Areas, second moments, moduli and tabulated profiles against published values.

The cases' x, y (and the standards' table axes y-y, z-z) are y, z here: Ix is Iyy, Iy is Izz, Ixy is Iyz.
"""

from __future__ import annotations

import numpy as np
import pytest
from published.section_geometry import filleted_i, path, rounded_box, semicircle, sheet, solved

from sections import SHAPES, Outline, Section, compare, section, walls_section


def near(expected, rel):
    return pytest.approx(expected, rel=rel)


def torsional_modulus(made: Section) -> float:
    return 1 / float(np.hypot(made.stress[:, 1, 3], made.stress[:, 2, 3]).max())


def test_beer_johnston_z_section_A01():
    """Beer & Johnston, Vector Mechanics: Statics, Sample Problems 9.6/9.7 (Z 3x4x1/2 in) (from memory)."""
    made = solved(
        Outline(
            [
                (-69.85, 38.1),
                (-6.35, 38.1),
                (-6.35, -50.8),
                (69.85, -50.8),
                (69.85, -38.1),
                (6.35, -38.1),
                (6.35, 50.8),
                (-69.85, 50.8),
            ]
        )
    )
    stiff, soft, angle = made.principal
    assert made.Iyy == near(4320482.197728, 0.003)
    assert made.Izz == near(2901133.0364319994, 0.003)
    assert made.Iyz == near(-2730478.1519359993, 0.003)
    assert stiff == near(6430775.525519998, 0.003)
    assert soft == near(789591.0143631998, 0.003)
    assert np.degrees(angle) == near(37.7, 0.003)


def test_timoshenko_semicircle_A02():
    """Timoshenko, Strength of Materials, appendix; any handbook (closed form)."""
    made = solved(semicircle(50, 720))
    assert made.area == near(3926.9908169872415, 2e-5)
    assert made.centroid[1] == near(21.22065907891938, 2e-5)
    assert made.Iyy == near(685981.0040404112, 2e-5)
    assert made.Izz == near(2454369.2606170257, 2e-5)


def test_en_10365_ipe_200_K01():
    """EN 10365:2017 / Euronorm 19-57 tables (A, Iy, Wel, Wpl looked up; Iz, It, Iw from memory)."""
    made = solved(filleted_i(200, 100, 5.6, 8.5, 12, 16))
    assert made.area == near(2848.0, 0.003)
    assert made.Iyy == near(19430000.0, 0.003)
    assert made.elastic_moduli["Wy_top"] == near(194300.0, 0.003)
    assert made.Wpl_y == near(220600.0, 0.003)
    assert made.Izz == near(1424000.0, 0.003)
    assert made.Wpl_z == near(44610.0, 0.003)
    assert near(69800.0, 0.03) == made.J
    assert made.Cw == near(12990000000.0, 0.025)


def test_din_1026_upe_200_K02():
    """DIN 1026-2 / EN 10365 table UPE 200 (looked up)."""
    angle = np.linspace(1.0, 1.5, 17) * np.pi
    fillet = np.column_stack([6 + 13 + 13 * np.cos(angle), 11 + 13 + 13 * np.sin(angle)])
    lower = np.vstack([fillet, [(80, 11), (80, 0), (0, 0)]])
    made = solved(Outline(np.vstack([lower, lower[::-1] * [1, -1] + [0, 200]])))
    assert made.area == near(2900.0, 0.006)
    assert made.Iyy == near(19100000.0, 0.006)
    assert made.elastic_moduli["Wy_top"] == near(191000.0, 0.006)
    assert made.Izz == near(1870000.0, 0.006)
    assert made.elastic_moduli["Wz_right"] == near(34500.0, 0.006)
    assert made.centroid[0] == near(25.6, 0.006)
    assert made.Wpl_y / 2 == near(110000.0, 0.006)
    assert -made.shear_offset[0] == near(54.1, 0.035)


def test_en_10219_rhs_60x40x3_cold_formed_K04():
    """EN 10219-2 table (ro=2t, ri=t for t<=6) (looked up)."""
    both = compare(SHAPES["rectangular tube"](width=40, height=60, gauge=3, radius=3))
    for made in (both.outline, both.walls):
        assert made.area == near(541.0, 0.006)
        assert made.Iyy == near(253800.0, 0.006)
        assert made.elastic_moduli["Wy_top"] == near(8460.0, 0.006)
        assert made.Wpl_y == near(10530.0, 0.006)
        assert made.Izz == near(134400.0, 0.006)
        assert made.elastic_moduli["Wz_right"] == near(6720.0, 0.006)
        assert made.Wpl_z == near(7940.0, 0.006)
        assert near(292800.0, 0.006) == made.J
    # The table's Wt has nominal wall shear, without the peak at the inside of the corners.
    assert torsional_modulus(both.walls) == near(11170.0, 0.006)


def test_en_10219_shs_100x5_cold_formed_K07():
    """EN 10219-2 table, from memory."""
    both = compare(SHAPES["rectangular tube"](width=100, height=100, gauge=5, radius=5))
    for made in (both.outline, both.walls):
        assert made.area == near(1836.0, 0.006)
        assert made.Iyy == near(2710000.0, 0.006)
        assert made.elastic_moduli["Wy_top"] == near(54200.0, 0.006)
        assert made.Wpl_y == near(64600.0, 0.006)
        assert near(4410000.0, 0.006) == made.J


def test_en_10210_shs_100x5_hot_finished_K08():
    """EN 10210-2 table, from memory (ro=1.5t, ri=1.0t). It, Wt by the annex formula, that is on the mid-line with
    its mean corner radius; the true section's It is 1.7 % more."""
    true = solved(rounded_box(100, 100, 5, 7.5, 5, 12))
    assert true.area == near(1870.0, 0.006)
    assert true.Iyy == near(2790000.0, 0.006)
    assert true.elastic_moduli["Wy_top"] == near(55900.0, 0.006)
    assert true.Wpl_y == near(66400.0, 0.006)
    thin = section(SHAPES["rectangular tube"](width=100, height=100, gauge=5, radius=6.25 - 2.5))
    assert near(4390000.0, 0.006) == thin.J
    assert torsional_modulus(thin) == near(81800.0, 0.006)


def test_en_10210_chs_60_3x4_K10():
    """EN 10210-2 / EN 10219-2 table, from memory."""
    made = section(SHAPES["round tube"](diameter=60.3, gauge=4))
    assert made.area == near(707.0, 0.004)
    assert made.Iyy == near(282000.0, 0.004)
    assert made.elastic_moduli["Wy_top"] == near(9340.0, 0.004)
    assert made.Wpl_y == near(12700.0, 0.004)
    assert near(563000.0, 0.004) == made.J
    assert torsional_modulus(made) == near(18700.0, 0.004)


def test_en_1993_1_3_rounded_lipped_channel_K11():
    """EN 1993-1-3 5.1(4): delta=0.43 sum(r phi/90)/sum b_p; A=A_sh(1-d), I=I_sh(1-2d), Iw=Iw_sh(1-4d) (from
    memory)."""
    both = compare(SHAPES["lipped channel"](width=62, height=102, lip=21, gauge=2, radius=3))
    for made in (both.walls, both.outline):
        assert made.area == near(509.2940683340253, 0.03)
        assert made.Iyy == near(860384.1435323028, 0.03)
        assert made.Izz == near(286761.934225648, 0.03)
        assert made.Cw == near(739407788.0463525, 0.045)


def test_ungureanu_ruff_lipped_channel_gross_I15():
    """EN 1993-1-3 worked example "effective properties of a cold-formed lipped channel", Ungureanu & Ruff 2005,
    checked by Dubina (z_b1=96.88 mm from the 72 mm flange) (looked up). Sharp corners."""
    made = walls_section(path([(64, 178.2), (64, 198), (0, 198), (0, 0), (72, 0), (72, 19.8)], 1.96))
    assert made.centroid[1] == near(96.88, 0.0002)
    assert made.area == near(732.2560000000001, 0.0002)


HAT = [(-20, 0), (0, 0), (0, 60), (50, 60), (50, 25), (70, 25)]


@pytest.mark.parametrize("engine", ["walls", "outline"])
def test_numeric_reference_unequal_hat_E17(engine):
    """2-D FEM reference; geometry invented (numeric reference, no publication), nu = 0."""
    made = walls_section(path(HAT, 2.0)) if engine == "walls" else solved(sheet(HAT, 2.0), nu=0.0)
    stiff, soft, angle = made.principal
    assert made.area == near(370.00000000000074, 0.03)
    assert made.centroid == near([21.62162162162162, 36.68918918918919], 0.03)
    assert made.Iyy == near(164777.5900900904, 0.03)
    assert made.Izz == near(236090.36036036082, 0.03)
    assert made.Iyz == near(65211.486486486625, 0.03)
    assert stiff == near(274757.0252883273, 0.03)
    assert soft == near(126110.92516212394, 0.03)
    assert np.degrees(angle) == near(-59.33449458706016, 0.03)
    assert near(495.04329048335785, 0.03) == made.J
    assert made.shear_centre == near([16.13808156089548, 77.15043348892354], 0.03)
    assert 1 / made.shear_tensor[0, 0] == near(78.61674239212239, 0.03)
    assert 1 / made.shear_tensor[1, 1] == near(159.98383602250942, 0.03)
    assert made.Cw == near(40819325.67035069, 0.03)


def test_numeric_reference_cast_i_C04():
    """2-D FEM reference; geometry invented (numeric reference, no publication), nu = 0.3.

    The reference's fillets are ten inscribed chords: its area is 1375.764, with true arcs it is 1374.938.
    """
    made = solved(filleted_i(60, 50, 8, 10, 8, 10), nu=0.3)
    assert made.area == near(1375.7638847485043, 0.003)
    assert made.Iyy == near(694593.5599474801, 0.003)
    assert near(52500.37459491356, 0.003) == made.J
    assert made.Cw == near(116911097.32466441, 0.003)
    assert 1 / made.shear_tensor[1, 1] == near(463.7030925120209, 0.003)
