"""Sections along members: tapers in proportion, equal sections as one object."""

# ruff: noqa: E501 - texts of case files
from __future__ import annotations

import pytest
from case_files import GOOD, edited, mistakes, read

from loadpath.case import profiles
from loadpath.model import TAPER_STATIONS
from sections.shapes import RectangularTube

RAIL = 'path = ["mount_l", "rail_front_l", "rail_rear_l"]\nsection = "rail"'


def rail(sections: str):
    return edited((RAIL, RAIL.replace('"rail"', sections)))


def members(case, part):
    return {m.name: m for m in case.model.parts[part].members}


def test_a_taper_has_a_section_at_each_station_with_its_lengths_in_proportion():
    found = members(read(rail('["rail", "cross", "cross"]')), "cradle")["rail_l"]
    assert found.section_names == ("rail", "cross", "cross")
    tapered, prismatic = found.sections
    assert len(tapered) == len(TAPER_STATIONS) == 7
    assert len(prismatic) == 1
    assert prismatic[0] is tapered[-1]
    middle = RectangularTube(
        width=81.0, height=66.0, gauge=2.55
    )  # halfway from 78 x 70 x 2.5 to 84 x 62 x 2.6
    assert tapered[3].area == pytest.approx(profiles.section(middle, 0.3).area, rel=1e-9)
    ends = (78 - 84) * TAPER_STATIONS + 84
    widths = [s.box[1, 0] - s.box[0, 0] for s in tapered]
    assert widths == pytest.approx(list(ends[::-1]), abs=0.01)


def test_equal_sections_are_one_object_whatever_they_are_called():
    text = edited(("[sections.cross]", '[sections.same]\nshape = "rectangular tube"\nwidth = 84\nheight = 62\ngauge = 2.6\n[sections.cross]'),
                  ('section = "cross"\nmaterial', 'section = "same"\nmaterial'))  # fmt: skip
    case = read(text)
    found = members(case, "cradle")
    assert found["front"].sections[0][0] is found["rear"].sections[0][0]
    arm = members(case, "arm_r")
    assert arm["front"].sections[0][0] is arm["rear"].sections[1][0]


def test_there_and_back_again_shares_every_station():
    first, second = members(read(rail('["rail", "cross", "rail"]')), "cradle")["rail_l"].sections
    assert [id(s) for s in first] == [id(s) for s in second[::-1]]


def test_only_sections_of_members_are_worked_out(monkeypatch):
    known, asked = profiles.section, []
    monkeypatch.setattr(profiles, "section", lambda shape, nu: asked.append(shape) or known(shape, nu))
    case = read(GOOD + '\n[sections.idle]\nshape = "round tube"\ndiameter = 20\ngauge = 2\n')
    assert len(asked) == 3
    assert case.shapes["idle"].diameter == 20
    assert case.warnings == ("sections: nothing uses idle",)


def test_the_poisson_ratio_of_the_material_reaches_a_true_outline(monkeypatch):
    known, asked = profiles.section, []
    monkeypatch.setattr(profiles, "section", lambda shape, nu: asked.append(nu) or known(shape, nu))
    bar = 'shape = "solid round"\ndiameter = 24'
    read(edited(('shape = "rectangular tube"\nwidth = 84\nheight = 62\ngauge = 2.6', bar)))
    assert sorted(asked) == [0.29, 0.3, 0.3, 0.3]  # the bar once for steel, once for the trial grade


@pytest.mark.parametrize(
    ("sections", "what"),
    [
        ('["rail", "cross"]', "2 sections for 3 points"),
        ("[]", "0 sections for 3 points"),
        ('["rail", "leg", "leg"]', "rail and leg are of different shapes"),
        ('["box_a", "box_b", "box_b"]', "box_a and box_b differ in joint, which cannot taper"),
        ('["rail", "round", "round"]', "rail and round differ in radius, which cannot taper"),
    ],
)
def test_what_cannot_taper(sections, what):
    box = '[sections.NAME]\nshape = "two-shell box"\nwidth = 60\nheight = 50\nupper_gauge = 2.5\njoint = "KIND"\n'
    more = box.replace("NAME", "box_a").replace("KIND", "overlapped") + box.replace("NAME", "box_b").replace(
        "KIND", "flanged"
    )
    more += '[sections.round]\nshape = "rectangular tube"\nwidth = 78\nheight = 70\ngauge = 2.5\nradius = 6\n'
    (mistake,) = mistakes(rail(sections) + more)
    assert mistake.path == "parts.cradle.members.rail_l.section"
    assert mistake.what == what
