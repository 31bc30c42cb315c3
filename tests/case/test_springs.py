"""Springs, stops and bushing tables of the case file: what the model gets, twins included."""

from __future__ import annotations

import numpy as np
import pytest
from case_files import GOOD, edited, read

FLIP = np.diag([1.0, -1.0, 1.0])
"""Reflection in the plane y = 0."""
SPRING = 'wheel = "rear_l"\nrate = 150'
BUSHING = 'axis = "arm_rear_l"\nradial = 9500\naxial = 1400'
STRUT = """
[struts.NAME_l]
between = ["arm_l", "body"]
ends = ["strut_low_l", "strut_top_l"]
wheel = "rear_l"
"""
TABLES = """axis = "arm_rear_l"
radial_toward = [0.2, 0.9, 0.3]
axial_table = { travel = [-2, 0, 3], force = ["-5 kN", 0, 6000] }
radial_table = { travel = [-1, 0, 1, 2], force = [-3000, 0, 9000, 25000] }
second_radial_table = { travel = ["-0.1 in", 0, 1], force = [-8000, 0, 2000] }
torsional_table = { angle = [-10, 0, 20], moment = [-30000, 0, 40000] }
conical_table = { angle = [-5, 0, 4], moment = [-90000, 0, 50000] }
second_conical_table = { angle = [-3, 0, 6], moment = [-70000, 0, 60000] }
"""


def strut(name, text):
    return read(GOOD + STRUT.replace("NAME", name) + text).model.force_elements[f"{name}_r"]


def push(element, shorter):
    """Push at so much less than the length at design height, here 400 mm."""
    return float(element.law.push(np.array(400.0 - shorter), 400.0))


def test_coil_by_load_and_by_free_length():
    points = read(GOOD).model.points
    length = np.linalg.norm(points["strut_top_l"] - points["strut_low_l"])
    by_load = read(edited((SPRING, SPRING + '\nload = "12 kN"'))).model.force_elements["spring_r"]
    free = f"\nfree_length = {length + 80}"
    by_length = read(edited((SPRING, SPRING + free))).model.force_elements["spring_r"]
    for element in (by_load, by_length):
        assert float(element.law.push(np.array(length - 10), length)) == pytest.approx(12000 + 1500)
    assert read(GOOD).model.force_elements["spring_r"].law is None


def test_a_free_spring_pushes_with_its_law_at_design_height():
    found = strut("helper", "rate = 20\nload = 900\nlocked = false")
    assert (found.locked, found.force, found.rate) == (False, 900, 20)


def test_air_spring_by_pressure_and_by_table():
    found = strut(
        "air",
        'element = "air spring"\nlocked = false\npressure = "5 bar"\narea = 9000\n'
        'volume = "1.2e6 mm^3"\nexponent = 1.3\n',
    )
    assert found.force == pytest.approx(0.5 * 9000)
    absolute = 0.5 + 0.101325
    squeezed = absolute * (1.2e6 / (1.2e6 - 9000 * 30)) ** 1.3 - 0.101325
    assert push(found, 30) == pytest.approx(squeezed * 9000)
    assert found.rate == pytest.approx(1.3 * absolute * 9000**2 / 1.2e6)
    table = "table = { travel = [-60, 0, 60], force = [2000, 4000, 9000] }"
    by_table = strut("air", f'element = "air spring"\nlocked = false\n{table}')
    assert [push(by_table, x) for x in (-60, 0, 60)] == pytest.approx([2000, 4000, 9000])


def test_stops_push_and_pull_beyond_their_gap():
    table = "gap = 20\ntable = { travel = [0, 10, 20], force = [0, 2000, 9000] }"
    bump = strut("bump", f'element = "bump stop"\n{table}')
    rebound = strut("rebound", f'element = "rebound stop"\n{table}')
    assert [push(bump, x) for x in (-40, 0, 20, 30, 40)] == pytest.approx([0, 0, 0, 2000, 9000])
    assert [push(rebound, x) for x in (40, 0, -20, -30, -40)] == pytest.approx([0, 0, 0, -2000, -9000])
    assert not bump.locked
    assert not rebound.locked


def test_the_rate_of_a_table_is_its_slope_at_rest():
    joint = read(
        edited(
            (
                BUSHING,
                'axis = "arm_rear_l"\nradial = 9500\naxial_table = { travel = [0, 2], force = [0, 5000] }',
            )
        )
    )
    rates = joint.model.joints["arm_front_l"].rates
    assert rates.axial == pytest.approx(2500)
    assert rates.curves[0].value(-2.0) == pytest.approx(-5000)


def answer(joint, moved, turned):
    """Force and moment in space that a movement in space asks for."""
    own = np.concatenate([joint.axes @ moved, joint.axes @ turned])
    force = np.array([float(c.value(x)) for c, x in zip(joint.rates.curves, own, strict=True)])
    return joint.axes.T @ force[:3], joint.axes.T @ force[3:]


def test_signed_tables_of_a_twin_answer_as_in_a_mirror():
    joints = read(edited((BUSHING, TABLES))).model.joints
    rng = np.random.default_rng(3)
    for _ in range(20):
        moved, turned = rng.uniform(-2, 2, 3), rng.uniform(-0.1, 0.1, 3)
        force, moment = answer(joints["arm_front_l"], moved, turned)
        mirrored = answer(joints["arm_front_r"], FLIP @ moved, -FLIP @ turned)
        assert mirrored[0] == pytest.approx(FLIP @ force, rel=1e-12)
        assert mirrored[1] == pytest.approx(-FLIP @ moment, rel=1e-12)
