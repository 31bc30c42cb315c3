"""Force elements that are not locked and answer with a rate: closed forms of a lever on springs."""

from dataclasses import replace

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


def test_given_pushes_superpose():
    """The forces of 2 a - 0.5 b are those of a load case with their loads, and 1.5 times a push of 500 N."""
    model = lever(spring("stop", 0.0, force=500.0), spring("one", 60.0), kind="rigid")
    loads = [push(model, "lever", "tip", (0, 0, f)) for f in (300.0, -700.0)]
    a, b = (case(load) for load in loads)
    parts = [replace(load, force=f * load.force) for load, f in zip(loads, (2.0, -0.5), strict=True)]
    total = replace(a, loads=tuple(parts), pushes=1.5)
    solution = solve(model, [a, b, total])
    forces, pushes = solution.joint_forces, solution.pushes
    assert forces[..., 2] == pytest.approx(2 * forces[..., 0] - 0.5 * forces[..., 1], abs=1e-6)
    assert pushes[:, 2] == pytest.approx(2 * pushes[:, 0] - 0.5 * pushes[:, 1], abs=1e-6)
    assert pushes[0] == pytest.approx([500.0, 500.0, 750.0])
    assert all(not check.refusals for check in self_checks(solution))
