"""Stress and forces between the ends of elements, and masses of tapers, against closed forms."""

import importlib
from dataclasses import replace

import numpy as np
import pytest
from small_models import build, case, frame, grade, member, push

from loadpath.frame import look_along, section_forces, self_checks, solve, stress_peaks
from loadpath.model import TAPER_STATIONS, LineLoad, weights
from sections import SHAPES, section

STEEL = grade(density=7.85e-9)


def round_bar(diameter):
    return section(SHAPES["solid round"](diameter=float(diameter)))


def cantilever(first, last, length=400.0):
    chain = tuple(round_bar(first + (last - first) * x) for x in TAPER_STATIONS)
    points = {"root": (0, 0, 0), "tip": (length, 0, 0)}
    part = frame("f", member("m", ("root", "tip"), (chain,), STEEL))
    return build(points, [part], supports={"root": ("f", "welded")})


@pytest.mark.parametrize(("first", "last"), [(80, 20), (60, 10), (40, 20), (20, 50)])
def test_mass_and_centre_of_a_taper(first, last):
    """Frustum of a cone: V = pi L (D² + D d + d²)/12, centre at L (D² + 2 D d + 3 d²)/(4 (D² + D d + d²))."""
    model, length = cantilever(first, last), 400.0
    solution = solve(model, [case(field=(0, 0, -1000.0))])
    found = weights(model)
    square = first**2 + first * last + last**2
    mass = 7.85e-9 * np.pi * length * square / 12
    centre = length * (first**2 + 2 * first * last + 3 * last**2) / (4 * square)
    assert found.mass[0] == pytest.approx(mass, rel=1e-3)
    assert found.centre[0, 0] == pytest.approx(centre, rel=1e-3)
    root = -solution.joint_forces[0, :, 0]
    assert root[2] == pytest.approx(1000 * mass, rel=1e-3)
    assert abs(root[4]) == pytest.approx(1000 * mass * centre, rel=1e-3)


def test_stress_of_a_taper_peaks_between_its_stations():
    """Round cantilever 80 to 20: 32 M/(pi d³) is largest where d = 3/2 of the tip's, at x = 5/6 of the length."""
    model = cantilever(80, 20)
    solution = solve(model, [case(push(model, "f", "tip", (0, 0, -10_000)))])
    peaks = stress_peaks(solution, look_along(solution))
    x = 400 * 5 / 6
    exact = 32 * 10_000 * (400 - x) / (np.pi * 30**3)
    assert peaks.von_mises[0, 0] == pytest.approx(exact, rel=0.01)
    assert peaks.fraction[0, 0] == pytest.approx(5 / 6, abs=0.03)


def test_span_moment_of_a_propped_beam():
    """Fixed and simply supported, uniform load: 9 q L²/128 at 5/8 from the fixed end (handbook)."""
    points = {"a": (0, 0, 0), "b": (2000, 0, 0)}
    bar = round_bar(40)
    part = frame("f", member("m", ("a", "b"), bar, STEEL))
    model = build(points, [part], supports={"a": ("f", "welded"), "b": ("f", "floor", (0, 0, 1))})
    load = case(line_loads=(LineLoad("f", "m", np.array([0, 0, -2.0]), "q"),))
    solution = solve(model, [load])
    sag = section_forces(solution, np.linspace(0.3, 1, 71))[0, :, 4, 0]
    assert np.abs(sag).max() == pytest.approx(9 * 2.0 * 2000**2 / 128, rel=2e-3)
    looks = look_along(solution)
    assert len(looks.rows) > 10
    root = 2.0 * 2000**2 / 8 / (np.pi * 40**3 / 32)
    assert stress_peaks(solution, looks).von_mises[0, 0] == pytest.approx(root, rel=0.01)


def test_a_mass_lost_on_the_way_is_refused(monkeypatch):
    """The balance is taken from masses worked out on their own, so that it can fail."""
    model = cantilever(40, 20)
    heavier = replace(model, title="same")
    solving = importlib.import_module("loadpath.frame.solve")
    lost = solving.line_numbers
    monkeypatch.setattr(solving, "line_numbers", lambda system, cases: 0.5 * lost(system, cases))
    (check,) = self_checks(solving.solve(heavier, [case(field=(0, 0, -9806.65))]))
    assert check.balance > 0.1
    assert any("close only to" in refusal for refusal in check.refusals)


def test_a_part_may_have_a_field_of_its_own():
    """One bar hangs in the vehicle's field, the other in twice that."""
    points = {"a": (0, 0, 0), "b": (500, 0, 0), "c": (0, 300, 0), "d": (500, 300, 0)}
    bar = round_bar(20)
    parts = [frame("p", member("m", ("a", "b"), bar, STEEL)), frame("q", member("m", ("c", "d"), bar, STEEL))]
    model = build(points, parts, supports={"a": ("p", "welded"), "c": ("q", "welded")})
    down = np.array([0, 0, -9806.65])
    solution = solve(model, [case(field=down, part_fields={"q": 2 * down})])
    plain, double = solution.joint_forces[:, 2, 0]
    assert double == pytest.approx(2 * plain, rel=1e-9)
    assert not self_checks(solution)[0].refusals


def test_wild_rotations_are_refused():
    points = {"a": (0, 0, 0), "b": (1000, 0, 0)}
    soft = grade(E=210.0, G=80.0)
    model = build(
        points, [frame("f", member("m", ("a", "b"), round_bar(20), soft))], supports={"a": ("f", "welded")}
    )
    (check,) = self_checks(solve(model, [case(push(model, "f", "b", (0, 0, -1000)))]))
    assert any("f turns by" in r and "wrong unit" in r for r in check.refusals)
