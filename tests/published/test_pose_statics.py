"""Statics in a pose: ride height from load, wheel rate, wind-up, bar twist, force tables, virtual work.

Closed forms worked out by hand here; D16 of the reference cases (W. F. Milliken and D. L. Milliken, Race Car Vehicle
Dynamics, ch. 16, from memory; numbers invented). x forward, y left, z up.
"""

from dataclasses import replace

import numpy as np
import pytest
from linkages import X, driven, linkage, spring, wishbones
from scipy.optimize import brentq
from small_models import bare_section, build, case, frame, grade, joint, member, movement, push

from loadpath.frame import self_checks, solve
from loadpath.model import BushingRates, Coil, Curve, Part, PointLoad, Pose, PoseWish, Stop, curve_through
from loadpath.pose import NoRest, clamped, pose_many, standing
from loadpath.pose.posed import posed_model
from loadpath.pose.pushes import law_pushes
from loadpath.pose.stands import stands
from loadpath.pose.virtual import given_forces, virtual_power

Y = (0.0, 1.0, 0.0)
ARM, SEAT, TOP = 500.0, 300.0, 420.0
"""Trailing arm: pivot to wheel, pivot to spring seat, height of the spring's top above the seat at design height."""


def trailing_arm(law, rates=None, locked=True):
    """A rigid arm on a hinge across the vehicle, or on a bushing that is one; coil upright above its seat."""
    points = {
        "pivot": (0, 0, 300),
        "wheel": (-ARM, 0, 300),
        "seat": (-SEAT, 0, 300),
        "top": (-SEAT, 0, 300 + TOP),
    }
    strut = replace(spring("arm", "seat", "top"), law=law, locked=locked)
    hinge = ("pivot", "hinge", "arm", "body", Y)
    model = linkage(points, {}, ["arm"], [hinge], [driven("arm", "wheel")], [strut]).model
    if rates is None:
        return model
    held = replace(model.joints["pivot"], kind="bushing", rates=rates, moves_as="hinge")
    return replace(model, joints={"pivot": held})


def weighed(load, wish):
    """Builds one load case with an upward force at the wheel centre."""

    def make(model, only=None):
        at = model.at("arm", "wheel")
        force = PointLoad("arm", "wheel", at, np.array([0, 0, load]), np.zeros(3), "ground")
        return {"weight": replace(case(force, name="weight"), pose=wish, strain=1.0)}

    return make


def standing_under(model, make):
    return stands(model, make(model, None), make)


def arm_by_hand(load, push_of, moment_of=lambda turn: 0.0):
    """Jounce [mm] and push [N] of the trailing arm at rest, from moments about its pivot."""

    def left(turn):
        seat = SEAT * np.array([-np.cos(turn), np.sin(turn)])
        line = np.array([-SEAT, TOP]) - seat
        length = np.linalg.norm(line)
        force = -push_of(length) * line / length
        arm = seat[0] * force[1] - seat[1] * force[0]
        return load * ARM * np.cos(turn) - arm - moment_of(turn), push_of(length)

    turn = brentq(lambda t: left(t)[0], -0.35, 0.35, xtol=1e-15)
    return ARM * np.sin(turn), left(turn)[1]


COIL = Coil(60.0, 5000.0, None)
STOP = Stop(30.0, curve_through([0, 10, 20, 30], [0, 1500, 6000, 20000]), rebound=False)


@pytest.mark.parametrize("load", [1500.0, 3000.0, 4500.0, 6000.0])
def test_ride_height_of_a_trailing_arm_by_hand(load):
    model = trailing_arm(COIL)
    (stand,) = standing_under(model, weighed(load, PoseWish(by="from load")))
    travel, force = arm_by_hand(load, lambda length: float(COIL.push(np.array(length), TOP)))
    solution = solve(stand.model, stand.cases)
    if load == 3000.0:  # 3000 · 500 = 5000 · 300: design height
        assert stand.model.pose is None
    else:
        assert stand.model.pose.travel["wheel_l"] == pytest.approx(travel, abs=1e-9)
        assert stand.model.pose.pushes["spring_l"] == pytest.approx(force, rel=1e-11)
    assert solution.pushes[0, 0] == pytest.approx(force, rel=1e-9)


def test_a_bump_stop_takes_its_part():
    load = 9000.0
    model = trailing_arm(COIL)
    stop = replace(model.force_elements["spring_l"], name="stop_l", law=STOP, locked=False)
    model = replace(model, force_elements={**model.force_elements, "stop_l": stop})
    (stand,) = standing_under(model, weighed(load, PoseWish(by="from load")))

    def both(length):
        at = np.array(length)
        return float(COIL.push(at, TOP) + STOP.push(at, TOP))

    travel, force = arm_by_hand(load, both)
    assert travel > 60
    assert stand.model.pose.travel["wheel_l"] == pytest.approx(travel, abs=1e-9)
    solution = solve(stand.model, stand.cases)
    stop_push = float(STOP.push(np.array(stand_length(stand)), TOP))
    assert stop_push > 1000
    assert solution.pushes[1, 0] == pytest.approx(stop_push, rel=1e-12)
    assert solution.pushes[:, 0].sum() == pytest.approx(force, rel=1e-9)


def stand_length(stand):
    model = stand.model
    return np.linalg.norm(model.at("body", "top") - model.at("arm", "seat"))


def test_wind_up_moment_is_rate_times_angle_and_shares_the_load():
    """A bushing that is a hinge: its moment at 40 mm, and the travel at which coil and bushing carry a load."""
    rate = 2.0e6
    model = trailing_arm(COIL, BushingRates(1e6, (1e6, 1e6), rate, (1e9, 1e9)))
    (given,) = standing_under(model, weighed(4000.0, PoseWish(jounce=40.0)))
    turn = np.arcsin(40.0 / ARM)
    solution = solve(given.model, given.cases)
    assert abs(solution.joint_forces[0, 4, 0]) == pytest.approx(rate * turn, rel=1e-3)
    wound = given.model.pose.windup["pivot"]
    assert np.abs(wound[3]) == pytest.approx(turn, rel=1e-12)
    assert wound[[0, 1, 2, 4, 5]] == pytest.approx(np.zeros(5), abs=1e-12)
    (loaded,) = standing_under(model, weighed(4000.0, PoseWish(by="from load")))
    travel, _ = arm_by_hand(4000.0, lambda n: float(COIL.push(np.array(n), TOP)), lambda t: rate * t)
    assert loaded.model.pose.travel["wheel_l"] == pytest.approx(travel, abs=1e-9)
    (check,) = self_checks(solve(loaded.model, loaded.cases))
    assert check.power < 1e-12


def test_wheel_rate_with_the_second_term():
    """D16: K MR² + F dMR/dz; the spring's top is put where dMR/dz is the given one."""
    lever, wheel, tilt = 260.0, 380.0, np.radians(20)

    def mechanism(reach):
        points = {"pivot": (0, 0, 0), "wheel": (0, wheel, 0), "seat": (0, lever, 0)}
        points["top"] = (0, lever + reach * np.sin(tilt), abs(reach) * np.cos(tilt))
        strut = replace(spring("arm", "seat", "top"), law=Coil(35.0, 4000.0, None))
        return linkage(
            points, {}, ["arm"], [("pivot", "hinge", "arm", "body", X)], [driven("arm", "wheel")], [strut]
        )

    def ratio_and_slope(reach):
        def length(z):
            turn = np.arcsin(z / wheel)
            seat = lever * np.array([np.cos(turn), np.sin(turn)])
            return np.linalg.norm(
                [lever + reach * np.sin(tilt) - seat[0], abs(reach) * np.cos(tilt) - seat[1]]
            )

        h = 0.05
        lengths = [length(z) for z in (-h, 0.0, h)]
        return (lengths[0] - lengths[2]) / (2 * h), -(lengths[0] - 2 * lengths[1] + lengths[2]) / h**2

    reach = brentq(lambda r: ratio_and_slope(r)[1] - 0.0004, -3000.0, -60.0)
    found = mechanism(reach)
    nothing = given_forces(found, [case(), case()], [found.model] * 2)
    h = 0.02
    left = virtual_power(pose_many(found, np.array([[-h], [h]])), nothing, clamped(found), np.zeros(0))[:, 0]
    assert ratio_and_slope(reach)[0] == pytest.approx(0.64294758264299, rel=1e-6)
    assert -(left[1] - left[0]) / (2 * h) == pytest.approx(16.068355790926258, rel=1e-5)


@pytest.mark.parametrize("jounce", [-60.0, -20.0, 0.0, 35.0, 80.0])
def test_force_ratio_of_the_frame_is_the_motion_ratio_by_finite_differences(jounce):
    """Two wishbones: push of the locked spring per wheel force from the frame, against −dz/dL of the linkage."""
    mechanism = wishbones()
    h = 0.01
    poses = pose_many(mechanism, np.array([[jounce - h], [jounce], [jounce + h]]))
    length = np.linalg.norm(poses.point("lower", "foot") - poses.point("body", "top"), axis=1)
    motion = -(length[2] - length[0]) / (2 * h)
    posed = posed_model(standing(poses, clamped(mechanism), law_pushes(poses)), 1)
    force = PointLoad(
        "knuckle", "wheel", posed.at("knuckle", "wheel"), np.array([0, 0, 1000.0]), np.zeros(3), "up"
    )
    solution = solve(posed, [case(force)])
    along = poses.velocity("knuckle", "wheel")[1, 0, 2]
    assert along == pytest.approx(1.0)
    assert 1000.0 / solution.pushes[0, 0] == pytest.approx(motion, rel=1e-6)


def test_twist_of_a_bar_held_at_both_ends():
    """Initial strain: moment G J / L φ at either end of a round bar of 24 mm."""
    inertia, length, turned = np.pi * 24**4 / 32, 660.0, np.radians(6.0)
    bar = member("bar", ("a", "b"), bare_section(452.0, inertia / 2, inertia / 2, inertia))
    model = build(
        {"a": (0, 0, 0), "b": (0, length, 0)},
        [frame("bar", bar)],
        supports=dict.fromkeys("ab", ("bar", "welded")),
    )
    twist = {("bar", "bar"): np.array([[0, 0, 0, 0, turned, 0]])}
    solution = solve(replace(model, pose=Pose({}, {}, {}, twist, {})), [replace(case(), strain=1.0)])
    moment = grade().G * inertia / length * turned
    assert np.abs(solution.joint_forces[:, 4, 0]) == pytest.approx([moment, moment], rel=1e-9)
    assert solution.joint_forces[0, 4, 0] == pytest.approx(-solution.joint_forces[1, 4, 0])
    assert solution.movement == pytest.approx(np.zeros_like(solution.movement), abs=1e-12)


def cubic(k, c, reach=40.0):
    """The curve k x + c x³, exactly: one cubic each side of rest."""
    x = np.array([-reach, 0.0, reach])
    return Curve(x, k * x + c * x**3, k + 3 * c * x**2)


def on_bushings(laws, at, turning=(0.0, 0.0)):
    """A rigid beam along x on upright bushings at the places `at`, which hold it against turning about itself.

    turning : rates against turning about the bushings' axes and in the upright plane of the beam.
    """
    points = {f"b{n}": (x, 0, 0) for n, x in enumerate(at)} | {"load": (250.0, 0, 0)}
    parts, joints = [Part("beam", "rigid")], []
    for n, (k, c) in enumerate(laws):
        rates = BushingRates(k, (1e5, 1e5), turning[0], (1e9, turning[1]), (cubic(k, c), *(None,) * 5))
        joints.append(joint(f"b{n}", "bushing", "beam", "body", f"b{n}", (0, 0, 1), rates))
    return build(points, parts, joints)


LAWS = [(800.0, 3.0), (1500.0, 1.2)]
FACTORS = (0.0, 0.1, 1.0, -1.0)


def test_two_bushings_with_cubic_tables():
    """Statically determinate: each takes its part of the load by the levers, and gives by its own cubic."""
    model, load = on_bushings(LAWS, (0.0, 800.0)), 12000.0
    solution = solve(model, [case(push(model, "beam", "load", (0, 0, -f * load))) for f in FACTORS])
    for c, f in enumerate(FACTORS):
        for n, share in enumerate((550 / 800, 250 / 800)):
            x = give(LAWS[n], share * f * load)
            assert -movement(solution, "beam", f"b{n}", c)[2] == pytest.approx(x, abs=1e-9)
            assert solution.joint_forces[n, 2, c] == pytest.approx(-share * f * load, abs=1e-6)


def give(law, load):
    """Movement of a cubic bushing under a load."""
    k, c = law
    return brentq(lambda x: k * x + c * x**3 - load, -40, 40, xtol=1e-14)


def test_cubic_bushings_that_share_a_load():
    """Two at one place: both give alike, and together carry the load: (k1 + k2) x + (c1 + c2) x³."""
    model, load = on_bushings([*LAWS, (500.0, 0.0)], (250.0, 250.0, 250.0), (1e9, 1e9)), 30000.0
    solution = solve(model, [case(push(model, "beam", "load", (0, 0, -load)))])
    x = give((2800.0, 4.2), load)
    assert -movement(solution, "beam", "b0")[2] == pytest.approx(x, abs=1e-9)
    forces = [k * x + c * x**3 for k, c in [*LAWS, (500.0, 0.0)]]
    assert -solution.joint_forces[:, 2, 0] == pytest.approx(forces, rel=1e-9)
    assert solution.beyond[:, 0] == pytest.approx([0.0, 0.0, 0.0])


def test_beyond_its_table_a_bushing_runs_on_straight_and_is_told():
    model = on_bushings([(800.0, 3.0)], (250.0,), (1e9, 1e9))
    short = replace(model.joints["b0"].rates, curves=(cubic(800.0, 3.0, 5.0), *(None,) * 5))
    model = replace(model, joints={"b0": replace(model.joints["b0"], rates=short)})
    at_end, slope = 800.0 * 5 + 3 * 125, 800.0 + 9 * 25
    solution = solve(model, [case(push(model, "beam", "load", (0, 0, -(at_end + 2 * slope))))])
    assert solution.beyond[0, 0] == pytest.approx(2.0)
    (check,) = self_checks(solution)
    assert any("b0" in w and "table" in w for w in check.warnings)


def test_a_load_that_never_lets_the_wheel_come_to_rest_is_refused():
    """Each time that it follows the wheel it is another: 2 kN and 4 kN by turns."""
    sizes = iter(range(100))

    def make(model, only=None):
        return weighed(2000.0 + 2000.0 * (next(sizes) % 2), PoseWish(by="from load"))(model)

    with pytest.raises(NoRest, match="weight: the travel still changes by"):
        standing_under(trailing_arm(COIL), make)
