"""Standard load cases against published numbers and formulas; vehicles are invented where nothing else is said."""

import math
from dataclasses import replace

import numpy as np
import pytest
from loads.vehicles import axles, forces, one, resultant, van

from loadpath.loads import STANDARD_GRAVITY as G
from loadpath.loads import lateral_transfer, lifting_moment, overturning_force, standard_set, step_ratio
from loadpath.model import AxleData, Vehicle

BOTH = ("front", "rear")


def test_barton_fieldhouse_p_174_lateral_transfer_and_roll_gradient():
    """D. C. Barton, J. D. Fieldhouse, Automotive Chassis Engineering (2018), p. 174: printed 195, 158 and 218 N,
    0.0194 rad/(m/s²), 10.9 deg/g; 0.6 g, sprung 1280 kg, 54 % in front, 365 mm above the roll axis, 28.65 kN·m/rad.

    The height of the rear roll centre is the one that the printed 760 N of the rear axle needs.
    """
    sprung, share, front_rc, rear_rc = 1.28, 0.54, 70.0, 320.0
    height = front_rc + (rear_rc - front_rc) * (1 - share) + 365
    mass = sprung + 0.14 + 0.18
    vehicle = Vehicle(
        mass=mass,
        front_share=(sprung * share + 0.14) / mass,
        wheelbase=2600.0,
        cg_height=(sprung * height + 0.14 * 280 + 0.18 * 300) / mass,
        ground=0.0,
        roll_stiffness=28.65e6,
        front=AxleData(1460.0, 0.14, 280.0, front_rc, 0.5),
        rear=AxleData(1460.0, 0.18, 300.0, rear_rc, 0.5),
    )
    found = lateral_transfer(vehicle, 0.6 * G)
    printed = pytest.approx
    assert found.axles["front"].geometric / 1460 == printed(195, abs=0.5)
    assert found.axles["front"].unsprung / 1460 == printed(158, abs=0.5)
    assert found.axles["rear"].unsprung / 1460 == printed(218, abs=0.5)
    gradient = found.roll / (0.6 * G / 1e3)
    assert gradient == printed(0.0194, abs=5e-5)
    assert math.degrees(gradient) * G / 1e3 == printed(10.9, abs=0.05)


CAR = Vehicle(
    mass=1.9,
    front_share=1.5 / 2.75,
    wheelbase=2750.0,
    cg_height=600.0,
    ground=0.0,
    roll_stiffness=None,
    front=AxleData(1580.0, 0.0, 0.0, 0.0, 0.5),
    rear=AxleData(1580.0, 0.0, 0.0, 0.0, 0.5),
)
"""1900 kg, its centre 1250 mm behind the front axle, 600 mm high, wheelbase 2750 mm, tracks 1580 mm."""


def test_front_axle_under_1_g_of_braking():
    """Closed form m g (b + h) / L with g = 9.81: 14233.4 N; the brake's moment about the wheel centre 2348.51 N·m."""
    model = axles(BOTH, radius=330.0)
    case = one("braking", CAR, model, g=1.0)
    wheel = forces(case, model)["front_l"]
    to_981 = 9810 / G
    assert 2 * wheel[2] * to_981 == pytest.approx(14233.4, rel=1e-5)
    patch = next(p for p in case.loads if p.part == "knuckle_front_l")
    arm = patch.position - model.points["front_l"]
    assert np.cross(arm, patch.force)[1] * to_981 / 1e3 == pytest.approx(2348.51, rel=1e-5)
    terms = dict(next(w for w in case.wheel_loads if w.wheel == "front_l").terms)
    assert terms["up: longitudinal transfer"] == pytest.approx(1.9 * G * 600 / 2750 / 2)


def test_drive_by_half_shafts_and_its_reaction():
    """Closed form: 3.2 kN·m at both wheels, r = 330: 9696.97 N at the wheel centres, 3.2 kN·m on the housing."""
    model = axles(radius=330.0, drive="half-shaft")
    case = one("launch", CAR, model, rear_torque=3.2e6)
    assert sum(f[0] for f in forces(case, model).values()) == pytest.approx(9696.97, rel=1e-6)
    torque = next(p for p in case.loads if p.part == "rear_unit")
    assert torque.moment == pytest.approx([0, -3.2e6, 0])
    reverse = one("launch", CAR, model, rear_torque=-3.2e6)
    assert next(p for p in reverse.loads if p.part == "rear_unit").moment == pytest.approx([0, 3.2e6, 0])


class TestKerb:
    """J. C. Brown, A. J. Robertson, S. T. Serpento, Motor Vehicle Structures (2002), p. 24."""

    VEHICLE = replace(CAR, mass=18639.0 / G)

    def test_side_force_k_w_b_over_2h(self):
        """K = 1.75 (Garrett 1953), W = 18639 N, B = 1580, h = 600: 42947.4 N on both axles together."""
        total = sum(overturning_force(self.VEHICLE, a, 1.75) for a in BOTH)
        assert total == pytest.approx(42947.4, rel=1e-6)

    def test_split_between_the_axles(self):
        """P_F = F L2 / (L1 + L2): 10145.5 of 18600 N with L1 = 1.25, L2 = 1.5 m."""
        front, rear = (overturning_force(self.VEHICLE, a, 1.0) for a in BOTH)
        assert front / (front + rear) == pytest.approx(10145.5 / 18600, rel=1e-5)

    def test_at_a_factor_of_1_the_far_wheels_lift(self):
        """The moment of side force and weight about the struck wheels' patches is zero: overturning starts."""
        model = axles(BOTH)
        level = {a: replace(CAR.axle(a), track=1690.0) for a in BOTH}
        vehicle = replace(CAR, front_share=0.5, **level)
        case = one("kerb strike", vehicle, model, side="left", overturning=1.0, vertical=2.0, other=0.0)
        assert [f[2] for n, f in forces(case, model).items() if n.endswith("_r")] == pytest.approx([0, 0])
        force, _ = resultant(case, model)
        assert -force[1] * 600 == pytest.approx(CAR.mass * G * 1690 / 2)


def test_step_climb_ratio():
    """Statics of a wheel on the edge of a step: tan(acos((R - h) / R)) = 0.88 for h = 80, R = 320."""
    assert step_ratio(80, 320) == pytest.approx(0.88, abs=0.005)
    model = axles(radius=320.0)
    climb = forces(one("kerb climb", van(), model, vertical=3.0, height=80.0), model)["rear_l"]
    assert -climb[0] / climb[2] == pytest.approx(0.88, abs=0.005)
    # the edge lies on the line of the force through the wheel centre
    edge = np.array([math.sqrt(320**2 - 240**2), 0, -240])
    assert np.cross(edge, climb)[1] == pytest.approx(0, abs=1e-6)


def test_twist_is_the_lighter_axle_times_half_of_its_track():
    """Brown, Robertson & Serpento ch. 2, after Erz (1957) and Pawlowski (1969)."""
    lighter = 1.9 * G * (1 - 1.5 / 2.75)
    assert lifting_moment(CAR) == pytest.approx(lighter * 1580 / 2)
    model = axles(BOTH)
    up = {n: f[2] for n, f in forces(one("twist", CAR, model, raised="left"), model).items()}
    assert up["rear_l"] == pytest.approx(0, abs=1e-9)
    assert up["rear_r"] == pytest.approx(lighter)
    assert (up["front_l"] - up["front_r"]) * 1580 / 2 == pytest.approx(lighter * 1580 / 2)


def test_towing_force_of_half_of_the_mass():
    """Regulation (EU) 1005/2010, Annex II, from memory: 11772 N for 2400 kg with g = 9.81."""
    row = standard_set()["towing_forward"].load_case
    keys = {k: v for k, v in row.items() if k not in ("kind", "class")}
    case = one("towing", van(mass=2.4), axles(), part="rear_unit", point="rear_unit", **keys)
    pull = next(p for p in case.loads if p.part == "rear_unit").force
    assert np.linalg.norm(pull) * 9810 / G == pytest.approx(11772.0)
    assert pull[0] > 0
