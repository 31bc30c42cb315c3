"""Axle and wheel loads of a rigid vehicle against published equations; the vehicle's numbers are invented.

Tolerances are those of the reference list, 1e-6. `MASS` is 1650 kg with its centre 1320 mm behind the front axle
of a wheelbase of 2750 mm, 560 mm above the ground.
"""

import math

import pytest
from loads.vehicles import axles, forces, one, van

from loadpath.loads import STANDARD_GRAVITY as G
from loadpath.loads import axle_loads, lateral_transfer, longitudinal_transfer, traction_limit
from loadpath.model import AxleData, Vehicle

AXLE = AxleData(1550.0, 0.0, 0.0, 0.0, 0.58)
CAR = Vehicle(1.65, 1 - 1320 / 2750, 2750.0, 560.0, 0.0, None, AXLE, AxleData(1550.0, 0.0, 0.0, 0.0, 0.42))
BOTH_AXLES = axles(("front", "rear"), drive="half-shaft")


def near(expected):
    return pytest.approx(expected, rel=1e-6)


def test_gillespie_ch_1_static_axle_loads():
    """T. D. Gillespie, Fundamentals of Vehicle Dynamics, ch. 1 (dynamic axle loads)."""
    loads = axle_loads(CAR)
    assert loads["front"] == near(8414.1057)
    assert loads["rear"] == near(7766.8668)
    wheels = forces(one("static", CAR, BOTH_AXLES), BOTH_AXLES)
    assert [w[2] for w in wheels.values()] == near([8414.1057 / 2] * 2 + [7766.8668 / 2] * 2)


def test_gillespie_ch_1_braking():
    """Gillespie ch. 1: 0.8 g; transfer 2636 N, whatever the suspension's anti-dive."""
    loads = axle_loads(CAR, forward=-0.8 * G)
    assert loads["front"] == near(11050.13322)
    assert loads["rear"] == near(5130.83928)
    assert -longitudinal_transfer(CAR, -0.8 * G) == near(2636.02752)
    wheels = forces(one("braking", CAR, BOTH_AXLES, g=0.8), BOTH_AXLES)
    assert wheels["front_l"][2] == near(11050.13322 / 2)
    # ideal share of the braking force: front Wf / W at the same friction
    assert wheels["front_l"][0] == near(-0.8 * 11050.13322 / 2)


def test_gillespie_ch_1_acceleration_on_a_grade():
    """Gillespie ch. 1: 0.3 g up a grade of 20 %."""
    slope = math.atan(0.2)
    loads = axle_loads(CAR, forward=(0.3 + math.sin(slope)) * G, vertical=math.cos(slope))
    assert loads["front"] == near(6615.989720965456)
    assert loads["rear"] == near(9250.759226420741)
    case = one("combined", CAR, BOTH_AXLES, longitudinal=0.3, grade=20.0)
    wheels = forces(case, BOTH_AXLES)
    assert 2 * wheels["front_r"][2] == near(6615.989720965456)
    assert 2 * wheels["rear_r"][2] == near(9250.759226420741)


def test_gillespie_ch_2_traction_limit():
    """Gillespie ch. 2 (traction limit, independent suspension): friction 0.85, no drag."""
    assert traction_limit(CAR, "front", 0.85) == near(3694.9730548667072)
    assert traction_limit(CAR, "rear", 0.85) == near(4838.637335092348)


# sprung 1450 kg at 600 mm, 1300 mm behind the front axle; 100 kg unsprung on each axle at 310 mm
SPRUNG_FRONT = 1.45 * (2750 - 1300) / 2750
LEANING = Vehicle(
    mass=1.65,
    front_share=(SPRUNG_FRONT + 0.1) / 1.65,
    wheelbase=2750.0,
    cg_height=(1.45 * 600 + 0.2 * 310) / 1.65,
    ground=0.0,
    roll_stiffness=107e6,
    front=AxleData(1560.0, 0.1, 310.0, 60.0, 65 / 107),
    rear=AxleData(1540.0, 0.1, 310.0, 120.0, 42 / 107),
)


def test_milliken_ch_18_lateral_transfer():
    """W. F. and D. L. Milliken, Race Car Vehicle Dynamics, ch. 18 / Gillespie ch. 6: 0.7 g, gravity term in."""
    found = lateral_transfer(LEANING, 0.7 * G)
    front, rear = (found.axles[a].total for a in ("front", "rear"))
    assert found.roll == near(0.05106758527154016)
    assert front / 1560 == near(2466.0883296708166)
    assert rear / 1540 == near(1897.5921838519214)
    assert front + rear == near(6769389.757418432)


def test_milliken_ch_18_wheel_loads_of_a_turn():
    """The same as wheel loads: outer = static / 2 + transfer, inner = static / 2 - transfer."""
    model = axles(("front", "rear"))
    wheels = forces(one("cornering", LEANING, model, g=0.7, turn="right"), model)
    assert (wheels["front_l"][2] - wheels["front_r"][2]) / 2 == near(2466.0883296708166)
    assert (wheels["rear_l"][2] - wheels["rear_r"][2]) / 2 == near(1897.5921838519214)


def test_superposed_braking_and_left_turn():
    """Superposition of the Gillespie and Milliken equations: 0.5 g and 0.6 g, front takes 58 % of the moment."""
    case = one("combined", CAR, BOTH_AXLES, longitudinal=-0.5, lateral=0.6, turn="left")
    wheels = forces(case, BOTH_AXLES)
    order = ("front_l", "front_r", "rear_l", "rear_r")
    expected = [2996.3934365806454, 7065.229463419355, 1586.4755489032261, 4532.874051096775]
    assert [wheels[w][2] for w in order] == near(expected)


def lower_joint(case):
    """Force along the vehicle [N] in the lower of two joints of the left knuckle, 200 and 550 mm up.

    Moments about the upper joint; vertical forces have no arm, wheel and joints stand on one vertical.
    """
    loads = [p for p in case.loads if p.part == "knuckle_rear_l"]
    return sum(p.force[0] * (550 - p.position[2]) + p.moment[1] for p in loads) / (550 - 200)


@pytest.mark.parametrize(("drive", "expected"), [("hub", 11000.0), ("half-shaft", 4400.0)])
def test_lever_effect_of_the_point_of_action_driving(drive, expected):
    """Closed form F (zu - z) / (zu - zl): 7 kN, radius 330, joints at 200 and 550."""
    model = axles(radius=330.0, drive=drive)
    case = one("launch", van(), model, rear_torque=2 * 7000 * 330.0)
    assert forces(case, model)["rear_l"][0] == near(7000.0)
    assert lower_joint(case) == near(expected)


@pytest.mark.parametrize(
    ("brake", "blend", "expected"),
    [
        ("outboard", 0.0, 11000.0),
        ("inboard", 0.0, 4400.0),
        ("outboard", 1.0, 4400.0),
        ("outboard", 0.25, 0.75 * 11000 + 0.25 * 4400),
    ],
)
def test_lever_effect_of_the_point_of_action_braking(brake, blend, expected):
    """The same for 7 kN of braking: friction brake at the patch, inboard brake and drive at the wheel centre."""
    model = axles(radius=330.0, drive="half-shaft", brake=brake)
    case = one("braking", van(), model, g=0.9, blend=blend)
    size = forces(case, model)["rear_l"][0] / 7000
    assert lower_joint(case) / size == near(expected)
