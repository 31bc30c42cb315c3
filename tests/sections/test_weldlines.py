"""Weld groups: equilibrium, signs, refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sections import SHAPES, ShapeError, section
from sections.weldlines import WeldLines, weld_along

EXACT = 1e-9
number = st.floats(-1000, 1000)


@st.composite
def groups(draw):
    count = draw(st.integers(2, 6))
    start = draw(
        st.lists(st.tuples(st.integers(-50, 50), st.integers(-50, 50)), min_size=count, max_size=count)
    )
    run = draw(st.lists(st.tuples(st.integers(1, 40), st.integers(-40, 40)), min_size=count, max_size=count))
    start, run = np.array(start, dtype=float), np.array(run, dtype=float)
    run[0], run[1] = (30, 5), (-5, 40)
    throat = draw(st.lists(st.floats(0.5, 6), min_size=count, max_size=count))
    return WeldLines(start, start + run, throat)


@given(groups(), st.lists(number, min_size=6, max_size=6), st.tuples(number, number))
@settings(max_examples=60, deadline=None)
def test_stresses_balance_the_joint_forces(group, forces, at):
    forces = np.array(forces)
    stress = group.stress(forces, at)
    left = np.stack([-group.along[:, 1], group.along[:, 0]], axis=1)
    weight = group.length * group.throat
    ends = np.stack([group.start, group.stop], axis=1) - np.array(at)
    found = np.zeros(6)
    # Two points integrate products of two linear fields exactly.
    for place in ((1 - 1 / np.sqrt(3)) / 2, (1 + 1 / np.sqrt(3)) / 2):
        s = stress[:, 0] * (1 - place) + stress[:, 1] * place
        y, z = (ends[:, 0] * (1 - place) + ends[:, 1] * place).T
        vy, vz = (group.along * s[:, :1] + left * s[:, 1:2]).T
        n = s[:, 2]
        found += 0.5 * np.array([n, vy, vz, y * vz - z * vy, n * z, -n * y]) @ weight
    size = np.abs(forces).max() * 2000 + 1
    assert found == pytest.approx(forces, abs=EXACT * size)


def test_many_forces_at_once():
    group = weld_along(section(SHAPES["rectangular tube"](width=60, height=40, gauge=3)).midline, 2.1)
    forces = np.arange(24.0).reshape(6, 4)
    whole = group.stress(forces)
    assert whole.shape == (len(group.start), 2, 3, 4)
    for k in range(4):
        assert whole[..., k] == pytest.approx(group.stress(forces[:, k]))


def test_throat_divides_the_stress():
    one, two = (WeldLines([(0, 0), (9, 0)], [(0, 50), (9, 50)], t) for t in (1.0, 2.0))
    forces = [1e3, 2e3, -5e2, 3e4, 7e4, -4e4]
    assert two.stress(forces) == pytest.approx(one.stress(forces) / 2)


def test_a_single_line_carries_no_moment_about_itself():
    line = WeldLines([(0, 0)], [(0, 50)])
    assert line.stress([0, 0, 0, 0, 6e4, 0])[0, :, 2] == pytest.approx([-6e4 * 6 / 50**2, 6e4 * 6 / 50**2])
    with pytest.raises(ShapeError, match="moment about itself"):
        line.stress([0, 0, 0, 0, 0, 6e4])


@pytest.mark.parametrize(
    ("start", "stop", "throat", "words"),
    [
        ([], [], 1.0, "at least one"),
        ([(0, 0)], [(0, 0)], 1.0, "no length"),
        ([(0, 0)], [(1, 0)], 0.0, "throat of weld 1 = 0 mm"),
        ([(0, np.nan)], [(1, 0)], 1.0, "finite"),
    ],
)
def test_bad_welds_are_refused(start, stop, throat, words):
    with pytest.raises(ShapeError, match=words):
        WeldLines(start, stop, throat)
