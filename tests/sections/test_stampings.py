"""Pressed sheet: thinned walls, weld lines, what shapes assume and what they say."""

import numpy as np
import pytest

from sections import SHAPES, ShapeError, assumed_of, compare, notes_of, of_material, section

HAT = {"width": 84, "height": 62, "gauge": 2.6, "flange": 18, "radius": 6}


def test_thinned_walls_by_hand():
    """Area of a hat with side walls and their bends at 2.2 mm instead of 2.6: straight lengths by hand."""
    made = SHAPES["hat"](**HAT, web_gauge=2.2)
    bend = np.pi / 2 * (6 + 1.1)
    web, crown, flange = 62 - 2 * 1.3 - 2 * 7.1, 84 - 2.2 - 2 * 7.1, 18 - 6
    by_hand = 2.4 * 4 * bend + 2.2 * 2 * web + 2.6 * (crown + 2 * flange)
    assert made.walls().thickness.min() == 2.2
    assert section(made).area == pytest.approx(by_hand, rel=1e-9)


@pytest.mark.parametrize(
    ("name", "given", "changes"),
    [
        ("hat", HAT, {"web_gauge": 2.2}),
        ("closed hat", HAT | {"seam": 0}, {"web_gauge": 2.2}),
        (
            "two-shell box",
            {"width": 58, "height": 46, "upper_gauge": 2.5, "joint": "flanged", "seam": 0},
            {"upper_web_gauge": 2.1, "lower_web_gauge": 2.2},
        ),
        (
            "two-shell box",
            {"width": 58, "height": 46, "upper_gauge": 2.5},
            {"upper_web_gauge": 2.1, "lower_web_gauge": 2.2},
        ),
    ],
)
def test_thinned_walls_against_the_outline(name, given, changes):
    """Both geometries lose the same; outside dimensions stay."""
    even, thinned = compare(SHAPES[name](**given)), compare(SHAPES[name](**given, **changes))
    for what in ("area", "Iyy", "Izz", "J"):
        loss = getattr(thinned.walls, what) / getattr(even.walls, what) - 1
        true = getattr(thinned.outline, what) / getattr(even.outline, what) - 1
        assert loss < -0.01
        assert loss == pytest.approx(true, abs=0.015 if what == "J" else 0.006), what
    for made in (thinned.walls, thinned.outline):
        assert np.ptp(made.box, axis=0) == pytest.approx(np.ptp(even.outline.box, axis=0), abs=0.03)


def test_equal_web_gauge_is_the_even_sheet():
    even, same = section(SHAPES["hat"](**HAT)), section(SHAPES["hat"](**HAT, web_gauge=2.6))
    assert same.J == even.J
    assert same.points == pytest.approx(even.points)


def test_weld_stiffness_takes_the_shear_modulus_of_the_member():
    shape = SHAPES["closed hat"](**HAT, weld_rate=1e5, weld_pitch=40)
    steel, aluminium = (of_material(shape, nu, G) for nu, G in ((0.3, 80000.0), (0.33, 26900.0)))
    assert section(shape).J == section(steel).J
    assert section(aluminium).J > 1.1 * section(steel).J
    fixed = SHAPES["closed hat"](**HAT, weld_rate=1e5, weld_pitch=40, shear_modulus=80000)
    assert of_material(fixed, 0.33, 26900.0) is fixed
    assert "0.0312 (100000 N/mm a weld, 40 mm apart, G 80000 MPa)" in notes_of(steel)[0]
    assert "basis of the rate: not stated" in notes_of(steel)[0]
    unwelded = SHAPES["closed hat"](**HAT)
    assert of_material(unwelded, 0.33, 26900.0) is unwelded


def test_stitches_are_a_share_of_a_continuous_weld():
    J = [section(SHAPES["closed hat"](**HAT, **weld)).J for weld in (
        {"weld_length": 15, "weld_pitch": 60},
        {"weld_rate": 80000 * 60 / 4, "weld_pitch": 60},
        {"weld_length": 60, "weld_pitch": 60},
        {},
    )]  # fmt: skip
    assert J[0] == pytest.approx(J[1])
    assert J[2] == pytest.approx(J[3])


def test_what_was_assumed():
    assert assumed_of(SHAPES["two-shell box"](width=58, height=46, upper_gauge=2.5)) == {
        "lower_gauge": 2.5,
        "split": 23,
        "upper_web_gauge": 2.5,
        "lower_web_gauge": 2.5,
        "radius": 5,
        "overlap": 10,
    }
    flanged = SHAPES["two-shell box"](width=58, height=46, upper_gauge=2.5, joint="flanged", radius=4)
    assert assumed_of(flanged).keys() == {
        "lower_gauge",
        "split",
        "upper_web_gauge",
        "lower_web_gauge",
        "flange",
        "seam",
    }


def test_a_default_radius_that_shrinks_is_told():
    short = SHAPES["closed hat"](width=84, height=62, gauge=2.6, flange=1)
    assert short.inside_radius == 1
    bend, tight, flange = notes_of(short)
    assert bend == "the bends have room for a radius of 1 mm only; 5.2 mm would be usual"
    assert "under 0.5 × the gauge" in tight
    assert "flange 1 mm is shorter than radius + 3 × the gauge = 8.8 mm" in flange
    assert notes_of(SHAPES["closed hat"](**HAT)) == ()
    assert "24% thinner" in notes_of(SHAPES["hat"](**HAT | {"gauge": 2.5}, web_gauge=1.9))[0]


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"web_gauge": 0}, "web_gauge = 0 mm: must be above 0 mm"),
        ({"web_gauge": 2.7}, "web_gauge = 2.7 mm: must be at most 2.6 mm (the sheet's; drawing"),
        ({"weld_length": 70, "weld_pitch": 60}, "weld_length = 70 mm: must be above 0 mm and at most 60 mm"),
        (
            {"weld_length": 7, "weld_rate": 1, "weld_pitch": 60},
            "weld_length = 7 mm: must not be given beside",
        ),
        ({"weld_pitch": 60}, "weld_pitch = 60 mm: must be given with weld_rate or weld_length"),
        ({"shear_modulus": 0}, "shear_modulus = 0 MPa: must be above 0 MPa"),
    ],
)
def test_stampings_that_cannot_be(changes, words):
    with pytest.raises(ShapeError) as error:
        SHAPES["closed hat"](**HAT, **changes)
    assert words in str(error.value)


@pytest.mark.parametrize("name", ["hat", "closed hat"])
def test_a_faulty_gauge_is_told_once(name):
    """Walls and plates that take their gauge from it are no second mistake."""
    with pytest.raises(ShapeError) as error:
        SHAPES[name](width=84, height=62, gauge=0, flange=18)
    assert [fault.parameter for fault in error.value.faults] == ["gauge"]
