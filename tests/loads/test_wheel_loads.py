"""Wheel loads of the invented van, its balance, mirror images and lifting wheels."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
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

from loadpath.loads import NoSteadyState, lateral_transfer, roll_arm, sprung_mass

STEADY = {
    "static": ("static", {}),
    "bump of all wheels": ("bump", {"g": 3.0}),
    "braking": ("braking", {"g": 0.9}),
    "braking 70 % at the front": ("braking", {"g": 0.9, "front_share": 0.7}),
    "blended": ("braking", {"g": 0.9, "blend": 0.4}),
    "reverse braking": ("reverse braking", {"g": 0.8}),
    "cornering": ("cornering", {"g": 0.6}),
    "launch by torque": ("launch", {"rear_torque": 3.6e6}),
    "launch by g": ("launch", {"g": 0.4}),
    "reverse launch": ("launch", {"rear_torque": -3.0e6, "front_torque": -1.0e6}),
    "combined": ("combined", {"longitudinal": 0.3, "lateral": 0.4, "vertical": 1.5, "turn": "left"}),
    "brake in turn": ("combined", {"longitudinal": -0.4, "lateral": 0.5}),
    "start on a slope": ("combined", {"longitudinal": 0.1, "grade": 20.0}),
}
VANS = {"plain": van(), "leaning": leaning_van()}


@pytest.mark.parametrize(
    ("kind", "keys", "expected"),
    [
        ("static", {}, (0, 0, 8.1)),
        ("bump", {"g": 3.0}, (0, 0, 24.2)),
        ("braking", {"g": 1.0}, (-4.7, 0, 4.7)),
        ("reverse braking", {"g": 0.8}, (8.7, 0, 10.8)),
        ("cornering", {"g": 0.8, "turn": "right"}, (0, -10.3, 12.9)),
        ("launch", {"rear_torque": 3.6e6}, (5.1, 0, 9.2)),
        ("pothole", {"longitudinal": 2.0, "vertical": 3.0}, (-16.2, 0, 24.2)),
    ],
)
def test_left_rear_wheel_of_the_van(kind, keys, expected):
    """Magnitudes worked out by hand for the invented van, in kN; the digits are all that is given."""
    model = axles(drive="half-shaft")
    found = forces(one(kind, van(), model, **keys), model)["rear_l"] / 1e3
    assert found == pytest.approx(expected, abs=0.0501)


def test_static_and_braking_to_the_last_digit():
    """By hand: 3050 kg, 54 % behind; 1 g moves m g h / L = 6847.0 N to the front axle."""
    model = axles()
    static = forces(one("static", van(), model), model)["rear_l"][2]
    assert static == pytest.approx(3.05 * 0.54 * 9806.65 / 2, rel=1e-12)
    braked = forces(one("braking", van(), model, g=1.0), model)["rear_l"]
    assert braked[2] == pytest.approx(static - 3.05 * 9806.65 * 760 / 3320 / 2, rel=1e-12)
    assert braked[0] == pytest.approx(-braked[2], rel=1e-12)


@pytest.mark.parametrize("axes", ALL_AXES.values(), ids=ALL_AXES)
@pytest.mark.parametrize("vehicle", VANS.values(), ids=VANS)
@pytest.mark.parametrize(("kind", "keys"), STEADY.values(), ids=STEADY)
def test_the_field_balances_the_wheels(kind, keys, vehicle, axes):
    """Forces and moments of all four wheels and the units against mass times field at the centre of gravity.

    A leaning body's weight moves to the side, which leaves m_s g d phi about forward. Yaw closes without
    forces along the vehicle that differ from side to side. A bump's rear-axle field is that of all wheels here.
    """
    model = axles(BOTH, axes, drive="half-shaft")
    case = one(kind, vehicle, model, **keys)
    force, moment = resultant(case, model, centre_of_gravity(vehicle))
    field = local(model, case.field)
    size = vehicle.mass * G
    assert force + vehicle.mass * field == pytest.approx([0, 0, 0], abs=1e-9 * size)
    leaning = -sprung_mass(vehicle) * field[2] * roll_arm(vehicle) * case.roll
    assert moment[1] == pytest.approx(0, abs=1e-9 * size * 760)
    assert moment[0] == pytest.approx(-leaning, abs=1e-9 * size * 760)
    told = any("about the vertical" in note for note in case.notes)
    assert told or moment[2] == pytest.approx(0, abs=1e-9 * size * 760)


@pytest.mark.parametrize(("kind", "keys"), STEADY.values(), ids=STEADY)
def test_terms_add_to_the_components(kind, keys):
    model = axles(BOTH, drive="half-shaft")
    case = one(kind, leaning_van(), model, **keys)
    found = forces(case, model)
    for load in case.wheel_loads:
        words = [what.partition(": ")[0] for what, _ in load.terms]
        assert set(words) <= {"forward", "left", "up"}
        for k, direction in enumerate(("forward", "left", "up")):
            total = sum(v for (_, v), w in zip(load.terms, words, strict=True) if w == direction)
            assert found[load.wheel][k] == pytest.approx(total, abs=1e-9)


@pytest.mark.parametrize("kind", ["cornering", "combined"])
def test_left_and_right_turn_swap_sides(kind):
    model = axles(BOTH)
    keys = {"g": 0.7} if kind == "cornering" else {"longitudinal": -0.3, "lateral": 0.7}
    left, right = (one(kind, leaning_van(), model, turn=turn, **keys) for turn in ("left", "right"))
    at_left, at_right = forces(left, model), forces(right, model)
    for axle in BOTH:
        assert at_left[f"{axle}_l"] == pytest.approx(at_right[f"{axle}_r"] * [1, -1, 1], rel=1e-12)
        assert at_left[f"{axle}_r"] == pytest.approx(at_right[f"{axle}_l"] * [1, -1, 1], rel=1e-12)
    assert local(model, left.field) == pytest.approx(local(model, right.field) * [1, -1, 1])
    assert left.roll == -right.roll


@pytest.mark.parametrize("axes", ALL_AXES.values(), ids=ALL_AXES)
def test_turning_right_leans_to_the_left(axes):
    """Centrifugal force to the left: the left wheels carry more, the right side of the body comes up.

    A right-hand turn about forward by a positive angle lifts the left side, hence a negative roll here.
    """
    model = axles(BOTH, axes)
    case = one("cornering", leaning_van(), model, g=0.5, turn="right")
    assert local(model, case.field)[1] == pytest.approx(0.5 * G)
    wheels = forces(case, model)
    assert wheels["rear_l"][2] > wheels["rear_r"][2]
    assert wheels["rear_l"][1] < 0
    assert case.roll < 0
    left_side = np.cross(case.roll * axes.forward, axes.left)
    assert left_side @ axes.up < 0


def test_roll_angle_needs_a_roll_stiffness():
    case = one("cornering", van(), axles(), g=0.5)
    assert case.roll == 0
    assert any("roll stiffness" in note for note in case.notes)
    assert not one("cornering", leaning_van(), axles(), g=0.1).notes


def test_a_body_that_leans_is_told():
    """sin of the roll angle is what gravity has across the body; nothing is told below 0.03."""
    case = one("cornering", leaning_van(), axles(), g=0.5)
    (note,) = case.notes
    assert f"leans by {abs(np.degrees(case.roll)):.1f} degrees" in note
    assert f"{100 * abs(np.sin(case.roll)):.0f} % of every upward force" in note


def test_stiffer_springs_approach_the_formula_without_lean():
    """share m a h / t with roll centres on the ground and no unsprung mass, for any axle."""
    plain, stiff = lateral_transfer(van(), 0.6 * G), lateral_transfer(van(roll_stiffness=1e14), 0.6 * G)
    assert plain.axles["rear"].total / 1690 == pytest.approx(0.45 * 3.05 * 0.6 * G * 760 / 1690, rel=1e-12)
    assert stiff.axles["rear"].total == pytest.approx(plain.axles["rear"].total, rel=1e-6)


HARD_REAR = {"front": replace(van().front, roll_share=0.1), "rear": replace(van().rear, roll_share=0.9)}


class TestLifting:
    """An inner wheel that would pull is set down at zero; the other axle takes what is left."""

    @pytest.mark.parametrize("stiffness", [None, 1.2e9])
    def test_other_axle_takes_the_rest(self, stiffness):
        vehicle = van(roll_stiffness=stiffness, **HARD_REAR)
        model = axles(BOTH)
        case = one("cornering", vehicle, model, g=0.8, turn="left")
        wheels = forces(case, model)
        assert wheels["rear_l"] == pytest.approx([0, 0, 0], abs=1e-8)
        assert any(note.startswith("rear_l lifts") for note in case.notes)
        _, moment = resultant(case, model, centre_of_gravity(vehicle))
        leaning = sprung_mass(vehicle) * G * roll_arm(vehicle) * case.roll
        assert moment[0] == pytest.approx(-leaning, abs=1e-3)
        assert wheels["front_r"][2] > 3.05 * 0.46 * G / 2 + 0.1 * 3.05 * 0.8 * G * 760 / 1700

    def test_roll_follows_from_the_axle_that_stands(self):
        """By hand: K_front phi + held rear moment = m a h + m g h phi."""
        vehicle = van(roll_stiffness=1.2e9, **HARD_REAR)
        found = lateral_transfer(vehicle, 0.8 * G)
        held = 3.05 * 0.54 * G * 1690 / 2
        phi = (3.05 * 0.8 * G * 760 - held) / (0.1 * 1.2e9 - 3.05 * G * 760)
        assert found.lifted == ("rear",)
        assert found.roll == pytest.approx(phi, rel=1e-12)

    def test_continuous_where_the_wheel_leaves_the_ground(self):
        vehicle = van(roll_stiffness=1.2e9, **HARD_REAR)
        rolls = [lateral_transfer(vehicle, a * G).roll for a in np.linspace(0.3, 0.8, 501)]
        assert np.abs(np.diff(rolls, 2)).max() < 3e-4
        assert np.all(np.diff(rolls) > 0)

    def test_overturning_is_refused(self):
        """Both inner wheels lift where the mean t / (2 h) ends: 0.46 × 1.118 + 0.54 × 1.112 = 1.115 g."""
        assert lateral_transfer(van(), 1.11 * G).lifted in ((), ("front",), ("rear",))
        with pytest.raises(NoSteadyState, match=r"overturns at 1\.12 g"):
            lateral_transfer(van(), 1.12 * G)

    def test_a_body_that_falls_over_is_refused(self):
        with pytest.raises(NoSteadyState, match="falls over"):
            lateral_transfer(van(roll_stiffness=2e7), 0.1 * G)


numbers = st.floats(0.05, 0.95)


@settings(max_examples=100, deadline=None)
@given(
    share=numbers, roll=numbers, lateral=st.floats(-0.9, 0.9), along=st.floats(-0.4, 0.4), stiff=st.booleans()
)
def test_wheels_never_pull_and_carry_the_weight(share, roll, lateral, along, stiff):
    base = leaning_van() if stiff else van()
    vehicle = replace(
        base,
        front_share=0.3 + 0.4 * share,
        front=replace(base.front, roll_share=roll),
        rear=replace(base.rear, roll_share=1 - roll),
        roll_stiffness=5e9 if stiff else None,
    )
    model = axles(BOTH)
    turn = "left" if lateral > 0 else "right"
    case = one("combined", vehicle, model, longitudinal=along, lateral=abs(lateral), turn=turn, by="brakes")
    up = [w[2] for w in forces(case, model).values()]
    assert min(up) > -1e-6
    assert sum(up) == pytest.approx(vehicle.mass * G, rel=1e-12)
