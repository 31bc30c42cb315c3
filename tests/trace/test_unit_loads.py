"""The unit-load matrix: any load case run through it gives the solution's forces."""

from dataclasses import replace

import numpy as np
import pytest
from random_modules import random_cases, random_module

from loadpath.case import read_case
from loadpath.frame import solve
from loadpath.loads import build
from loadpath.model import Pose, contact_patch, curve_through
from loadpath.trace import connections, unit_loads


def amounts(found, model, case):
    """How much of each input a load case has, put together from the case by hand."""
    axes = np.array([model.axes.forward, model.axes.left, model.axes.up])
    have = {}
    for load in case.loads:
        wheel = next((w for w in model.wheels.values() if w.part == load.part), None)
        if wheel is None:
            moment = load.moment + np.cross(load.position - model.points[load.point], load.force)
            assert not load.force.any()
            pairs = [(f"{load.part}", "moment about", moment / 1e6)]
        else:
            centre = model.points[wheel.centre]
            patch = contact_patch(model, wheel)
            at_patch = np.allclose(load.position, patch)
            place, at = ("contact patch", patch) if at_patch else ("wheel centre", centre)
            moment = load.moment + np.cross(load.position - at, load.force)
            pairs = [
                (f"{wheel.name} {place}", "force", load.force / 1e3),
                (wheel.name, "moment about", moment / 1e6),
            ]
        for where, what, vector in pairs:
            for word, value in zip(("forward", "left", "up"), axes @ vector, strict=True):
                key = where, f"{what} {word}"
                have[key] = have.get(key, 0.0) + value
    for word, value in zip(("forward", "left", "up"), axes @ case.field / 9806.65, strict=True):
        have["all masses", f"field {word}"] = value
    have["body", "roll"] = np.degrees(case.roll)
    have["without load", "given pushes and wind-up"] = 1.0
    return np.array([have.get((i.where, i.direction), 0.0) for i in found.inputs])


def compare(solution, found, c, rel=1e-9):
    model, whole = solution.system.model, connections(solution)
    largest = max(np.abs(one.wrench[:3, c]).max() for one in whole)
    many = amounts(found, model, solution.cases[c])
    for answer, one in zip(found.outputs, whole, strict=True):
        assert answer.name == one.name
        assert (answer.wrench @ many)[:3] == pytest.approx(one.wrench[:3, c], abs=rel * largest)
        assert (answer.wrench @ many)[3:] == pytest.approx(one.wrench[3:, c], abs=rel * largest * 1e3)


def test_every_load_case_of_the_demo(pytestconfig):
    """Wheel loads, half-shaft torques, masses and roll: mount and joint forces to 1e-9."""
    case = read_case(pytestconfig.rootpath / "cases" / "light_van_rear.toml")
    cases = build(case.load_specs, case.vehicle, case.model)
    solution = solve(case.model, [c for c in cases.values() if not c.part_fields])
    found = unit_loads(solution)
    assert any(i.where == "drive_unit" for i in found.inputs)
    for c in range(len(solution.cases)):
        compare(solution, found, c)


def test_without_masses_the_wheels_alone(pytestconfig):
    """The same without a field: the columns of the wheels are all there is."""
    case = read_case(pytestconfig.rootpath / "cases" / "light_van_rear.toml")
    made = build(case.load_specs, case.vehicle, case.model)["braking"]
    solution = solve(case.model, [replace(made, field=np.zeros(3))])
    found = unit_loads(solution)
    many = amounts(found, case.model, solution.cases[0])
    used = {i.where for i, a in zip(found.inputs, many, strict=True) if a}
    assert used == {"wheel_l contact patch", "wheel_r contact patch"}
    compare(solution, found, 0)


def test_given_pushes_stand_beside_the_loads():
    """A damper's force acts in every load case of the solution: once by itself, in no unit of load."""
    model = random_module(0)
    solution = solve(model, random_cases(model, 0, still=True)[:1])
    found = unit_loads(solution)
    damper = next(one for one in found.outputs if one.name == "damper")
    assert not damper.wrench[:, :-1].any()
    assert np.linalg.norm(damper.wrench[:3, -1]) == pytest.approx(model.force_elements["damper"].force)
    lifted = next(k for k, i in enumerate(found.inputs) if i.direction == "force up")
    onto = sum(one.wrench[:3, lifted] for one in found.outputs if one.target == "body")
    assert onto == pytest.approx([0, 0, 1000], abs=1e-6)
    compare(solution, found, 0)


@pytest.mark.parametrize("seed", range(3))
def test_a_pose_with_wind_up_is_met(seed):
    """Wheel loads, masses, damper and what a pose has wound up, put together again: 1e-9."""
    model = random_module(seed)
    wound = {n: np.full(6, 0.1) * [1, -2, 3, 0.01, 0.02, -0.01] for n in ("m1", "m2", "arm1")}
    posed = replace(model, pose=Pose({"w": 20.0}, {}, wound, {}, {}))
    cases = [replace(c, strain=1.0) for c in random_cases(model, seed, still=True)[:1]]
    solution = solve(posed, cases)
    compare(solution, unit_loads(solution), 0)


def test_force_tables_are_taken_at_rest_and_named():
    """Under a load so small that the bushing stays at its rate, the table changes nothing."""
    model = random_module(0)
    x = np.linspace(-5, 5, 41)
    rates = model.joints["m1"].rates
    table = curve_through(x, rates.axial * x + 200 * x**3)
    bent = replace(model.joints["m1"], rates=replace(rates, curves=(table, *rates.curves[1:])))
    curved = replace(model, joints={**model.joints, "m1": bent})
    cases = random_cases(model, 0, still=True)[:1]
    found = unit_loads(solve(curved, cases))
    assert found.at_rest == ("m1",)
    straight = unit_loads(solve(model, cases))
    assert straight.at_rest == ()
    for one, other in zip(found.outputs, straight.outputs, strict=True):
        assert one.wrench == pytest.approx(other.wrench, rel=1e-9, abs=1e-6)


def test_roll_is_an_input_only_where_a_case_has_any():
    model = random_module(0)
    inputs = unit_loads(solve(model, random_cases(model, 0))).inputs
    assert [i.where for i in inputs if i.unit == "deg"] == []
    assert len(inputs) == 12 + 1
