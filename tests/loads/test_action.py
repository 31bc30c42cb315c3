"""Where the forces act, and which part takes the torque."""

from dataclasses import replace

import numpy as np
import pytest
from loads.vehicles import ALL_AXES, BOTH, axles, forces, leaning_van, local, one, resultant, van

from loadpath.model import HalfShaft

WAYS = {
    "friction brake on the knuckle": ("braking", {"brake": "outboard"}, {}),
    "inboard brake": ("braking", {"brake": "inboard"}, {}),
    "all by the half-shafts": ("braking", {"drive": "half-shaft"}, {"blend": 1.0}),
    "half by the half-shafts": ("braking", {"drive": "half-shaft"}, {"blend": 0.5}),
    "half by hub motors": ("braking", {"drive": "hub"}, {"blend": 0.5}),
}


def load_at(case, part, place):
    return next(p for p in case.loads if p.part == part and p.what.startswith(place))


@pytest.mark.parametrize("camber", [0.0, -0.03], ids=["upright", "leaning"])
@pytest.mark.parametrize("axes", ALL_AXES.values(), ids=ALL_AXES)
@pytest.mark.parametrize(("kind", "wheels", "keys"), WAYS.values(), ids=WAYS)
def test_same_ground_forces_whatever_the_way(kind, wheels, keys, axes, camber):
    """Torque and point of action together are the force at the ground: the vehicle feels no difference."""
    model = axles(axes=axes, camber=camber, toe=camber / 3, **wheels)
    plain = axles(axes=axes, camber=camber, toe=camber / 3)
    for about in ((0, 0, 0), (1000, 300, 500)):
        found, expected = (
            resultant(one(kind, van(), model, **keys), model, about),
            resultant(one(kind, van(), plain), plain, about),
        )
        for a, b in zip(found, expected, strict=True):
            assert a == pytest.approx(b, rel=1e-12, abs=1e-6)


@pytest.mark.parametrize("axes", ALL_AXES.values(), ids=ALL_AXES)
def test_patch_and_centre(axes):
    model = axles(axes=axes, drive="half-shaft")
    case = one("launch", van(), model, rear_torque=3.6e6)
    patch, centre = (load_at(case, "knuckle_rear_l", p) for p in ("contact patch", "wheel centre"))
    assert local(model, centre.position) == pytest.approx([0, 845, 352])
    assert local(model, patch.position) == pytest.approx([0, 845, 0])
    assert local(model, patch.force)[0] == 0
    assert local(model, centre.force) == pytest.approx([1.8e6 / 352, 0, 0])
    assert {w.at for w in case.wheel_loads} == {"contact patch and wheel centre"}


def test_a_leaning_wheel_stands_beside_its_centre():
    """Top inward by c: the patch is r sin c further out, and the centre r cos c above it."""
    model = axles(camber=-0.04, drive="half-shaft")
    case = one("launch", van(), model, rear_torque=3.6e6)
    patch = load_at(case, "knuckle_rear_l", "contact patch")
    assert patch.position == pytest.approx([0, 845 + 352 * np.sin(0.04), 352 - 352 * np.cos(0.04)])
    right = load_at(case, "knuckle_rear_r", "contact patch")
    assert right.position == pytest.approx(patch.position * [1, -1, 1])


def test_what_a_leaning_wheel_leaves_of_the_drive_torque():
    """Of F r about the wheel's own axis the unit has F r about left: F r sin c about up stays, small and told."""
    model = axles(camber=-0.04, drive="half-shaft")
    case = one("launch", van(), model, rear_torque=3.6e6)
    rest = load_at(case, "knuckle_rear_l", "hub bearing")
    assert abs(rest.moment[2]) == pytest.approx(1.8e6 * np.sin(0.04))
    assert not rest.force.any()
    upright = one("launch", van(), axles(drive="half-shaft"), rear_torque=3.6e6)
    assert not any("hub bearing" in p.what for p in upright.loads)


def test_loads_act_where_the_points_of_a_pose_are():
    """A model in jounce: the patch is below the centre where that has gone on the knuckle."""
    model = axles()
    up = np.array([2.0, -5.0, 60.0])
    posed = replace(model, own_points={("knuckle_rear_l", "rear_l"): model.points["rear_l"] + up})
    case = one("braking", van(), posed)
    patch = load_at(case, "knuckle_rear_l", "contact patch")
    assert patch.position == pytest.approx([2, 840, 60])


@pytest.mark.parametrize("axes", ALL_AXES.values(), ids=ALL_AXES)
def test_driving_forward_lifts_the_nose_of_the_unit(axes):
    """The wheels turn forward about +left, so the housing is turned about -left: from forward to up."""
    model = axles(axes=axes, drive="half-shaft")
    case = one("launch", van(), model, rear_torque=3.6e6)
    torque = next(p for p in case.loads if p.part == "rear_unit")
    assert local(model, torque.moment) == pytest.approx([0, -3.6e6, 0])
    assert not torque.force.any()
    assert local(model, np.cross(torque.moment, axes.forward))[2] > 0
    back = one("launch", van(), model, rear_torque=-3.6e6)
    assert next(p for p in back.loads if p.part == "rear_unit").moment == pytest.approx(-torque.moment)
    assert forces(back, model)["rear_l"][0] < 0


def test_hub_motors_leave_no_torque_on_the_unit():
    case = one("launch", van(), axles(drive="hub"), g=0.3)
    assert {p.part for p in case.loads} == {"knuckle_rear_l", "knuckle_rear_r"}
    assert {w.at for w in case.wheel_loads} == {"contact patch"}


def test_inboard_brake_turns_its_part_the_way_the_wheels_turn():
    model = axles(brake="inboard")
    case = one("braking", van(), model, g=0.9)
    torque = next(p for p in case.loads if p.part == "rear_unit")
    force = sum(w[0] for w in forces(case, model).values())
    assert torque.moment[1] == pytest.approx(-force * 352)
    assert torque.moment[1] > 0
    assert "brake torque of rear_l, rear_r" in torque.what


def test_blended_stop_has_both_at_once():
    """A quarter by the drive: at the wheel centre, with the half-shafts' sum on the housing."""
    model = axles(drive="half-shaft")
    case = one("braking", van(), model, g=0.8, blend=0.25)
    whole = forces(case, model)["rear_l"][0]
    patch, centre = (load_at(case, "knuckle_rear_l", p) for p in ("contact patch", "wheel centre"))
    assert centre.force[0] == pytest.approx(0.25 * whole)
    assert patch.force[0] == pytest.approx(0.75 * whole)
    torque = next(p for p in case.loads if p.part == "rear_unit")
    assert torque.moment[1] == pytest.approx(-0.25 * 2 * whole * 352)


def test_only_driven_wheels_blend():
    """Front wheels without drive brake by friction alone, with the same total."""
    base = axles(BOTH)
    wheels = {n: w for n, w in axles(BOTH, drive="half-shaft").wheels.items() if w.axle == "rear"}
    model = base.__class__(**{**base.__dict__, "wheels": {**base.wheels, **wheels}})
    case = one("braking", van(), model, g=0.8, blend=0.5)
    at = {w.wheel: w.at for w in case.wheel_loads}
    assert at["front_l"] == "contact patch"
    assert at["rear_l"] == "contact patch and wheel centre"
    assert sum(w[0] for w in forces(case, model).values()) == pytest.approx(-3.05 * 0.8 * 9806.65)


def test_an_edge_pushes_through_the_wheel_centre():
    model = axles()
    case = one("pothole", van(), model)
    assert all(p.position[2] == 352 for p in case.loads)
    assert {w.at for w in case.wheel_loads} == {"wheel centre"}


def test_moving_the_side_force_is_not_a_matter_of_the_drive():
    """Cornering enters at the patch for every drive and brake."""
    for drive in ("none", "hub", "half-shaft"):
        case = one("cornering", leaning_van(), axles(drive=drive, brake="inboard"), g=0.5)
        assert all(p.position[2] == pytest.approx(0, abs=1e-12) for p in case.loads)
        assert len(case.loads) == 2


@pytest.mark.parametrize("axes", ALL_AXES.values(), ids=ALL_AXES)
@pytest.mark.parametrize("forward", [0.0, 60.0], ids=["lower inside", "and ahead"])
def test_a_half_shaft_at_an_angle_is_told(forward, axes):
    """The couple of a joint of constant velocity lies midway between both axes: T (s + l) / (1 + s · l) about them.

    s and l are unit vectors along the wheel's axis and the shaft, so that T is its part about the wheel's axis. Left
    wheel: s = left, the shaft comes 500 mm from inside, 80 mm lower there (statics of two shafts that turn alike).
    """
    model = axles(axes=axes, drive="half-shaft", sides=("l",))
    base = np.array([axes.forward, axes.left, axes.up])
    centre = model.points["rear_l"]
    points = {**model.points, "inner": centre + np.array([forward, -500.0, -80.0]) @ base, "outer": centre}
    wheel = replace(model.wheels["rear_l"], half_shaft=HalfShaft("inner", "outer", axes.left))
    bent = replace(model, points=points, wheels={"rear_l": wheel})
    s = np.array([0.0, 1.0, 0.0])
    line = np.array([-forward, 500.0, 80.0]) / np.linalg.norm([forward, 500.0, 80.0])
    couple = 1.8e6 * (s + line) / (1 + s @ line)
    assert couple @ s == pytest.approx(1.8e6)
    across = np.hypot(couple[0], couple[2])
    (note,) = [n for n in one("launch", van(), bent, rear_torque=3.6e6).notes if "half-shaft" in n]
    assert f"{np.degrees(np.arccos(s @ line)):.1f} degrees to the wheel's axis" in note
    assert f"with {across / 1e3:.0f} N·m" in note
    assert not any("half-shaft stands" in n for n in one("braking", van(), bent).notes)
    assert not any("half-shaft stands" in n for n in one("launch", van(), model, rear_torque=3.6e6).notes)
