"""Free bodies: everything that acts is there once, and the sums close."""

from dataclasses import replace

import numpy as np
import pytest
from random_modules import random_cases, random_module

from loadpath.frame import solve
from loadpath.trace import closing_error, connections, free_bodies, moved, reverse, total, worth


@pytest.mark.parametrize("seed", range(8))
def test_every_part_closes(seed):
    model = random_module(seed)
    solution = solve(model, random_cases(model, seed))
    for c in range(len(solution.cases)):
        bodies = free_bodies(solution, c)
        for part in model.parts:
            assert closing_error(bodies[part], worth(bodies)) < 1e-10


def test_the_body_gets_what_the_ground_holds():
    model = random_module(6)
    solution = solve(model, random_cases(model, 6))
    for c in range(2):
        onto = total(free_bodies(solution, c)["body"], np.zeros(3))[:3]
        held = solution.ground_forces[:, :3, c].sum(axis=0)
        assert onto == pytest.approx(-held, abs=1e-6)


def test_a_force_that_got_lost_shows():
    model = random_module(0)
    solution = solve(model, random_cases(model, 0))
    forces = solution.joint_forces.copy()
    forces[solution.joint_names.index("ball")] *= 1 + 1e-6
    bodies = free_bodies(replace(solution, joint_forces=forces), 0)
    assert closing_error(bodies["knuckle"]) > 1e-8
    assert closing_error(bodies["cradle"]) < 1e-10


def test_a_mass_that_got_lost_shows():
    model = random_module(0)
    solution = solve(model, random_cases(model, 0))
    lighter = replace(model, masses={"hub": model.masses["hub"]})
    bodies = free_bodies(replace(solution, system=replace(solution.system, model=lighter)), 0)
    assert closing_error(bodies["cradle"]) > 1e-6


def test_action_and_reaction():
    model = random_module(1)
    solution = solve(model, random_cases(model, 1))
    bodies = free_bodies(solution, 0)
    for name in ("ball", "m2", "spring"):
        both = [a for actions in bodies.values() for a in actions if a.name == name]
        assert len(both) == 2
        assert total(both, np.zeros(3)) == pytest.approx(np.zeros(6), abs=1e-6)
        assert {both[0].on, both[0].source} == {both[1].on, both[1].source}


def test_the_body_is_always_the_target():
    model = random_module(1)
    for one in connections(solve(model, random_cases(model, 1))):
        assert one.source != "body"
        back = reverse(reverse(one))
        assert (back.source, back.points) == (one.source, one.points)
        assert back.positions == pytest.approx(one.positions)


def test_a_strut_pushes_both_ends_apart():
    """Compression positive: the force on the body points from the lower to the upper end."""
    model = random_module(1)
    solution = solve(model, random_cases(model, 1))
    found = {one.name: one for one in connections(solution)}
    line = model.points["high"] - model.points["low"]
    for name in ("spring", "damper"):
        push = solution.pushes[solution.push_names.index(name), 0]
        assert found[name].point == "high"
        assert found[name].wrench[:3, 0] @ line == pytest.approx(push * np.linalg.norm(line))


def test_moved_wrenches():
    force, arm = np.array([1.0, 2, 3]), np.array([4.0, 5, 6])
    found = moved(np.concatenate([force, [7, 8, 9]]), arm, np.zeros(3))
    assert found == pytest.approx([1, 2, 3, *(np.array([7, 8, 9]) + np.cross(arm, force))])
    many = moved(np.tile(np.concatenate([force, [7, 8, 9]])[:, None], 3), arm, np.zeros(3))
    assert many == pytest.approx(np.tile(found[:, None], 3))
