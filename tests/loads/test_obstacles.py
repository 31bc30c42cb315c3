"""Wheels hit by the road, a pothole or a kerb, and wheels that hang."""

import math
from dataclasses import replace

import numpy as np
import pytest
from loads.vehicles import ALL_AXES, BOTH, G, axles, forces, leaning_van, local, one, resultant, van

from loadpath.model import LumpedMass

REAR = 3.05 * 0.54 * G / 2
FRONT = 3.05 * 0.46 * G / 2


def with_masses(model, mass=0.04):
    """The same with a mass in every knuckle."""
    masses = {w.part: LumpedMass(w.part, w.part, w.centre, mass, np.eye(3)) for w in model.wheels.values()}
    return replace(model, masses=masses)


class TestSides:
    def test_a_side_is_the_wheels_of_that_side_on_every_axle_of_the_case(self):
        wheels = forces(one("bump", van(), axles(BOTH), g=3.0, side="left"), axles(BOTH))
        up = {name: force[2] for name, force in wheels.items()}
        assert up == pytest.approx(
            {"front_l": 3 * FRONT, "front_r": FRONT, "rear_l": 3 * REAR, "rear_r": REAR}
        )

    def test_side_of_named_wheels(self):
        case = one("bump", van(), axles(BOTH), g=3.0, side="right", wheels=("rear_l", "rear_r"))
        assert forces(case, axles(BOTH))["rear_r"][2] == pytest.approx(3 * REAR)
        assert forces(case, axles(BOTH))["front_r"][2] == pytest.approx(FRONT)

    def test_one_up_and_the_other_down(self):
        """2.6 on one wheel and nothing on the other: the axle carries 1.3 times its load, and so does its field."""
        case = one("bump", van(), axles(), g=2.6, side="left", other=0.0)
        assert [w[2] for w in forces(case, axles()).values()] == pytest.approx([2.6 * REAR, 0])
        assert case.field[2] == pytest.approx(-1.3 * G)

    @pytest.mark.parametrize("axes", ALL_AXES.values(), ids=ALL_AXES)
    @pytest.mark.parametrize(
        ("kind", "keys"),
        [
            ("bump", {"g": 2.5}),
            ("bump", {"g": 3.5, "cornering": 0.5, "side": "right", "turn": "left"}),
            ("pothole", {"side": "left"}),
            ("pothole", {"braking": 0.7}),
            ("kerb climb", {}),
            ("kerb climb", {"heading": "backward", "side": "right"}),
            ("kerb strike", {"side": "right"}),
            ("kerb strike", {"side": "left", "overturning": 1.4, "other": 0.0}),
            ("rebound", {}),
        ],
    )
    def test_what_enters_at_the_wheels_is_mass_times_field(self, kind, keys, axes):
        """All four wheels against the whole vehicle, whatever hits them."""
        model = with_masses(axles(BOTH, axes))
        case = one(kind, leaning_van(), model, **keys)
        force, _ = resultant(case, model)
        assert force + 3.05 * local(model, case.field) == pytest.approx([0, 0, 0], abs=1e-9 * 3.05 * G)


class TestPotholeWhileBraking:
    def test_the_edge_acts_at_the_centre_and_the_brake_at_the_patch(self):
        """By hand: 0.7 of the load under 0.7 g brakes at the patch, twice the static load pushes at the centre."""
        model = axles()
        case = one("pothole", van(), model, longitudinal=2.0, vertical=3.0, braking=0.7, side="left")
        braked = REAR - 3.05 * 0.7 * G * 760 / 3320 / 2
        at = {
            p.what.split(" of ")[0]: local(model, p.force) for p in case.loads if p.part == "knuckle_rear_l"
        }
        assert at["contact patch"] == pytest.approx([-0.7 * braked, 0, 0])
        assert at["wheel centre"] == pytest.approx([-2 * REAR, 0, braked + 2 * REAR])
        other = forces(case, model)["rear_r"]
        assert other == pytest.approx([-0.7 * braked, 0, braked])
        assert local(model, case.field)[0] == pytest.approx((0.7 + 2 * 0.54 / 2) * G)


class TestBumpInACorner:
    def test_on_top_of_the_transfer(self):
        model = axles()
        turn = forces(one("cornering", leaning_van(), model, g=0.5, turn="left"), model)
        case = one("bump", leaning_van(), model, g=3.5, cornering=0.5, turn="left", side="right")
        found = forces(case, model)
        assert found["rear_r"] == pytest.approx(turn["rear_r"] + [0, 0, 2.5 * REAR])
        assert found["rear_l"] == pytest.approx(turn["rear_l"])
        assert case.roll > 0


class TestKerbStrike:
    @pytest.mark.parametrize("axes", ALL_AXES.values(), ids=ALL_AXES)
    @pytest.mark.parametrize(("side", "sign"), [("left", -1), ("right", 1)])
    def test_pushes_to_the_middle(self, side, sign, axes):
        model = axles(axes=axes)
        case = one("kerb strike", van(), model, side=side)
        struck, other = f"rear_{side[0]}", "rear_r" if side == "left" else "rear_l"
        found = forces(case, model)
        assert found[struck] == pytest.approx([0, sign * 4 * REAR, 2 * REAR])
        assert found[other] == pytest.approx([0, 0, REAR])
        # the vehicle is pushed away from the kerb: field against the force
        assert local(model, case.field)[1] * sign < 0
        assert case.cls == "abuse"

    def test_height_of_action(self):
        model = axles()
        case = one("kerb strike", van(), model, side="left", height=100.0)
        places = {p.what.split(" of ")[0]: p for p in case.loads if p.part == "knuckle_rear_l"}
        assert places["100 mm above the ground"].position == pytest.approx([0, 845, 100])
        assert local(model, places["100 mm above the ground"].force) == pytest.approx([0, -4 * REAR, 0])
        assert local(model, places["contact patch"].force) == pytest.approx([0, 0, 2 * REAR])

    def test_both_axles_of_one_side(self):
        found = forces(one("kerb strike", van(), axles(BOTH), side="right", sideways=2.0), axles(BOTH))
        assert found["front_r"][1] == pytest.approx(2 * FRONT)
        assert found["rear_r"][1] == pytest.approx(2 * REAR)
        assert found["front_l"][1] == 0


class TestKerbClimb:
    def test_line_through_the_wheel_centre(self):
        """Tangent of the angle whose cosine is (R - h) / R: 3-4-5 for h = 0.4 R."""
        model = axles(radius=350.0)
        case = one("kerb climb", van(), model, vertical=3.0, height=140.0)
        found = forces(case, model)["rear_l"]
        assert found == pytest.approx([-3 * REAR * 4 / 3, 0, 3 * REAR])
        assert all(p.position[2] == 350 for p in case.loads)
        back = one("kerb climb", van(), model, vertical=3.0, height=140.0, heading="backward")
        assert forces(back, model)["rear_l"] == pytest.approx(found * [-1, 1, 1])


class TestRebound:
    def test_what_hangs_pulls_and_the_rest_falls(self):
        model = with_masses(axles())
        case = one("rebound", van(), model, g=2.0)
        assert [tuple(w) for w in forces(case, model).values()] == [(0, 0, 0)] * 2
        assert case.field == pytest.approx([0, 0, 0])
        assert set(case.part_fields) == {"knuckle_rear_l", "knuckle_rear_r"}
        assert case.field_of("knuckle_rear_l") == pytest.approx([0, 0, -2 * G])

    def test_one_wheel_in_the_air(self):
        """The axle carries half of its load: so much is the field."""
        model = with_masses(axles())
        case = one("rebound", van(), model, side="left")
        assert [w[2] for w in forces(case, model).values()] == pytest.approx([0, REAR])
        assert case.field[2] == pytest.approx(-G / 2)
        assert set(case.part_fields) == {"knuckle_rear_l"}

    def test_a_part_of_its_own_goes_on_top(self):
        model = with_masses(axles())
        case = one("rebound", van(), model, part_acceleration={"rear_unit": (0.0, 0.0, 3.0)})
        assert case.field_of("rear_unit") == pytest.approx([0, 0, -4 * G])
        assert case.field_of("knuckle_rear_l") == pytest.approx([0, 0, -2 * G])


def test_a_high_step_is_steeper_than_a_low_one():
    """Common practice, no source."""
    model = axles()
    ratios = [
        -f[0] / f[2]
        for h in (20, 60, 120)
        for f in [forces(one("kerb climb", van(), model, height=h), model)["rear_l"]]
    ]
    assert ratios == sorted(ratios)
    assert all(math.isfinite(r) for r in ratios)
