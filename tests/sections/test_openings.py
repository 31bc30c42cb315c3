"""Holes in a row, doublers and weak zones on thin walls."""

import numpy as np
import pytest

from sections import SHAPES, ShapeError, Walls, compare, notes_of, section, walls_section
from sections.geometry.edits import with_holes, with_patch, with_weak_zones

TUBE = {"width": 78, "height": 70, "gauge": 2.5, "radius": 4}
BOX = Walls([(0, 0), (60, 0), (60, 40), (0, 40)], [(0, 1), (1, 2), (2, 3), (3, 0)], 3)


def test_net_section_by_hand():
    """A 20 mm hole in the bottom of a box: area and Izz lose a 20 x 3 strip in its middle."""
    net, whole = walls_section(with_holes(BOX, (30, 0), 20, 60)), walls_section(BOX)
    assert net.area == pytest.approx(whole.area - 60)
    assert net.Izz == pytest.approx(whole.Izz - 3 * 20**3 / 12)
    assert net.mass_per_metre(1e6) == pytest.approx(whole.area - 3 * np.pi * 100 / 60)
    assert 0.5 * whole.J < net.J < whole.J


def test_torsion_by_bredt_with_the_equivalent_strip():
    """4 A²/Σ(b/t), the strip with its own b/t, plus Σ b t³/3."""
    from sections.geometry.edits import hole_conductance

    strip = 1 / hole_conductance(3, 20, 60)
    bredt = 4 * 2400**2 / (180 / 3 + strip)
    assert pytest.approx(bredt + 180 * 9) == walls_section(with_holes(BOX, (30, 0), 20, 60)).J


def test_shear_beside_holes_is_that_of_what_is_left():
    made = walls_section(with_holes(BOX, (30, 0), 20, 30))
    beside = (made.points[:, 1] < 2) & (np.abs(made.points[:, 0] - 10) < 9.9)
    shear = np.hypot(made.stress[:, 1, 3], made.stress[:, 2, 3])
    assert shear[beside].mean() == pytest.approx(3 * 1 / (2 * 2400 * 3), rel=0.03)


def test_a_hole_far_from_others_lets_shear_through():
    assert pytest.approx(walls_section(BOX).J, rel=1e-3) == walls_section(with_holes(BOX, (30, 0), 1, 1e4)).J


def test_patch_against_the_outline():
    """Welded along both edges it bends with the tube; torsion flows through both layers."""
    rows = compare(SHAPES["rectangular tube"](**TUBE, doubler=3, doubler_width=50)).rows()
    for what in ("area", "Iyy", "Izz", "J"):
        assert rows[what][2] == pytest.approx(0, abs=0.006), what


def test_patch_by_hand():
    patched = walls_section(with_patch(BOX, (30, 40), 40, 2, (0, 1)))
    whole = walls_section(BOX)
    assert patched.area == pytest.approx(whole.area + 80)
    z = (80 * (40 + 2.5) + whole.area * 20) / patched.area
    assert patched.centroid[1] == pytest.approx(z)
    assert patched.Iyy == pytest.approx(whole.Iyy + whole.area * (20 - z) ** 2 + 80 * (42.5 - z) ** 2)


def test_weak_zones_beside_welds():
    weak = with_weak_zones(BOX, np.array([(0.0, 0.0), (60.0, 0.0)]), 25, 0.6)
    length = np.linalg.norm(np.diff(weak.nodes[weak.ends], axis=1)[:, 0], axis=1)
    assert length[weak.strength < 1].sum() == pytest.approx(100)
    assert length.sum() == pytest.approx(200)
    assert pytest.approx(walls_section(BOX).J) == walls_section(weak).J
    everywhere = with_weak_zones(BOX, np.array([(0.0, 0.0)]), 500, 0.6)
    assert (everywhere.strength == 0.6).all()
    assert len(everywhere.ends) == 4


@pytest.mark.parametrize(
    ("name", "given", "where"),
    [
        ("rectangular tube", TUBE, ("top", "bottom", "sides")),
        ("channel", {"width": 40, "height": 80, "gauge": 3}, ("web", "flanges")),
        ("hat", {"width": 84, "height": 62, "gauge": 2.6, "flange": 18}, ("crown", "webs")),
        ("closed hat", {"width": 84, "height": 62, "gauge": 2.6, "flange": 18}, ("crown", "webs", "plate")),
        ("two-shell box", {"width": 58, "height": 46, "upper_gauge": 2.5}, ("top", "bottom")),
    ],
)
def test_shapes_with_holes(name, given, where):
    whole = section(SHAPES[name](**given))
    for wall in where:
        shape = SHAPES[name](**given, hole=14, hole_pitch=40, hole_in=wall)
        made = section(shape)
        assert made.area < made.weighed_area < whole.area
        assert made.J < whole.J
        assert shape.outline() is None
        told = [n for n in notes_of(shape) if "net section" in n]
        assert len(told) == 1
        assert f"in the {wall}" in told[0]


@pytest.mark.parametrize("name", ["rectangular tube", "hat", "closed hat", "two-shell box"])
def test_shapes_with_a_doubler(name):
    given = {"rectangular tube": TUBE, "two-shell box": {"width": 58, "height": 46, "upper_gauge": 2.5}}.get(
        name, {"width": 84, "height": 62, "gauge": 2.6, "flange": 18}
    )
    plain, made = section(SHAPES[name](**given)), section(SHAPES[name](**given, doubler=2, doubler_width=30))
    assert made.area == pytest.approx(plain.area + 60)
    assert made.box[1, 1] == pytest.approx(plain.box[1, 1] + 2, abs=1e-6)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"hole": 30}, "hole = 30 mm: must be given with hole_pitch"),
        ({"hole_pitch": 30}, "hole_pitch = 30 mm: must be given with hole"),
        ({"hole": -3, "hole_pitch": 30}, "hole = -3 mm: must be above 0 mm"),
        ({"hole": 50, "hole_pitch": 90}, "hole = 50 mm: must be at most 45.5 mm (0.7 of the straight"),
        ({"hole": 20, "hole_pitch": 25}, "hole_pitch = 25 mm: must be at least 30 mm (1.5 diameters)"),
        (
            {"hole": 20, "hole_pitch": 40, "hole_in": "crown"},
            "hole_in = 'crown': must be one of top, bottom,",
        ),
        ({"doubler": 2}, "doubler = 2 mm: must be given with doubler_width"),
        ({"doubler": 2, "doubler_width": 65}, "doubler_width = 65 mm: must be under 65 mm"),
        ({"doubler": 2, "doubler_width": 30, "hole": 9, "hole_pitch": 40}, "must be on a wall without holes"),
    ],
)
def test_openings_that_cannot_be(changes, words):
    with pytest.raises(ShapeError) as error:
        SHAPES["rectangular tube"](**TUBE, **changes)
    assert words in str(error.value)


def test_no_wall_there():
    with pytest.raises(ValueError, match="no straight wall at"):
        with_holes(BOX, (30, 5), 10, 30)
