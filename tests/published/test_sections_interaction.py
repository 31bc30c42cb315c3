"""Axial force with bending moments at full plasticity, against closed forms of the textbooks (such as B. G. Neal, The
Plastic Methods of Structural Analysis; from memory). The surface lies inside the true one by up to 0.5 %."""

import numpy as np
import pytest
from published.section_geometry import midline_i, path, solved

from sections import SHAPES, Outline, Walls, section, walls_section

SAFE = 0.005
PARTS = np.linspace(-1.0, 1.0, 17)


def reached(made, n, my, mz):
    """Yield stress that N = n A, My = my Wpl_y, Mz = mz Wpl_z need: 1 where they are just carried."""
    n, my, mz = np.broadcast_arrays(n, my, mz)
    forces = np.array([n * made.area, my * made.Wpl_y, mz * made.Wpl_z])
    return made.plastic_surface.utilisation(forces.reshape(3, -1))


def close(values):
    """At the limit, never on the unsafe side but for rounding."""
    values = np.asarray(values)
    assert values == pytest.approx(np.ones_like(values), abs=SAFE)
    assert values.min() >= 1 - 3e-4


def test_rectangle_m_plus_n_squared():
    """m + n² = 1 about both axes and both ways."""
    bar = section(SHAPES["solid rectangle"](width=20, height=40))
    for sign in (1, -1):
        close(reached(bar, PARTS, sign * (1 - PARTS**2), 0.0))
        close(reached(bar, PARTS, 0.0, sign * (1 - PARTS**2)))


def test_rectangle_bent_about_both_axes():
    """mz = 1 − 3/4 my² while the neutral line crosses the short sides, my up to 2/3."""
    bar = section(SHAPES["solid rectangle"](width=20, height=40))
    my = np.linspace(-2 / 3, 2 / 3, 15)
    close(reached(bar, 0.0, my, 1 - 0.75 * my**2))
    close(reached(bar, 0.0, 1 - 0.75 * my**2, my))


def test_round_tube():
    """m = cos(π n/2) of a thin tube; walls, and the outline of a tube 60 x 1."""
    moment = np.cos(PARTS * np.pi / 2)
    for made in (
        walls_section(SHAPES["round tube"](diameter=60, gauge=1).walls()),
        section(SHAPES["round tube"](diameter=60, gauge=1)),
    ):
        close(reached(made, PARTS, moment, 0.0))
        turn = np.linspace(0, 2 * np.pi, 23)
        close(reached(made, 0.5, np.cos(np.pi / 4) * np.cos(turn), np.cos(np.pi / 4) * np.sin(turn)))


def test_solid_round():
    """With half the angle a of the compressed cap: n = 1 − 2 (a − sin a cos a)/π, m = sin³ a (any handbook)."""
    bar = solved(Outline([(np.cos(a), np.sin(a)) for a in np.linspace(0, 2 * np.pi, 361)[:-1]]))
    half = np.linspace(0.2, np.pi - 0.2, 21)
    close(reached(bar, 1 - 2 * (half - np.sin(half) * np.cos(half)) / np.pi, np.sin(half) ** 3, 0.0))


def test_i_section_with_the_neutral_line_in_its_web():
    """M = Mpl − N²/(4 tw fy) about the strong axis while N stays within the web."""
    made = walls_section(midline_i(100, 100, 200, 10, 6))
    force = np.linspace(-0.95, 0.95, 15) * 200 * 6
    close(reached(made, force / made.area, (made.Wpl_y - force**2 / (4 * 6)) / made.Wpl_y, 0.0))
    # Beyond, the neutral line runs along a flange: a straight line from the web's limit to N alone.
    edge = np.array([200 * 6 / made.area, (made.Wpl_y - (200 * 6) ** 2 / 24) / made.Wpl_y])
    for share in (0.25, 0.5, 0.75):
        n, m = edge * (1 - share) + np.array([1.0, 0.0]) * share
        close(reached(made, n, m, 0.0))


def test_i_section_about_its_weak_axis():
    """The web carries N alone: m = 1 up to n = web/A, then 1 − ((n − a)/(1 − a))², a = web/A, as
    EN 1993-1-1 6.2.9.1 (5) has it."""
    made = walls_section(midline_i(100, 100, 200, 10, 6))
    a = 200 * 6 / made.area
    n = np.linspace(0, 1, 11)
    moment = np.where(n <= a, 1.0, 1 - ((n - a) / (1 - a)) ** 2)
    close(reached(made, n[1:-1], 0.0, moment[1:-1]))


def test_thin_square_box_about_its_diagonal():
    """Plastic modulus about a diagonal, closed form: four walls a x t at mean distance a/(2 sqrt 2): sqrt(2) a² t."""
    box = walls_section(path([(0, 0), (50, 0), (50, 50), (0, 50)], 2.0, closed=True))
    assert box.plastic_modulus(np.pi / 4) == pytest.approx(np.sqrt(2) * 50**2 * 2, rel=1e-9)
    assert box.plastic_modulus(0.0) == pytest.approx(box.Wpl_y, rel=1e-12)
    assert box.plastic_modulus(np.pi / 2) == pytest.approx(box.Wpl_z, rel=1e-12)


def test_square_bar_about_its_diagonal():
    """b³ sqrt(2)/6 against b³/4 about a side (elementary; the diamond's shape factor is 2)."""
    bar = section(SHAPES["solid rectangle"](width=30, height=30))
    assert bar.plastic_modulus(np.pi / 4) == pytest.approx(30**3 * np.sqrt(2) / 6, rel=1e-9)


def test_weaker_walls_carry_less():
    """A box whose bottom has half the strength, by hand: N of the areas times strength acts 40/7 mm above the middle,
    so about the centroid it comes with the moment N 40/7."""
    nodes, ends = [(0, 0), (80, 0), (80, 80), (0, 80)], [(0, 1), (1, 2), (2, 3), (3, 0)]
    made = walls_section(Walls(nodes, ends, 2.0, strength=[0.5, 1, 1, 1]))
    force = 2.0 * 80 * 3.5
    found = made.plastic_surface.utilisation(np.array([[force], [force * 40 / 7], [0.0]]))
    assert found == pytest.approx([1.0], rel=1e-6)
