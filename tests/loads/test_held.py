"""Vehicles that are twisted, jacked, towed, lashed, or held by their park lock; and launches by their torque."""

import math
from dataclasses import replace

import numpy as np
import pytest
from loads.vehicles import (
    ALL_AXES,
    BOTH,
    G,
    axles,
    centre_of_gravity,
    forces,
    leaning_van,
    local,
    one,
    resultant,
    van,
)

from loadpath.loads import NoSteadyState, Place, gripped

W = 3.05 * G
REAR, FRONT = W * 0.54 / 2, W * 0.46 / 2


class TestTwist:
    def test_each_axle_has_the_same_moment_and_the_lighter_one_lifts(self):
        """By hand: the front axle is the lighter one, 0.46 W × 1700 / 2."""
        model = axles(BOTH)
        case = one("twist", van(), model, raised="left")
        up = {name: f[2] for name, f in forces(case, model).items()}
        moment = 0.46 * W * 1700 / 2
        assert (up["front_l"] - up["front_r"]) / 2 * 1700 == pytest.approx(moment)
        assert (up["rear_r"] - up["rear_l"]) / 2 * 1690 == pytest.approx(moment)
        assert up["front_r"] == pytest.approx(0, abs=1e-9)
        assert any("front_r lifts" in note for note in case.notes)
        assert sum(up.values()) == pytest.approx(W)
        _, about = resultant(case, model, centre_of_gravity(van()))
        assert about == pytest.approx([0, 0, 0], abs=1e-6)

    def test_share_and_side(self):
        model = axles(BOTH)
        whole, half = (forces(one("twist", van(), model, share=s), model) for s in (1.0, 0.5))
        assert half["rear_r"][2] - REAR == pytest.approx((whole["rear_r"][2] - REAR) / 2)
        other = forces(one("twist", van(), model, raised="right"), model)
        assert other["front_r"] == pytest.approx(whole["front_l"])

    def test_the_body_leans_over_the_one_axle_of_the_case(self):
        """Rear left raised less: the right rear is loaded, as in a turn to the left; moment over that axle's rate."""
        case = one("twist", leaning_van(), axles(), raised="left")
        assert case.roll == pytest.approx(0.46 * W * 1700 / 2 / (0.45 * 1.6e8))
        turn = one("cornering", leaning_van(), axles(), g=0.5, turn="left")
        assert math.copysign(1, turn.roll) == math.copysign(1, case.roll)


class TestJacking:
    def test_carries_what_the_wheels_carried(self):
        model = axles()
        case = one("jacking", van(), model, part="rear_unit", point="rear_unit", factor=1.5, sideways=0.1)
        assert all(not f.any() for f in forces(case, model).values())
        jack = next(p for p in case.loads if p.part == "rear_unit")
        assert local(model, jack.force) == pytest.approx([0, 0.1 * 1.5 * 2 * REAR, 1.5 * 2 * REAR])
        assert case.field[2] == pytest.approx(-1.5 * G)
        assert any("sideways" in note for note in case.notes)

    def test_one_wheel(self):
        """Its load goes to the jack, 1.5 times; the axle's mass sees (1.5 + 1) / 2."""
        model = axles()
        keys = {"part": "rear_unit", "point": "rear_unit", "wheels": ("rear_l",), "toward": "right"}
        case = one("jacking", van(), model, **keys)
        assert [f[2] for f in forces(case, model).values()] == pytest.approx([0, REAR])
        jack = next(p for p in case.loads if p.part == "rear_unit")
        assert local(model, jack.force) == pytest.approx([0, -0.15 * REAR, 1.5 * REAR])
        assert case.field[2] == pytest.approx(-1.25 * G)


class TestTowing:
    @pytest.mark.parametrize("axes", ALL_AXES.values(), ids=ALL_AXES)
    def test_direction(self, axes):
        model = axles(axes=axes)
        keys = {"part": "rear_unit", "point": "rear_unit", "aside": math.radians(25), "toward": "right"}
        case = one("towing", van(), model, heading="backward", rise=math.radians(10), **keys)
        pull = local(model, next(p for p in case.loads if p.part == "rear_unit").force)
        assert np.linalg.norm(pull) == pytest.approx(0.5 * W)
        assert pull[0] < 0
        assert pull[1] / pull[0] == pytest.approx(math.tan(math.radians(25)))  # backward and to the right
        assert pull[2] / np.linalg.norm(pull) == pytest.approx(math.sin(math.radians(10)))

    def test_the_wheels_stand_still(self):
        case = one("towing", van(), axles(), part="rear_unit", point="rear_unit")
        assert [tuple(f) for f in forces(case, axles()).values()] == [(0, 0, pytest.approx(REAR))] * 2
        assert case.field == pytest.approx([0, 0, -G])


class TestTieDown:
    @pytest.mark.parametrize(
        ("pull", "way"), [("forward", (1, 0)), ("backward", (-1, 0)), ("left", (0, 1)), ("right", (0, -1))]
    )
    def test_lashings_accelerate_the_vehicle_and_press_it_down(self, pull, way):
        model = axles()
        places = (Place(part="rear_unit", point="rear_unit"), Place(part="rear_unit", point="rear_l"))
        case = one("tie-down", van(), model, places=places, g=0.8, pull=pull, down=math.radians(30))
        lashings = [p for p in case.loads if p.what.startswith("lashing")]
        total = sum(local(model, p.force) for p in lashings)
        assert len(lashings) == 2
        assert total[:2] == pytest.approx([0.8 * W * way[0], 0.8 * W * way[1]])
        assert total[2] == pytest.approx(-0.8 * W * math.tan(math.radians(30)))
        assert 3.05 * local(model, case.field)[:2] == pytest.approx(-total[:2])


class TestParkLock:
    @pytest.mark.parametrize(("grade", "sign"), [(30.0, 1), (-30.0, -1)])
    def test_holds_the_vehicle_on_the_slope(self, grade, sign):
        """Uphill the ground pushes the locked wheels forward with W sin s, torque back on the unit."""
        model = axles(drive="half-shaft")
        case = one("park lock", van(), model, grade=grade)
        slope = math.atan(0.3)
        found = forces(case, model)["rear_l"]
        assert found[0] == pytest.approx(sign * W * math.sin(slope) / 2)
        more = sign * W * math.sin(slope) * 760 / 3320 / 2
        assert found[2] == pytest.approx(REAR * math.cos(slope) + more)
        torque = next(p for p in case.loads if p.part == "rear_unit").moment
        assert torque == pytest.approx([0, -sign * W * math.sin(slope) * 352, 0])

    def test_slides_at_the_limit_of_grip(self):
        """By hand: F = mu (R - F h / L), the rear axle losing load while it brakes; no slope."""
        model = axles(drive="half-shaft")
        case = one("park lock", van(), model, grade=0.0, sliding=1.0)
        force = 2 * REAR / (1 + 760 / 3320)
        found = forces(case, model)["rear_l"]
        assert found == pytest.approx([-force / 2, 0, force / 2])

    def test_hub_motors_keep_the_torque_on_the_knuckle(self):
        case = one("park lock", van(), axles(drive="hub"))
        assert {w.at for w in case.wheel_loads} == {"contact patch"}

    def test_one_axle_of_two(self):
        model = axles(BOTH, drive="half-shaft")
        found = forces(one("park lock", van(), model, axle="front"), model)
        assert found["rear_l"][0] == 0
        assert found["front_l"][0] == pytest.approx(W * math.sin(math.atan(0.3)) / 2)


def driven_van(rear=3.6e6, front=None):
    """A van that knows its drive torques [N·mm]."""
    base = van()
    return replace(base, rear=replace(base.rear, torque=rear), front=replace(base.front, torque=front))


class TestLaunchByTheVehiclesTorque:
    def test_reversal_turns_force_and_reaction_round(self):
        """Thrown over from pull to push: the ground's force, the unit's torque and the transfer change sign."""
        model = axles(drive="half-shaft")
        pull, push = (one("launch", driven_van(), model, factor=f) for f in (1.75, -1.75))
        for case, sign in ((pull, 1), (push, -1)):
            force = 1.75 * 3.6e6 / 352
            assert forces(case, model)["rear_l"] == pytest.approx(
                [sign * force / 2, 0, REAR + sign * force * 760 / 3320 / 2]
            )
            assert next(p for p in case.loads if p.part == "rear_unit").moment[1] == pytest.approx(
                -sign * 1.75 * 3.6e6
            )

    def test_grip_limits_what_gets_to_the_ground(self):
        """By hand: F = mu R / (1 - mu h / L) driven behind; 1.0 gives 20.95 kN of 25 kN."""
        model = axles(drive="half-shaft")
        limit = 2 * REAR / (1 - 760 / 3320)
        case = one("launch", driven_van(25e3 * 352), model, friction=1.0)
        assert forces(case, model)["rear_l"][0] == pytest.approx(limit / 2)
        assert any(f"{limit * 352 / 1e6:.2f} of 8.80 kN·m get to the ground" in note for note in case.notes)
        weak = one("launch", driven_van(3.6e6), model, friction=1.0)
        assert forces(weak, model)["rear_l"][0] == pytest.approx(3.6e6 / 352 / 2)
        assert not any("slip" in note for note in weak.notes)

    def test_both_axles_and_only_one_slips(self):
        """The front axle slips at mu (F - (F_f + F_r) h / L); the rear one passes its torque."""
        wanted = {"front": 20e3, "rear": 5e3}
        found = gripped(van(), wanted, 1.0)
        lever = 760 / 3320
        front = (2 * FRONT - 5e3 * lever) / (1 + lever)
        assert found == pytest.approx({"front": front, "rear": 5e3})

    def test_without_a_torque_the_grip_is_the_size(self):
        model = axles(drive="half-shaft")
        case = one("launch", van(), model, friction=1.2, factor=-1.0)
        assert forces(case, model)["rear_l"][0] == pytest.approx(-1.2 * REAR / (1 + 1.2 * 760 / 3320))


def test_grip_that_lifts_an_axle_is_no_steady_state():
    """Static load 0.3 m g in front, h/L 0.32, friction 1: all of the grip would take 0.32 m g off the front axle."""
    vehicle = replace(van(), mass=2.0, front_share=0.3, cg_height=0.32 * van().wheelbase)
    for wanted in ({"front": 1e5, "rear": 1e5}, {"front": 500.0, "rear": 1e5}):
        with pytest.raises(NoSteadyState):
            gripped(vehicle, wanted, 1.0)
