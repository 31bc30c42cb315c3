"""Warnings about what is likely a slip: sides, ground, copies, springs that are missing."""

import pytest
from case_files import GOOD, edited, read


def warnings(*edits):
    return read(edited(*edits)).warnings if edits else read(GOOD).warnings


def test_points_on_the_other_side():
    told = warnings(("[points]", "[points]\nstray_l = [0, -300, 10]"))
    assert any("stray_l end in _l but lie on the right side" in w for w in told)


def test_a_wheel_off_the_ground():
    told = warnings(("cg_height = 760", "cg_height = 760\nground = -310"))
    assert any("lies 310 mm above vehicle.ground" in w for w in told)


def test_points_at_one_place():
    told = warnings(("[points]", "[points]\none = [1, 2, 3]\ntwo = [1, 2, 3]"))
    assert "points: one, two are at one place" in told


def test_the_good_file_has_none():
    assert warnings() == ()


@pytest.mark.parametrize("text", ["2.6 ± -0.1", "2.6 +- -1 mm"])
def test_a_tolerance_is_no_negative_number(text):
    from loadpath.case.units import NoQuantity, read_quantity

    with pytest.raises(NoQuantity):
        read_quantity(text, "mm")
