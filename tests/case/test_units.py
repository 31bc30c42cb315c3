"""Numbers of the file. Factors: NIST Special Publication 811 (2008), appendix B, exact unless it says otherwise."""

from __future__ import annotations

import math
import subprocess
import sys

import pytest
from case_files import GOOD

from loadpath.case.units import LARGEST, NoQuantity, factor, read_quantity, with_unit


@pytest.mark.parametrize(
    ("written", "unit", "expected"),
    [
        (2.6, "mm", 2.6),
        (7, "mm", 7.0),
        ("2.6", "mm", 2.6),
        ("0.25 in", "mm", 6.35),  # 1 in = 25.4 mm
        ("1 ft", "mm", 304.8),
        ("4.5 kN", "N", 4500.0),
        ("1 lbf", "N", 4.4482216152605),
        ("1 lb", "kg", 0.45359237e-3),  # inside: tonne
        ("20", "kg", 0.02),
        ("1 psi", "MPa", 6894.757e-6),  # printed to 7 digits
        ("1 bar", "MPa", 0.1),
        ("210 GPa", "MPa", 210000.0),
        ("1 lbf/in", "N/mm", 0.1751268),  # printed to 7 digits
        ("9.5 kN/mm", "N/mm", 9500.0),
        ("60 N*m/rad", "N*mm/deg", 60000.0),  # inside: N mm for each radian
        ("60 N·m/°", "N*mm/deg", 60000.0 * 180 / math.pi),
        (1000, "N*mm/deg", 1000 * 180 / math.pi),
        ("180 deg", "deg", math.pi),
        (90, "deg", math.pi / 2),
        ("0.5 rad", "deg", 0.5),
        ("7.85 g/cm³", "kg/m3", 7.85e-9),  # inside: t/mm³
        (7850, "kg/m3", 7.85e-9),
        ("0.25 kg*m^2", "kg*mm2", 250.0),
        ("46 %", "", 0.46),
        ("16 %", "%", 16.0),
        (3.0, "g", 3.0),
        ("-12.5 mm", "mm", -12.5),
        ("+1e2 mm", "mm", 100.0),
        ("100 µm", "mm", 0.1),
        ("4500 N.mm", "N*mm", 4500.0),
    ],
)
def test_values_in_internal_units(written, unit, expected):
    assert read_quantity(written, unit) == pytest.approx(expected, rel=3e-7)


@pytest.mark.parametrize(
    ("written", "unit", "value", "half_width"),
    [
        ("2.6 ± 0.1", "mm", 2.6, 0.1),
        ("2.6 +- 0.1 mm", "mm", 2.6, 0.1),
        ("2.6 mm +/- 0.004 in", "mm", 2.6, 0.1016),
        ("1 in ± 0.01", "mm", 25.4, 0.254),
        ("9500 ± 15 %", "N/mm", 9500.0, 1425.0),
        ("-3 ± 5 %", "mm", -3.0, 0.15),
        ("20 ± 0.5", "kg", 0.02, 0.0005),
        ("60 N*m/rad ± 6", "N*mm/deg", 60000.0, 6000.0),
    ],
)
def test_a_tolerance_is_the_half_width_in_internal_units(written, unit, value, half_width):
    read = read_quantity(written, unit)
    assert read == pytest.approx(value, rel=1e-12)
    assert read.half_width == pytest.approx(half_width, rel=1e-12)


@pytest.mark.parametrize(
    ("written", "unit", "what", "expected"),
    [
        ("4.5 kN", "mm", "is a force", "a length"),
        ("60 N*m", "N*mm/deg", "is a moment", "a rotational rate"),  # an angle is no plain number
        ("60 N*m/rad", "N*mm", "is a rotational rate", "a moment"),
        ("3 mm", "", "is a length", "a plain number"),
        ("5 deg", "", "is an angle", "a plain number"),
        ("5 %", "mm", "is in per cent", "a length"),
        ("3 furlong", "mm", "unknown unit 'furlong'", "a length"),
        ("2,6 mm", "mm", "a decimal point, no comma", "a length"),
        ("12 3", "mm", "is not a number", "a length"),
        ("", "mm", "is not a number", "a length"),
        ("3 m*", "mm", "unknown unit", "a length"),
        ("3 m**9999999", "mm", "unknown unit", "a length"),
        ("3 import", "mm", "unknown unit", "a length"),
        ("3 m/ /m", "mm", "unknown unit", "a length"),
        ("9" * 400, "mm", "is not a number", "a length"),
        (True, "mm", "True is not a number", "a length"),
        ([1], "mm", "[1] is not a number", "a length"),
        (math.nan, "mm", "not a usable number", "a length"),
        (math.inf, "mm", "not a usable number", "a length"),
        (10**400, "mm", "not a usable number", "at most 1e+15"),
        ("1e400", "mm", "not a usable number", "at most 1e+15"),
        ("1 ± 1e400", "mm", "not a usable number", "at most 1e+15"),
    ],
)
def test_what_is_no_quantity_says_what_is_expected(written, unit, what, expected):
    with pytest.raises(NoQuantity) as caught:
        read_quantity(written, unit)
    assert what in caught.value.what
    assert expected in caught.value.expected


def test_a_misspelt_unit_has_its_neighbour_named():
    with pytest.raises(NoQuantity) as caught:
        read_quantity("4.5 kn", "N")
    assert caught.value.near == "kN"


def test_the_largest_number_is_still_read():
    assert read_quantity(LARGEST, "mm") == LARGEST


@pytest.mark.parametrize("unit", ["mm", "N*mm/deg", "kg", "kg/m3", "deg", "", "g"])
def test_text_of_a_value_is_in_the_unit_of_its_key(unit):
    assert with_unit(12.5 * factor(unit), unit).split() == ["12.5", unit][: 2 if unit else 1]


@pytest.mark.parametrize(("number", "loaded"), [("1400", False), ('"1.4 kN/mm"', True)])
def test_pint_is_loaded_only_for_a_string_with_a_unit(tmp_path, number, loaded):
    text = GOOD.replace(
        '"arm_rear_l"\nradial = 9500\naxial = 1400', f'"arm_rear_l"\nradial = 9500\naxial = {number}'
    )
    (tmp_path / "case.toml").write_text(text, encoding="utf-8")
    code = (
        "import sys; from loadpath.case import read_case; read_case(sys.argv[1]); "
        "sys.exit(('pint' in sys.modules) * 2 + any(m in sys.modules for m in ('pandas', 'matplotlib', 'anastruct')))"
    )
    done = subprocess.run([sys.executable, "-c", code, str(tmp_path / "case.toml")], check=False)
    assert done.returncode == 2 * loaded
