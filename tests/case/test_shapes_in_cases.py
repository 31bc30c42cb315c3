"""Every shape from a case file: read, solved, its notes and what it assumed told."""

import pytest
from case_files import edited, mistakes, read

from loadpath.case import profiles
from sections import SHAPES

RAIL = 'shape = "rectangular tube"\nwidth = 78\nheight = 70\ngauge = 2.5'
GIVEN = {
    "pinched tube": "diameter = 60\ngauge = 2.5\nheight = 40",
    "hydroformed tube": "width = 80\nheight = 60\nradius = 8\nblank_diameter = 80\nblank_gauge = 2.5",
    "tube with plate": "diameter = 42\ngauge = 3\nplate = 5\nplate_height = 80",
    "twin tube": "width = 40\nheight = 60\ngauge = 3\nweld_rate = 100000\nweld_pitch = 40",
    "extruded box": "width = 120\nheight = 60\ngauge = 3\ncells = 3",
    "fabricated box": "width = 80\nheight = 60\ntop = 4\nweb = 4\nhaz_strength = 0.55",
    "cast I": 'width = 50\nheight = 60\nweb = 6\nflange = 7\ndraft = "2 deg"',
    "cast T": "width = 80\nheight = 80\nweb = 9\nflange = 9",
    "cast cross": "width = 60\nheight = 70\nupright = 6\nlevel = 7",
    "cast box": "width = 80\nheight = 60\nsides = 5\ntop = 6\ncore_right = -0.8",
    "cast ribbed channel": "width = 70\nheight = 45\nwall = 5\nbase = 6\ndraft = 2",
    "cast crossed channel": "width = 90\nheight = 60\nwall = 5\nbase = 5\npitch = 90",
    "solid rectangle": "width = 40\nheight = 30\ndraft = 3",
    "closed hat": "width = 84\nheight = 62\ngauge = 2.6\nflange = 1",
    "rectangular tube": "width = 78\nheight = 70\ngauge = 2.5\nhole = 25\nhole_pitch = 60",
}


def with_rail(name):
    return edited((RAIL, f'shape = "{name}"\n{GIVEN[name]}'))


def rail(case):
    return next(
        m.sections[0][0] for p in case.model.parts.values() for m in p.members if "rail" in m.section_names
    )


@pytest.mark.parametrize("name", GIVEN)
def test_a_shape_in_a_case(name):
    case = read(with_rail(name))
    assert type(case.shapes["rail"]) is SHAPES[name]
    made = rail(case)
    assert made.area > 100
    assert made.J > 0


def notes(name):
    return [w for w in read(with_rail(name)).warnings if w.startswith("sections.rail: ")]


def test_notes_are_warnings_of_the_case():
    assert any("equivalent strip" in n for n in notes("rectangular tube"))
    assert any("hydroformed" not in n and "even thinning" in n for n in notes("hydroformed tube"))
    assert any("room for a radius of 1 mm only" in n for n in notes("closed hat"))
    assert any("0.55 of the strength of the grade" in n for n in notes("fabricated box"))


def test_weld_stiffness_and_ribs_are_told_in_the_member_s_material():
    (note,) = notes("twin tube")
    G = rail_material(read(with_rail("twin tube"))).G
    assert f"G {G:.6g} MPa" in note


def rail_material(case):
    return next(m.material for p in case.model.parts.values() for m in p.members if "rail" in m.section_names)


def test_what_a_shape_assumes_is_listed_and_what_does_not_count_is_not():
    box = edited((RAIL, 'shape = "two-shell box"\nwidth = 78\nheight = 70\nupper_gauge = 2.5'))
    told = {
        k.removeprefix("sections.rail."): v for k, v in read(box).defaults if k.startswith("sections.rail.")
    }
    assert told["overlap"] == "10 mm"
    assert told["radius"] == "5 mm"
    assert "flange" not in told
    assert "weld_rate" not in told


def test_a_fault_of_a_shape_says_what_is_and_what_is_expected():
    (mistake,) = mistakes(
        edited(("width = 78\nheight = 70\ngauge = 2.5", "width = 78\nheight = 70\ngauge = 35"))
    )
    assert mistake.path == "sections.rail.gauge"
    assert str(mistake) == "sections.rail.gauge: is 35 mm; expected under 35 mm (half the smaller side)"


def test_an_outline_that_crosses_itself_names_its_file():
    text = edited((RAIL, 'shape = "traced"\nkind = "outline"\nfile = "trace.csv"'))
    (mistake,) = mistakes(text, trace_csv="ring,y,z\n0,0,0\n0,10,10\n0,10,0\n0,0,8\n")
    assert (mistake.file, mistake.path) == ("trace.csv", "sections.rail.file")
    assert mistake.what == "the outline crosses itself at (y 4.444, z 4.444)"


def test_sections_are_shared_between_materials_only_where_they_may_be():
    case = read(with_rail("cast crossed channel"))
    assert rail(case).J > 0
    assert profiles._key(SHAPES["round tube"](diameter=20, gauge=2)) == profiles._key(
        SHAPES["round tube"](diameter=20, gauge=2)
    )
