"""Shapes of the library against tables, textbook problems and closed forms."""

from __future__ import annotations

import numpy as np
import pytest

from sections import SHAPES, compare, section, walls_section
from sections.shapes.cast_crossed_channel import closing_thickness

near = pytest.approx


def shape(name, **given):
    return SHAPES[name](**given)


def test_din_1025_1_ipn_200():
    """DIN 1025-1 IPN 200 (from memory): h 200, b 90, web 7.5, flange 11.3 at a quarter of the width, slope 14 %, root
    radius 7.5; toe radius 4.5, here on the inner toe only in part, so 1 %."""
    quarter = 90 / 4
    outstand_middle = 7.5 / 2 + (90 - 7.5) / 4
    made = section(
        shape(
            "cast I",
            width=90,
            height=200,
            web=7.5,
            flange=11.3 - 0.14 * (outstand_middle - quarter),
            fillet=7.5,
            draft=float(np.arctan(0.14)),
            corner=2.2,
        )
    )
    assert made.area == near(3340, rel=0.01)
    assert made.Iyy == near(2140e4, rel=0.01)
    assert made.Izz == near(117e4, rel=0.015)
    assert near(13.5e4, rel=0.05) == made.J


def test_cast_t_closed_form():
    """Two rectangles (any handbook)."""
    made = section(shape("cast T", width=80, height=80, web=9, flange=10, fillet=0))
    area, foot, head = 80 * 10 + 70 * 9, 70 * 9 * 35, 800 * 75
    z = (foot + head) / area
    assert made.area == near(area)
    assert made.centroid[1] == near(z)
    inertia = 9 * 70**3 / 12 + 630 * (35 - z) ** 2 + 80 * 10**3 / 12 + 800 * (75 - z) ** 2
    assert made.Iyy == near(inertia)
    assert made.Izz == near((10 * 80**3 + 70 * 9**3) / 12)


def test_numeric_reference_thick_square_box_as_a_casting():
    """Square box 45 x 45 x 5 with sharp corners (two-dimensional finite elements, no publication)."""
    made = section(shape("cast box", width=45, height=45, sides=5, top=5, core_radius=0))
    assert near(341335.40181953524, rel=0.003) == made.J


def test_cast_box_with_a_core_off_its_place():
    """Outer rectangle less the core's (closed form)."""
    made = section(
        shape("cast box", width=80, height=60, sides=5, top=6, bottom=8, core_radius=0, core_up=1.5)
    )
    area, core, z = 80 * 60, 70 * 46, 8 + 1.5 + 23
    centre = (area * 30 - core * z) / (area - core)
    assert made.area == near(area - core)
    assert made.centroid[1] == near(centre)
    inertia = 80 * 60**3 / 12 + area * (30 - centre) ** 2 - 70 * 46**3 / 12 - core * (z - centre) ** 2
    assert made.Iyy == near(inertia)


def test_cast_cross_closed_form():
    made = section(shape("cast cross", width=60, height=70, upright=6, level=7, fillet=0))
    assert made.area == near(6 * 70 + 54 * 7)
    assert made.Iyy == near(6 * 70**3 / 12 + 54 * 7**3 / 12)
    assert made.Izz == near(70 * 6**3 / 12 + 7 * (60**3 - 6**3) / 12)
    assert near(6**3 * 70 / 3 + 7**3 * 54 / 3, rel=0.08) == made.J


def test_trapezium():
    """I of a trapezium about its centroid, h³ (a² + 4 a b + b²)/(36 (a + b)) (any handbook)."""
    made = section(shape("solid rectangle", width=40, height=30, draft=0.1))
    a, b = 40 + 30 * np.tan(0.1), 40 - 30 * np.tan(0.1)
    assert made.area == near(1200)
    assert made.Iyy == near(30**3 * (a * a + 4 * a * b + b * b) / (36 * (a + b)))
    assert made.centroid[1] == near(30 / 3 * (a + 2 * b) / (a + b))


@pytest.mark.parametrize(
    ("name", "given"),
    [
        ("cast ribbed channel", {"width": 70, "height": 45, "wall": 5, "base": 6, "fillet": 0}),
        ("cast T", {"width": 80, "height": 80, "web": 9, "flange": 9, "fillet": 0}),
        ("cast cross", {"width": 60, "height": 70, "upright": 6, "level": 7, "fillet": 0}),
        ("cast I", {"width": 50, "height": 60, "web": 6, "flange": 7, "fillet": 0}),
        ("cast box", {"width": 80, "height": 60, "sides": 5, "top": 6, "core_radius": 0}),
    ],
)
def test_draft_keeps_the_area(name, given):
    """Thickness is meant at half height, so two per cent of draft moves material, and adds none."""
    plain, drafted = (section(shape(name, **given, draft=d)) for d in (0.0, 0.03))
    assert drafted.area == near(plain.area)
    assert drafted.Iyy != near(plain.Iyy, rel=1e-4)


def test_pinched_tube_closed_form():
    """Two half rings and two strips; Bredt for J within what the thick wall adds."""
    made = section(shape("pinched tube", diameter=40, gauge=2, height=25))
    flat, outer, inner = np.pi * 15 / 2, 12.5, 10.5
    assert made.area == near(2 * flat * 2 + np.pi * (outer**2 - inner**2))
    assert made.area == near(np.pi * (20**2 - 18**2))
    ring = np.pi * (outer**4 - inner**4) / 4
    assert made.Iyy == near(ring + 2 * (flat * 2**3 / 12 + flat * 2 * 11.5**2), rel=1e-3)
    enclosed = flat * 23 + np.pi * 11.5**2
    bredt = 4 * enclosed**2 * 2 / (2 * flat + 2 * np.pi * 11.5)
    assert near(bredt + (2 * flat + 23 * np.pi) * 8 / 3, rel=0.01) == made.J
    whole, unpressed = (
        section(shape("round tube", diameter=40, gauge=2)),
        shape("pinched tube", diameter=40, gauge=2, height=40),
    )
    assert near(whole.J, rel=3e-3) == section(unpressed).J


def test_hydroformed_tube_keeps_its_metal():
    blank = np.pi * (80 - 2.5) * 2.5
    formed = shape("hydroformed tube", width=80, height=60, radius=8, blank_diameter=80, blank_gauge=2.5)
    made, tube = (
        section(formed),
        section(shape("rectangular tube", width=80, height=60, gauge=formed.gauge, radius=8)),
    )
    assert made.area == near(blank, rel=1e-6)
    assert near(tube.J) == made.J
    assert formed.gauge < 2.5


def test_tube_with_plate_by_symmetry():
    """A web on the axis of symmetry carries no torsion (C. T. Sun, Mechanics of Aircraft Structures, Problem 3.5), so
    J is that of the tube and of the two fins."""
    made = section(shape("tube with plate", diameter=42, gauge=3, plate=5, plate_height=80))
    tube = np.pi * (21**4 - 18**4) / 2
    assert near(tube + 2 * 19 * 5**3 / 3, rel=0.05) == made.J
    assert made.Izz == near(tube / 2 + 44 * 5**3 / 12, rel=0.01)


def test_twin_tube_by_bredt():
    """The double wall between two equal cells carries no torsion: Bredt round both (C. T. Sun, Problem 3.5)."""
    made = walls_section(shape("twin tube", width=40, height=60, gauge=2, radius=0).walls())
    enclosed, girth = 78 * 58, 2 * (78 + 58)
    fins = (2 * 136 + 2 * 58) * 2**3 / 3
    assert near(4 * enclosed**2 * 2 / girth + fins, rel=0.03) == made.J
    single = section(shape("rectangular tube", width=40, height=60, gauge=2, radius=0))
    assert made.Iyy == near(2 * single.Iyy)
    assert made.Izz == near(2 * (single.Izz + single.area * 20**2))


def test_sun_two_equal_cells_as_an_extrusion():
    """C. T. Sun, Problem 3.5: two cells 100 x 100 x 3 on mid-lines, J 800 cm⁴ (looked up); the true section with
    sharp corners is a few per cent stiffer."""
    given = shape("extruded box", width=203, height=103, gauge=3, cells=2, fillet=0, corner=0)
    both = compare(given)
    fins = 3**3 * (2 * 200 + 3 * 100) / 3
    assert near(8000000.0 + fins, rel=1e-9) == both.walls.J
    assert near(8000000.0, rel=0.03) == both.outline.J


def test_fabricated_box_of_rectangles():
    """Plates 80 x 4, webs 52 x 4 (closed form); Bredt on the mid-lines, 64 x 56, and the edges that stand out."""
    both = compare(shape("fabricated box", width=80, height=60, top=4, web=4, inset=6))
    inertia = 2 * (80 * 4**3 / 12 + 320 * 28**2) + 2 * 4 * 52**3 / 12
    assert both.outline.Iyy == near(inertia)
    for what in ("area", "Iyy", "Izz"):
        assert both.rows()[what][2] == near(0, abs=2e-3), what
    bredt = 4 * (64 * 56) ** 2 * 4 / (2 * 64 + 2 * 56)
    assert near(bredt, rel=0.03) == both.walls.J
    assert near(both.outline.J, rel=0.06) == both.walls.J


def truss_shear_stiffness(pitch, width, diagonal, chord):
    """G t of a wall as stiff as one bay of the pinned lattice, with E = 1: bars by statics, N = ± q d/2 in the
    diagonals and from −q a/2 to q a/2 along the chords, and Σ ∫ N²/(2 E A), set up apart from the library."""
    length = np.hypot(pitch, width)
    flow = 1.0
    along = np.linspace(-pitch / 2, pitch / 2, 2001)
    energy = 2 * (flow * length / 2) ** 2 * length / (2 * diagonal)
    energy += 2 * np.trapezoid((flow * along) ** 2, along) / (2 * chord)
    return flow**2 * pitch * width / (2 * energy)


@pytest.mark.parametrize(("pitch", "width"), [(60, 60), (90, 50), (40, 85)])
def test_kollbrunner_basler_crossed_diagonals(pitch, width):
    """C. F. Kollbrunner and K. Basler, Torsion in Structures (1969), table of equivalent walls (from memory)."""
    stiffness = truss_shear_stiffness(pitch, width, 48.0, 60.0)
    assert closing_thickness(pitch, width, 48.0, 60.0, 2.6) / 2.6 == near(stiffness, rel=1e-5)


def test_crossed_channel_by_bredt():
    """One cell, closed by a wall of the lattice's thickness at the middle of the strips."""
    given = shape("cast crossed channel", width=90, height=60, wall=5, base=5, pitch=90)
    made = section(given)
    enclosed, up = 85 * (60 - 7.5 - 2.5), 50.0
    turns = 85 / 5 + 2 * up / 5 + 85 / given.closing
    fins = (85 * 5**3 + 2 * 57.5 * 5**3) / 3
    assert near(4 * enclosed**2 / turns + fins) == made.J
    stiffer = shape("cast crossed channel", width=90, height=60, wall=5, base=5, pitch=90, rib=8)
    assert made.J < section(stiffer).J
