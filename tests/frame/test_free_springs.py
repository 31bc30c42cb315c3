"""Force elements that are not locked and answer with a rate: closed forms of a lever on springs."""

import numpy as np
import pytest
from small_models import bare_section, build, case, frame, joint, member, movement, push

from loadpath.frame import self_checks, solve
from loadpath.model import ForceElement, Part

BOX = bare_section(1200, 6e7, 4e7, 7e7)


def lever(*springs, kind="rigid"):
    """A lever of 400 mm on a hinge across it, its springs upright from the point `seat` at 250 mm."""
    points = {"pivot": (0, 0, 0), "seat": (250, 0, 0), "tip": (400, 0, 0), "top": (250, 0, 300)}
    path = ("pivot", "seat", "tip")
    part = Part("lever", "rigid") if kind == "rigid" else frame("lever", member("bar", path, BOX))
    pivot = joint("pivot", "hinge", "lever", "body", "pivot", (0, 1, 0))
    return build(points, [part], [pivot], forces=springs)


def spring(name, rate, force=0.0):
    return ForceElement(name, ("lever", "body"), ("seat", "top"), "w", False, force, rate, None, rate)


@pytest.mark.parametrize("kind", ["rigid", "frame"])
def test_a_lever_on_two_springs_side_by_side(kind):
    """Moment about the hinge: F·400 = (k1 + k2)·δ·250, δ at the springs; each takes its share of rate."""
    model = lever(spring("one", 60.0), spring("two", 90.0), kind=kind)
    solution = solve(model, [case(push(model, "lever", "seat", (0, 0, 1000.0)))])
    assert movement(solution, "lever", "seat")[2] == pytest.approx(1000 / 150, rel=1e-6)
    assert dict(zip(solution.push_names, solution.pushes[:, 0], strict=True)) == pytest.approx(
        {"one": 400.0, "two": 600.0}, rel=1e-6
    )
    (check,) = self_checks(solution)
    assert check.equilibrium < 1e-9
    assert check.balance < 1e-9


def test_a_given_push_acts_beside_the_rate():
    """A push of 500 N down on the lever against 60 N/mm: it goes down until the spring has nothing left."""
    model = lever(spring("one", 60.0, force=500.0))
    solution = solve(model, [case()])
    assert movement(solution, "lever", "seat")[2] == pytest.approx(-500 / 60, rel=1e-9)
    assert solution.pushes[0, 0] == pytest.approx(0, abs=1e-9)
    assert np.abs(solution.residual).max() < 1e-9
