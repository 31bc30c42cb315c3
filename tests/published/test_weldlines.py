"""Weld groups as lines: O. W. Blodgett, Design of Welded Structures, table "properties of weld treated as line"; the
same formulas in Unsworth, Design of Modern Steel Railway Bridges, table 9.1. All per millimetre of throat."""

import numpy as np
import pytest

from sections.weldlines import WeldLines, fillet_throat, weld_round

B, D = 60.0, 100.0
LEFT, RIGHT = [[0, 0], [0, D]], [[B, 0], [B, D]]
LOW, HIGH = [[0, 0], [B, 0]], [[0, D], [B, D]]


def lines(*segments, throat=1.0):
    ends = np.array(segments, dtype=float)
    return WeldLines(ends[:, 0], ends[:, 1], throat)


@pytest.mark.parametrize(
    ("segments", "modulus", "polar"),
    [
        pytest.param([LEFT], 1666.6666666666667, 83333.33333333333, id="J01"),
        pytest.param([LEFT, RIGHT], 3333.3333333333335, 346666.6666666667, id="J02"),
        pytest.param([LOW, HIGH], 6000.0, 336000.0, id="J03"),
        pytest.param([LEFT, HIGH], 5666.666666666667, 228833.33333333334, id="J04"),
        pytest.param([LEFT, RIGHT, LOW, HIGH], 9333.333333333334, 682666.6666666666, id="J07"),
    ],
)
def test_blodgett_table(segments, modulus, polar):
    group = lines(*segments)
    assert group.moduli["top"] == pytest.approx(modulus, rel=1e-9)
    assert pytest.approx(polar, rel=1e-9) == group.J


def test_blodgett_angle_at_the_other_end_J04():
    group = lines(LEFT, HIGH)
    assert group.moduli["bottom"] == pytest.approx(2575.7575757575755, rel=1e-9)
    assert group.centroid[0] == pytest.approx(11.25, rel=1e-9)


def test_blodgett_circle_J08():
    """From memory; 2000 chords."""
    ring = weld_round(60.0, count=2000)
    assert ring.moduli["top"] == pytest.approx(2827.4333882308138, rel=1e-5)
    assert pytest.approx(169646.00329384883, rel=1e-5) == ring.J


def test_fillet_weld_across_the_load_by_en_1993_1_8():
    """EN 1993-1-8 4.5.3.2, closed form: F = 10 kN across, a = 5, L = 100: sqrt(2) F/(a L) = 28.2843 MPa, with
    sigma and tau across the throat F/(sqrt(2) a L)."""
    weld = lines([[0, 0], [100, 0]], throat=5.0)
    for forces in ([10000.0, 0, 0, 0, 0, 0], [0, 0, 10000.0, 0, 0, 0]):
        for side in (1, -1):
            across, slip, along = np.moveaxis(fillet_throat(weld.stress(forces), side), 2, 0)
            assert np.abs(across) == pytest.approx(np.full((1, 2), 10000 / (np.sqrt(2) * 500)))
            assert np.sqrt(across**2 + 3 * (slip**2 + along**2)) == pytest.approx(
                np.full((1, 2), 28.2843), rel=1e-5
            )


def test_eccentric_load_on_two_lines():
    """Elastic method of every handbook, by hand: two vertical lines 60 apart, 100 long, 10 kN down at 150 mm from
    their middle. T = 1.5e6 over J = 346666.7 gives 216.3 N/mm up to down at the ends' height and 129.8 across."""
    group = lines(LEFT, RIGHT)
    line_force = group.stress([0, 0, -10000.0, 0, 0, 0], at=(30 + 150, 50))
    polar = 346666.6666666667
    along = -10000 / 200 - 1.5e6 * 30 / polar  # right-hand weld, drawn upward
    assert line_force[1, :, 0] == pytest.approx([along, along])
    assert np.abs(line_force[1, :, 1]) == pytest.approx([1.5e6 * 50 / polar] * 2)
    assert np.hypot(*line_force[1, 1, :2]) == pytest.approx(np.hypot(179.807, 216.346), rel=1e-5)
