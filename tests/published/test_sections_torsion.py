"""Torsion constants and torsional shear against published values."""

from __future__ import annotations

import numpy as np
import pytest
from published.section_geometry import (
    ellipse,
    midline_arc,
    midline_box,
    midline_channel,
    ring,
    semicircle,
    solve,
    solved,
)

from sections import SHAPES, Outline, Section, Walls, section, walls_section


def torsional_modulus(made: Section) -> float:
    """T over the largest shear stress at the surface [mm³]."""
    return 1 / float(np.hypot(made.stress[:, 1, 3], made.stress[:, 2, 3]).max())


@pytest.mark.parametrize(
    ("b", "J", "Wt"),
    [
        pytest.param(20, 22496.0, 1664.0, id="B01"),
        pytest.param(40, 73280.0, 3936.0, id="B02"),
        pytest.param(200, 499200.0, 24960.0, id="B04"),
    ],
)
def test_timoshenko_goodier_solid_rectangles(b, J, Wt):
    """Timoshenko & Goodier, Theory of Elasticity, table of k1,k2 for bars of rectangular section (from memory)."""
    made = section(SHAPES["solid rectangle"](width=b, height=20))
    assert pytest.approx(J, rel=0.003) == made.J
    assert torsional_modulus(made) == pytest.approx(Wt, rel=0.008)


def test_timoshenko_goodier_ellipse_B05():
    """Timoshenko & Goodier; Bruhn Table A6.3 (closed form)."""
    made = solved(ellipse(40, 20, 240))
    assert pytest.approx(804247.719318987, rel=0.0005) == made.J
    assert torsional_modulus(made) == pytest.approx(25132.741228718343, rel=0.01)


def test_roark_semicircle_B07():
    """Roark, solid semicircular section; exact Saint-Venant value (pi/2-4/pi) r^4 (closed form)."""
    assert pytest.approx(1859729.8878733362, rel=0.0002) == solved(semicircle(50, 180)).J


def test_elementary_thick_round_tube_B09():
    """Elementary: exact against Bredt (closed form)."""
    assert (
        pytest.approx(1021017.6124166828, rel=0.0005)
        == section(SHAPES["round tube"](diameter=60, gauge=10)).J
    )


def test_roark_hexagon_B10():
    """Roark/Timoshenko: J=0.1150 d^4 (d across flats); = 1.035 a^4 (from memory)."""
    assert pytest.approx(838349.9999999998, rel=0.004) == solved(ellipse(30, 30, 6)).J


def test_timoshenko_megson_open_channel_C01():
    """sum b t^3/3 (Timoshenko, Megson) (closed form)."""
    made = walls_section(midline_channel(60, 100, 4))
    assert pytest.approx(4693.333333333333, rel=1e-9) == made.J
    true = Outline([(-2, -2), (60, -2), (60, 2), (2, 2), (2, 98), (60, 98), (60, 102), (-2, 102)])
    assert pytest.approx(4693.333333333333, rel=0.02) == solved(true).J


def test_numeric_reference_stocky_angle_C02():
    """Reference value by FEM; thin formula for comparison (numeric reference, no publication)."""
    angle = Outline([(0, 0), (80, 0), (80, 10), (10, 10), (10, 80), (0, 80)])
    assert pytest.approx(48670.2705486475, rel=0.003) == solved(angle).J


def test_bredt_single_cell_D01():
    """Bredt; Megson; Boresi & Schmidt ch. 6 (closed form)."""
    walls = midline_box(100, 50, 3)
    thin = solve(walls)
    assert thin.J_cells == pytest.approx(1000000.0, rel=1e-9)
    # q belongs to the cell alone; the engine's flow is that of the whole torque, open part included.
    assert thin.flow[:, :, 2] * thin.J / thin.J_cells == pytest.approx(np.full((4, 3), 0.0001), rel=1e-9)


def test_numeric_reference_thick_square_box_D02():
    """FEM reference (numeric reference, no publication)."""
    box = Outline([(0, 0), (45, 0), (45, 45), (0, 45)], ([(5, 5), (40, 5), (40, 40), (5, 40)],))
    assert pytest.approx(341335.40181953524, rel=0.003) == solved(box).J


def two_cells(left: float, right: float) -> Walls:
    nodes = [(0, 0), (left, 0), (left + right, 0), (left + right, 100), (left, 100), (0, 100)]
    return Walls(nodes, [(0, 1), (1, 2), (2, 3), (3, 4), (4, 5), (5, 0), (1, 4)], 3)


def test_sun_two_equal_cells_D03():
    """C.T. Sun, Mechanics of Aircraft Structures, Problem 3.5 (single-cell J = 800 cm4) (looked up)."""
    thin = solve(two_cells(100, 100))
    assert thin.J_cells == pytest.approx(8000000.0, rel=1e-9)
    assert thin.flow[6, 0, 2] / thin.flow[0, 0, 2] == pytest.approx(0.0, abs=1e-9)


def test_sun_two_unequal_cells_D04():
    """C.T. Sun, Problem 3.5, general two-cell equations (second case L1=5, L2=15 cm) (looked up)."""
    thin = solve(two_cells(50, 150))
    flow = thin.flow[:, 0, 2] * thin.J / thin.J_cells
    assert thin.J_cells == pytest.approx(8142857.142857144, rel=1e-9)
    assert flow[0] == pytest.approx(2.105263157894737e-05, rel=1e-9)
    assert flow[1] == pytest.approx(2.6315789473684212e-05, rel=1e-9)


def test_bredt_and_fins_closed_hat_D06():
    """Bredt + fins; geometry invented for this project (closed form). Welds at the web, as the formula has it."""
    hat = SHAPES["closed hat"](width=62, height=53, gauge=2, flange=20, radius=0, seam=0)
    assert pytest.approx(338280.36036036036, rel=0.03) == section(hat).J


def test_bredt_closed_against_slit_tube_D07():
    """Bredt / Timoshenko: J_closed/J_slit = 3 (r/t)^2 (closed form)."""
    count = 720
    angle = 2 * np.pi * np.arange(count) / count
    ring_nodes = 30 * np.column_stack([np.cos(angle), np.sin(angle)])
    closed = solve(Walls(ring_nodes, [(k, (k + 1) % count) for k in range(count)], 2))
    assert closed.J_cells / solve(midline_arc(30, 2, count)).J == pytest.approx(675.0, rel=0.01)
    outline = ring(31, 29, 160)
    assert pytest.approx(675.0, rel=0.01) == solved(outline).J / solve(midline_arc(30, 2, count)).J
