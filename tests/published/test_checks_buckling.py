"""Column buckling: EN 1993-1-1 6.3.1 against a published worked example and closed forms."""

import numpy as np
import pytest
from small_models import bare_section, build, case, grade, joint, link, push

from loadpath.checks import analyse, run_checks
from loadpath.checks.buckling import euler_load, reduction_factor


def test_euler_load_of_a_column():
    """'Steel Buildings in Europe' Part 4, worked example A.5: I = 8560 cm4, L = 5.6 m -> 5657.4 kN."""
    column = bare_section(14900, 8.56e7, 2e8)
    assert euler_load(210000, column, 5600) / 1e3 == pytest.approx(5657.4, rel=1e-4)


def test_reduction_factor_of_curve_b():
    """The same example: A = 149 cm2, fy = 235, Ncr = 8151.2 kN: lambda 0.655, phi 0.792, chi 0.808 on curve b."""
    slenderness = np.sqrt(14900 * 235 / 8151.2e3)
    assert slenderness == pytest.approx(0.655, abs=5e-4)
    assert float(reduction_factor(0.655, 0.34)) == pytest.approx(0.808, abs=6e-4)


def test_no_reduction_below_the_plateau():
    """EN 1993-1-1 6.3.1.2 (4): none up to a slenderness of 0.2."""
    assert float(reduction_factor(0.2, 0.49)) == pytest.approx(1.0)
    assert float(reduction_factor(0.1, 0.49)) == 1.0


def test_aluminium_class_a_reference():
    """EN 1999-1-1 6.3.1.2, tube 24 x 3, L = 420, fo = 260, class A: Nb/1.1 = 27.99 kN (from memory, recomputed)."""
    area, inertia = np.pi * (24**2 - 18**2) / 4, np.pi * (24**4 - 18**4) / 64
    critical = euler_load(70000, bare_section(area, inertia, inertia), 420)
    squash = area * 260
    chi = float(reduction_factor(np.sqrt(squash / critical), 0.20, 0.10))
    assert chi * squash / 1.1 / 1e3 == pytest.approx(27.9905, rel=1e-4)


def strut(force):
    points = {"a": (0, 0, 0), "b": (1000, 0, 0)}
    rod = link("rod", "a", "b", bare_section(400, 1.2e4, 2e4), grade())
    model = build(points, [rod], [joint("a", "ball", "rod", "body", "a")], {"b": ("rod", "shoe", (1, 0, 0))})
    load = case(push(model, "rod", "b", (force, 0, 0)), name="load")
    return [r for r in run_checks(analyse(model, {"load": load})) if r.kind == "column buckling"]


def test_a_compressed_link_is_judged_and_a_pulled_one_is_not():
    (row,) = strut(-10_000.0)
    critical = np.pi**2 * 210000 * 1.2e4 / 1000**2
    chi = float(reduction_factor(np.sqrt(400 * 420 / critical), 0.49))
    assert row.utilisation == pytest.approx(10_000 / (chi * 400 * 420), rel=1e-9)
    assert "EN 1993-1-1 6.3.1" in row.basis
    assert strut(10_000.0) == []
