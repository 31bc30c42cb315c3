"""Shapes: parameters, dimensions, both geometries, and errors that name the dimension."""

import dataclasses
import math

import numpy as np
import pytest

from sections import SHAPES, ShapeError, compare, section

SAMPLES = {
    "round tube": {"diameter": 22, "gauge": 3},
    "rectangular tube": {"width": 78, "height": 70, "gauge": 2.5},
    "channel": {"width": 40, "height": 80, "gauge": 3},
    "lipped channel": {"width": 50, "height": 100, "lip": 18, "gauge": 2},
    "hat": {"width": 84, "height": 62, "gauge": 2.6, "flange": 18, "radius": 6},
    "closed hat": {"width": 84, "height": 62, "gauge": 2.6, "flange": 18, "radius": 6},
    "two-shell box": {"width": 58, "height": 46, "upper_gauge": 2.5},
    "cast I": {"width": 50, "height": 60, "web": 8, "flange": 10, "fillet": 8},
    "cast ribbed channel": {"width": 70, "height": 45, "wall": 5, "base": 6},
    "solid round": {"diameter": 24},
    "solid rectangle": {"width": 40, "height": 12},
    "pinched tube": {"diameter": 40, "gauge": 2, "height": 25},
    "hydroformed tube": {"width": 80, "height": 60, "radius": 8, "blank_diameter": 80, "blank_gauge": 2.5},
    "tube with plate": {"diameter": 42, "gauge": 3, "plate": 5, "plate_height": 80},
    "twin tube": {"width": 40, "height": 60, "gauge": 3},
    "extruded box": {"width": 120, "height": 60, "gauge": 3, "cells": 3},
    "fabricated box": {"width": 80, "height": 60, "top": 4, "web": 4, "inset": 6},
    "cast T": {"width": 80, "height": 80, "web": 9, "flange": 9},
    "cast cross": {"width": 60, "height": 70, "upright": 6, "level": 7},
    "cast box": {"width": 80, "height": 60, "sides": 5, "top": 6},
    "cast crossed channel": {"width": 90, "height": 60, "wall": 5, "base": 5, "pitch": 90},
}
OUTSIDE = {
    "round tube": (22, 22),
    "rectangular tube": (78, 70),
    "channel": (40, 80),
    "lipped channel": (50, 100),
    "hat": (84 + 36, 62),
    "closed hat": (84 + 36, 62),
    "two-shell box": (58, 46),
    "cast I": (50, 60),
    "cast ribbed channel": (70, 45),
    "solid round": (24, 24),
    "solid rectangle": (40, 12),
    "pinched tube": (25 + np.pi * 7.5, 25),
    "hydroformed tube": (80, 60),
    "tube with plate": (42, 80),
    "twin tube": (80, 60),
    "extruded box": (120, 60),
    "fabricated box": (80, 60),
    "cast T": (80, 80),
    "cast cross": (60, 70),
    "cast box": (80, 60),
    "cast crossed channel": (90, 60),
}
FLANGED = {"width": 66, "height": 56, "upper_gauge": 3, "joint": "flanged"}


def make(name, **changes):
    return SHAPES[name](**{**SAMPLES[name], **changes})


def test_every_shape_has_a_sample_here():
    assert set(SHAPES) == {*SAMPLES, "traced"}


@pytest.mark.parametrize("name", SHAPES)
def test_parameters_say_what_they_are(name):
    shape = SHAPES[name]
    assert shape.name == name
    assert shape.__doc__
    for field in dataclasses.fields(shape):
        if field.name not in ("geometry", "trace"):
            assert field.metadata["doc"], field.name
            assert field.metadata["unit"] in ("mm", "N/mm", "MPa", "deg", ""), field.name


@pytest.mark.parametrize("name", SAMPLES)
def test_dimensions_are_outside_dimensions(name):
    both = compare(make(name))
    for made in filter(None, (both.walls, both.outline)):
        corner = np.ptp(made.box, axis=0)
        if name in ("cast ribbed channel", "round tube", "tube with plate", "pinched tube"):
            assert corner == pytest.approx(OUTSIDE[name], rel=0.006)
        else:
            assert corner == pytest.approx(OUTSIDE[name], abs=1e-6)
        assert made.box[0, 1] == pytest.approx(0, abs=0.03)


@pytest.mark.parametrize("name", SAMPLES)
def test_a_section_is_sound(name):
    made = section(make(name))
    assert made.engine == make(name).serves
    assert made.closed == (name not in ("channel", "lipped channel", "hat", "cast I", "cast ribbed channel"))
    assert 20 <= len(made.points) <= (190 if name == "extruded box" else 130)
    assert made.stress.shape == (len(made.points), 3, 6)
    assert made.warping.shape == (len(made.points),)
    assert np.isfinite(made.stress).all()
    moduli = made.elastic_moduli
    assert made.Wpl_y > min(moduli["Wy_top"], moduli["Wy_bottom"])
    assert made.Wpl_z > min(moduli["Wz_right"], moduli["Wz_left"])
    assert np.linalg.eigvalsh(made.shear_tensor).min() > 0


THIN = {
    "round tube": {"diameter": 60, "gauge": 1},
    "rectangular tube": {"width": 80, "height": 60, "gauge": 1},
    "channel": {"width": 60, "height": 100, "gauge": 1},
    "lipped channel": {"width": 60, "height": 100, "lip": 20, "gauge": 1},
    "hat": {"width": 80, "height": 60, "gauge": 1, "flange": 20},
}


@pytest.mark.parametrize("name", THIN)
def test_walls_and_outline_agree_where_walls_are_thin(name):
    rows = compare(SHAPES[name](**THIN[name])).rows()
    for what in ("area", "Iyy", "Izz", "J", "shear area y", "shear area z", "Wpl_y", "Wpl_z"):
        assert rows[what][2] == pytest.approx(0, abs=0.01), what
    if "tube" not in name:
        assert rows["Cw"][2] == pytest.approx(0, abs=0.01)
    for what in ("centroid y", "centroid z", "shear centre y", "shear centre z"):
        assert rows[what][2] == pytest.approx(0, abs=0.002), what


@pytest.mark.parametrize(
    ("name", "changes", "J", "shear"),
    [
        ("closed hat", {"seam": 0, "gauge": 1, "radius": 0}, 0.03, 0.08),
        ("two-shell box", {"upper_gauge": 1, "overlap": 4, "radius": 1}, 0.04, 0.08),
        ("cast I", {"web": 1, "flange": 1, "fillet": 0}, 0.02, 0.02),
        ("cast ribbed channel", {"wall": 1, "base": 1, "fillet": 0}, 0.02, 0.02),
    ],
)
def test_walls_and_outline_agree_as_far_as_joints_let_them(name, changes, J, shear):
    """A continuous weld is a little softer than layers fused over their whole width."""
    rows = compare(make(name, **changes)).rows()
    for what in ("area", "Iyy", "Izz", "Wpl_y", "Wpl_z"):
        assert rows[what][2] == pytest.approx(0, abs=0.02), what
    assert rows["J"][2] == pytest.approx(0, abs=J)
    assert rows["shear area y"][2] == pytest.approx(0, abs=shear)
    assert rows["shear area z"][2] == pytest.approx(0, abs=shear)


def test_the_design_s_closed_hat():
    """Plausibility: Bredt on the mid-lines of the bare cell, within a tenth."""
    made = section(make("closed hat"))
    width, height, gauge = 84 - 2.6, 62 - 2.6, 2.6
    bredt = 4 * (width * height) ** 2 * gauge / (2 * (width + height))
    assert pytest.approx(bredt, rel=0.12) == made.J
    assert made.closed


def test_a_shell_s_two_bends_are_one_bend_of_a_tube():
    """Two shells that fuse, flush, are the tube of their size as far as bending goes."""
    made = section(SHAPES["two-shell box"](**FLANGED))
    hat = section(SHAPES["hat"](width=66, height=28, gauge=3, flange=16, radius=6))
    assert made.area == pytest.approx(2 * hat.area)
    apart = 28 - hat.centroid[1]
    assert made.Izz == pytest.approx(2 * hat.Izz)
    assert made.Iyy == pytest.approx(2 * (hat.Iyy + hat.area * (hat.centroid[1]) ** 2), rel=1e-9)
    assert apart > 0


def test_weld_stiffness_moves_torsion_between_open_and_closed():
    def J(**weld):
        return section(make("closed hat", **weld)).J

    open_hat = section(make("hat", height=62 - 2.6)).J
    continuous = J()
    spots = [J(weld_rate=rate, weld_pitch=40) for rate in (1.0, 1e4, 1e5, 1e6)]
    assert spots == sorted(spots)
    assert open_hat < spots[0] < 3 * open_hat
    assert 0.3 * continuous < spots[2] < 0.9 * continuous
    assert J(weld_rate=1e5, weld_pitch=20) == pytest.approx(J(weld_rate=2e5, weld_pitch=40))
    assert J(weld_rate=8e4 * 40, weld_pitch=40) == pytest.approx(continuous)
    assert not section(make("closed hat", weld_rate=1.0, weld_pitch=400)).closed


def test_default_radii_never_fail():
    tube = SHAPES["rectangular tube"](width=10, height=10, gauge=4)
    assert tube.inside_radius == 1
    assert section(tube).area > 0
    assert SHAPES["hat"](width=84, height=62, gauge=2.6, flange=18).inside_radius == pytest.approx(5.2)
    assert SHAPES["two-shell box"](**FLANGED).inside_radius == 6


def test_solids_have_no_walls_and_nothing_to_compare():
    for name in ("solid round", "solid rectangle"):
        both = compare(make(name))
        assert both.walls is None
        assert both.rows() == {}


@pytest.mark.parametrize(
    ("name", "changes", "words"),
    [
        ("round tube", {"gauge": 11}, "gauge = 11 mm: must be under 11 mm (half the diameter)"),
        ("round tube", {"gauge": 0}, "gauge = 0 mm: must be above 0 mm"),
        ("solid round", {"diameter": -3}, "diameter = -3 mm: must be above 0 mm"),
        ("solid round", {"diameter": math.inf}, "diameter = inf: must be above 0 mm"),
        ("solid rectangle", {"radius": 7}, "radius = 7 mm: must be at least 0 mm and at most 6 mm (half the"),
        ("rectangular tube", {"radius": 33}, "radius = 33 mm: must be at least 0 mm and at most 32.5 mm"),
        ("rectangular tube", {"gauge": 35}, "gauge = 35 mm: must be under 35 mm (half the smaller side)"),
        ("channel", {"radius": 37.5}, "at most 37 mm (what the flange and half the web leave)"),
        ("channel", {"gauge": 41}, "gauge = 41 mm: must be under 40 mm"),
        (
            "lipped channel",
            {"lip": 50},
            "lip = 50 mm: must be above 2 mm and under 50 mm (more than the gauge,",
        ),
        ("lipped channel", {"lip": 60}, "and the lips must not cross)"),
        ("lipped channel", {"radius": 17}, "radius = 17 mm: must be at least 0 mm and at most 16 mm"),
        (
            "hat",
            {"flange": 5, "radius": 6},
            "at most 5 mm (what flange, half the web and half the crown leave)",
        ),
        ("hat", {"gauge": math.nan}, "gauge = nan: must be above 0 mm"),
        ("closed hat", {"radius": 30}, "radius = 30 mm: must be at least 0 mm and at most 18 mm"),
        (
            "closed hat",
            {"seam": 3},
            "seam = 3 mm: must be at least 6 mm and at most 18 mm (from the end of the bend",
        ),
        ("closed hat", {"plate_gauge": 60}, "plate_gauge = 60 mm: must be under 56.8 mm"),
        (
            "closed hat",
            {"weld_rate": 1e5},
            "weld_rate = 100000 N/mm: must be given with weld_pitch; without both",
        ),
        ("closed hat", {"weld_rate": 1e5, "weld_pitch": 0}, "weld_pitch = 0 mm: must be above 0 mm"),
        ("two-shell box", {"joint": "glued"}, 'joint = \'glued\': must be "overlapped" or "flanged"'),
        (
            "two-shell box",
            {"split": 45},
            "split = 45 mm: must be above 2.5 mm and under 43.5 mm (both shells",
        ),
        (
            "two-shell box",
            {"overlap": 30},
            "overlap = 30 mm: must be above 0 mm and at most 20.5 mm (the straight",
        ),
        ("two-shell box", {"width": 9}, "width = 9 mm: must be above 10 mm (twice the sheets of one side)"),
        ("two-shell box", {"joint": "flanged", "seam": 20}, "must be at least 5 mm and at most 16 mm"),
        ("cast I", {"fillet": 25}, "fillet = 25 mm: must be at least 0 mm and at most 20 mm"),
        ("cast I", {"flange": 30}, "flange = 30 mm: must be under 30 mm (half the height)"),
        ("cast ribbed channel", {"ribs": -1}, "ribs = -1: must be a whole number, 0 or more"),
        (
            "cast ribbed channel",
            {"ribs": 20},
            "rib = 4 mm: must be under 3 mm (the ribs must fit side by side)",
        ),
        ("cast ribbed channel", {"rib_height": 40}, "rib_height = 40 mm: must be at most 39 mm"),
        ("cast ribbed channel", {"fillet": 9}, "fillet = 9 mm: must be at least 0 mm and at most 8.66667 mm"),
    ],
)
def test_shapes_that_cannot_be(name, changes, words):
    with pytest.raises(ShapeError) as error:
        make(name, **changes)
    assert str(error.value).startswith(f"{name}: ")
    assert words in str(error.value)


def test_all_faults_are_told_together():
    with pytest.raises(ShapeError) as error:
        SHAPES["closed hat"](width=-1, height=0, gauge=2, flange=18, radius=-2, weld_pitch=-3)
    named = {fault.parameter for fault in error.value.faults}
    assert named == {"width", "height", "radius", "weld_pitch"}
    assert len(error.value.faults) == 5
