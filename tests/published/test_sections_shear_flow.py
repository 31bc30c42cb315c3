"""Shear flow against published values."""

from __future__ import annotations

import numpy as np
import pytest
from published.section_geometry import filleted_i, midline_box, midline_channel, midline_z, solve, solved


def test_megson_channel_H01():
    """Megson; Timoshenko (closed form). Bottom flange towards the web, web up, top flange away from it."""
    walls = midline_channel(40, 60, 2)
    thin = solve(walls)
    flow = 1000.0 * thin.flow[:, :, 1]
    assert thin.inertia[1, 1] == pytest.approx(180000.0, rel=1e-9)
    assert [flow[0, 2], flow[1, 0], flow[1, 2], flow[2, 0]] == pytest.approx(
        [13.333333333333334] * 4, rel=1e-9
    )
    assert flow[1, 1] == pytest.approx(18.333333333333332, rel=1e-9)
    assert [flow[0, 0], flow[2, 2]] == pytest.approx([0.0, 0.0], abs=1e-9)


def test_megson_z_section_H02():
    """Megson, Z-section example (b=h/2); exact fractions 3/7 and 9/7 of Sy/h (closed form)."""
    flow = solve(midline_z(50, 100, 1)).flow[:, :, 1] * 100
    assert flow[1, 0] == pytest.approx(0.42857142857142855, rel=1e-9)
    assert flow[1, 1] == pytest.approx(1.2857142857142856, rel=1e-9)
    assert flow[0, 1] < 0 < flow[0, 2]


def test_elementary_rectangular_tube_H03():
    """Elementary (closed form)."""
    flow = 1000.0 * solve(midline_box(100, 50, 2)).flow[:, :, 1]
    assert [flow[1, 0], flow[1, 2], -flow[3, 0], -flow[3, 2]] == pytest.approx(
        [8.571428571428571] * 4, rel=1e-9
    )
    assert [flow[1, 1], -flow[3, 1]] == pytest.approx([10.714285714285714] * 2, rel=1e-9)
    assert [flow[0, 1], flow[2, 1]] == pytest.approx([0.0, 0.0], abs=1e-9)


def test_elementary_i_section_at_the_neutral_axis_H07():
    """VQ/(I t) (closed form)."""
    made = solved(filleted_i(200, 100, 5.6, 8.5, 0, 0))
    web = np.flatnonzero(np.abs(made.points[:, 1]) < 1e-6)
    assert len(web) >= 2
    assert np.abs(made.stress[web, 2, 2]) == pytest.approx(0.0010142883762809447, rel=0.01)
