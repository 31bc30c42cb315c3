"""The table of what a section carries, against closed forms and the published plate."""

from dataclasses import replace

import numpy as np
import pytest
from published.section_geometry import path
from small_models import grade

from loadpath.report.section import resistance_table
from loadpath.report.section.properties import Use
from sections import SHAPES, section, walls_section


def rows(made, **changes):
    steel = replace(grade(), **changes)
    table = resistance_table("s", made, [Use((steel.name,), steel, (), 0.0, False)])
    return {row[0]: row[1:] for row in table.rows}, " ".join(table.notes)


def test_round_tube_is_plastic():
    """22 x 3, fy 355 (EN 10305-1): A fy = π/4 (22² − 16²) 355 and (22³ − 16³)/6 355 (closed forms)."""
    found, notes = rows(section(SHAPES["round tube"](diameter=22, gauge=3)), proof=355.0)
    number, _, method, value, unit = found["N, compression"]
    assert (number, method, unit) == (1, "plastic", "kN")
    assert value == pytest.approx(np.pi / 4 * (22**2 - 16**2) * 0.355, rel=2e-3)
    assert found["My, top pressed"][3] == pytest.approx((22**3 - 16**3) / 6 * 355e-6, rel=3e-3)
    assert "EN 1993-1-1" in notes


def test_box_of_the_published_plate_is_class_4():
    """Four plates of 300 x 8 in S355, each effective over 269.5 mm (published worked example of EN 1993-1-5 4.4)."""
    box = walls_section(path([(0, 0), (300, 0), (300, 300), (0, 300)], 8.0, closed=True))
    found, _ = rows(box, proof=355.0)
    number, wall, method, value, _ = found["N, compression"]
    assert (number, method) == (4, "effective section")
    assert "c/t 37.5" in wall
    assert value == pytest.approx(4 * 269.5 * 8 * 0.355, rel=1e-3)


def test_class_3_stops_at_first_yield_and_brittle_material_too():
    """c/t = 41 x ε lies between 38 and 42 ε (EN 1993-1-1 table 5.2); A fy either way for compression."""
    side = 41 * np.sqrt(235 / 355) * 4
    box = walls_section(path([(0, 0), (side, 0), (side, side), (0, side)], 4.0, closed=True))
    found, _ = rows(box, proof=355.0)
    assert found["N, compression"][0] == 3
    assert found["N, compression"][2:4] == ("first yield", pytest.approx(4 * side * 4 * 0.355))
    tube, _ = rows(section(SHAPES["round tube"](diameter=22, gauge=3)), elongation=3.0)
    assert tube["My, top pressed"][2] == "first yield"


def test_aluminium_class_4_is_not_worked_out():
    box = walls_section(path([(0, 0), (300, 0), (300, 300), (0, 300)], 8.0, closed=True))
    found, notes = rows(box, E=70000.0, G=26900.0, proof=250.0)
    assert found["N, compression"][0] == 4
    assert found["N, compression"][2:4] == ("not worked out", None)
    assert "EN 1999-1-1" in notes


def test_solid_bars_have_no_class():
    found, notes = rows(section(SHAPES["solid round"](diameter=30)))
    assert found["N, compression"][0] is None
    assert "No walls are known" in notes


def test_no_proof_stress_no_table():
    steel = replace(grade(), proof=None)
    bar = section(SHAPES["solid round"](diameter=30))
    assert resistance_table("s", bar, [Use((steel.name,), steel, (), 0.0, False)]) is None


def test_of_several_walls_in_class_4_the_worst_is_named():
    """A web of c/t 120 buckles long before lips of 14: elastic stresses go as k (t/c)² (Bryan 1891)."""
    lipped = section(SHAPES["lipped channel"](width=60, height=150, lip=20, gauge=1.2, radius=2))
    found, _ = rows(lipped, proof=355.0)
    assert found["N, compression"][0] == 4
    assert found["N, compression"][1].startswith("flat 143.6 x 1.2 mm")


def test_other_materials_of_the_section_are_named():
    bar = section(SHAPES["rectangular tube"](width=60, height=40, gauge=3))
    steel = grade()
    used = [Use((steel.name, "S500"), steel, (), 0.0, False)]
    table = resistance_table("s", bar, used)
    assert table is not None
    assert table.title.endswith(steel.name)
    assert "Not for members in S500." in table.notes


def test_class_4_walls_of_different_strength_have_no_effective_section():
    """It counts one yield stress; taking it for walls of less would be on the unsafe side."""
    shape = SHAPES["fabricated box"](width=200, height=200, top=1.5, bottom=1.5, web=1.5, haz_strength=0.5)
    steel = grade()
    table = resistance_table("s", section(shape), [Use((steel.name,), steel, (), 0.0, False)])
    assert table is not None
    assert table.rows[0][3:5] == ("not worked out", None)
