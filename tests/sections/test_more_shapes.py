"""Castings and welded shapes: what they refuse, assume and say."""

import numpy as np
import pytest

from sections import SHAPES, ShapeError, assumed_of, notes_of, of_material, section

GIVEN = {
    "pinched tube": {"diameter": 40, "gauge": 2, "height": 25},
    "hydroformed tube": {"width": 80, "height": 60, "radius": 8, "blank_diameter": 80, "blank_gauge": 2.5},
    "tube with plate": {"diameter": 42, "gauge": 3, "plate": 5, "plate_height": 80},
    "twin tube": {"width": 40, "height": 60, "gauge": 3},
    "extruded box": {"width": 120, "height": 60, "gauge": 3, "cells": 3},
    "fabricated box": {"width": 80, "height": 60, "top": 4, "web": 4, "inset": 6},
    "cast I": {"width": 50, "height": 60, "web": 6, "flange": 7},
    "cast T": {"width": 80, "height": 80, "web": 9, "flange": 9},
    "cast cross": {"width": 60, "height": 70, "upright": 6, "level": 7},
    "cast box": {"width": 80, "height": 60, "sides": 5, "top": 6},
    "cast ribbed channel": {"width": 70, "height": 45, "wall": 5, "base": 6},
    "cast crossed channel": {"width": 90, "height": 60, "wall": 5, "base": 5, "pitch": 90},
    "solid rectangle": {"width": 40, "height": 30},
}


def make(name, **changes):
    return SHAPES[name](**GIVEN[name] | changes)


@pytest.mark.parametrize(
    ("name", "changes", "words"),
    [
        ("pinched tube", {"height": 4}, "height = 4 mm: must be above 4 mm and at most 40 mm"),
        ("pinched tube", {"height": 41}, "height = 41 mm: must be above 4 mm and at most 40 mm"),
        ("pinched tube", {"gauge": 0}, "gauge = 0 mm: must be above 0 mm"),
        ("hydroformed tube", {"blank_diameter": 99}, "blank_diameter = 99 mm: must be at most 83.38"),
        (
            "hydroformed tube",
            {"radius": 29, "blank_diameter": 60},
            "radius = 29 mm: must be at least 0 mm and at most 27.",
        ),
        ("hydroformed tube", {"blank_gauge": 31}, "blank_gauge = 31 mm: must be under 30 mm"),
        ("tube with plate", {"plate": 37}, "plate = 37 mm: must be under 36 mm (the inside of the tube)"),
        ("tube with plate", {"plate_height": 40}, "plate_height = 40 mm: must be at least 42 mm"),
        ("twin tube", {"gauge": 20}, "gauge = 20 mm: must be under 20 mm"),
        ("twin tube", {"radius": 17}, "radius = 17 mm: must be at least 0 mm and at most 16.66 mm"),
        ("twin tube", {"weld_pitch": 40}, "weld_pitch = 40 mm: must be given with"),
        ("extruded box", {"cells": 0}, "cells = 0: must be a whole number, 1 or more"),
        (
            "extruded box",
            {"cells": 60},
            "cells = 60: must be at most 38 (inner webs of 3 mm must fit side by side)",
        ),
        ("extruded box", {"cells": 2, "web": 120}, "web = 120 mm: must be under 114 mm"),
        ("extruded box", {"fillet": 20}, "fillet = 20 mm: must be at least 0 mm and at most 18 mm"),
        ("extruded box", {"corner": 5}, "corner = 5 mm: must be at least 0 mm and at most 4.5 mm"),
        ("fabricated box", {"top": 31}, "height = 60 mm: must be above 62 mm (more than both plates)"),
        ("fabricated box", {"inset": 36}, "inset = 36 mm: must be under 36 mm"),
        ("fabricated box", {"haz_strength": 1.2}, "haz_strength = 1.2: must be above 0 and at most 1"),
        ("cast I", {"draft": 0.4}, "draft = 22.92 deg: must be from 0 to 15 deg"),
        ("cast I", {"flange": 2, "draft": 0.2}, "flange = 2 mm: must be above 2.2"),
        ("cast I", {"corner": 4}, "corner = 4 mm: must be at least 0 mm and at most 3.15 mm"),
        ("cast T", {"web": 2, "draft": 0.1}, "web = 2 mm: must be above 7.1"),
        ("cast T", {"fillet": 40}, "fillet = 40 mm: must be at least 0 mm and at most 31.95 mm"),
        ("cast cross", {"upright": 60}, "upright = 60 mm: must be above 0 mm and under 60 mm"),
        ("cast cross", {"corner": 3}, "corner = 3 mm: must be at least 0 mm and at most 2.7 mm"),
        ("cast box", {"sides": 40}, "sides = 40 mm: must be above 0 mm and under 40 mm (a core between)"),
        ("cast box", {"core_right": 5}, "core_right = 5 mm: must be above -5 mm and under 5 mm (the wall)"),
        ("cast box", {"core_up": 6}, "core_up = 6 mm: must be above -6 mm and under 6 mm (the wall)"),
        (
            "cast box",
            {"corner": 11},
            "corner = 11 mm: must be at least 0 mm and at most 10 mm (the thinnest wall",
        ),
        ("cast box", {"core_radius": 25}, "core_radius = 25 mm: must be at least 0 mm and at most 24 mm"),
        ("cast box", {"top": 31}, "top = 62 mm: must be under 60 mm (top and bottom leave room"),
        ("cast ribbed channel", {"draft": 0.25}, "rib = 4 mm: must be above 4.97"),
        ("cast crossed channel", {"strip": 56}, "strip = 56 mm: must be at most 55 mm"),
        ("cast crossed channel", {"pitch": 0}, "pitch = 0 mm: must be above 0 mm"),
        ("solid rectangle", {"radius": 16}, "radius = 16 mm: must be at least 0 mm and at most 15 mm"),
    ],
)
def test_shapes_that_cannot_be(name, changes, words):
    with pytest.raises(ShapeError) as error:
        make(name, **changes)
    assert words in str(error.value)


@pytest.mark.parametrize("name", GIVEN)
def test_what_is_assumed_is_a_parameter_that_was_not_given(name):
    made = make(name)
    for key, value in assumed_of(made).items():
        assert getattr(made, key) is None
        again = make(name, **{key: value})
        assert pytest.approx(section(made).J) == section(again).J


def test_weak_zones_of_a_fabricated_box():
    plain, aluminium = make("fabricated box"), make("fabricated box", haz_strength=0.55, haz_width=15)
    walls = aluminium.walls()
    length = np.linalg.norm(np.diff(walls.nodes[walls.ends], axis=1)[:, 0], axis=1)
    # Each of four fillets at the webs' inner faces: 15 mm along the web, 15 mm along the plate inward, and under the
    # web of 4 mm and the 6 mm beyond it to the edge of the plate (EN 1999-1-1 6.1.6.3, from memory).
    assert length[walls.strength < 1].sum() == pytest.approx(4 * (15 + 15 + 4 + 6))
    assert pytest.approx(section(plain).J) == section(aluminium).J
    assert section(aluminium).weakest == 0.55
    assert notes_of(aluminium)[0].startswith(
        "within 15 mm of its welds walls count with 0.55 of the strength"
    )
    assert notes_of(plain) == ()


def test_notes_on_castings():
    assert notes_of(make("cast I")) == ()
    thin, fillet = notes_of(make("cast I", web=2.5, fillet=0))
    assert "the thinnest wall has 2.5 mm" in thin
    assert "fillets of 0 mm are under half the wall of 2.5 mm" in fillet
    ratio, high = notes_of(make("cast ribbed channel", rib=5, rib_height=30))
    assert "ribs have 1.00 of the wall's thickness" in ratio
    assert "ribs are 6.0 times as high as thick" in high


def test_crossed_ribs_take_poisson_s_ratio_from_the_material():
    made = make("cast crossed channel")
    bound = of_material(made, 0.33, 26900)
    assert bound.closing == pytest.approx(made.closing * 1.33 / 1.3)
    assert "close the channel like a wall of 1.17 mm" in notes_of(bound)[0]


def test_widening():
    made = make("hydroformed tube", blank_diameter=70)
    assert made.widening > 0.1
    assert "needs feed or annealing" in notes_of(made)[1]
