"""Each refusal by its words."""

import numpy as np
import pytest
from small_models import bare_section, build, case, frame, grade, joint, link, member, push

from loadpath.frame import (
    FrameError,
    IllConditioned,
    Mechanism,
    NearlyIncompatible,
    build_system,
    self_checks,
    solve,
)
from loadpath.model import BushingRates, EndFixity, ForceElement, LumpedMass, Part, Wheel

BOX = bare_section(1000, 3e5, 3e5, 5e5)


def test_an_arm_that_nothing_holds_about_its_bushings():
    points = {
        "lower_front_l": (165, 352, 236),
        "lower_rear_l": (-182, 348, 228),
        "lower_ball_l": (4, 742, 214),
    }
    arm = frame(
        "lower_arm_l",
        member("m1", ("lower_front_l", "lower_ball_l"), BOX),
        member("m2", ("lower_rear_l", "lower_ball_l"), BOX),
    )
    joints = [joint(n, "ball", "lower_arm_l", "body", n) for n in ("lower_front_l", "lower_rear_l")]
    with pytest.raises(Mechanism) as caught:
        build_system(build(points, [arm], joints))
    (motion,) = caught.value.motions
    assert motion == (
        "lower_arm_l turns about the line lower_rear_l - lower_front_l: nothing holds it "
        "(joints to the rest: lower_front_l, lower_rear_l)"
    )


def test_a_part_that_slides():
    points = {"p": (0, 0, 0), "q": (100, 0, 0)}
    model = build(
        points, [frame("rack", member("m", ("p", "q"), BOX))], supports={"p": ("rack", "slider", (1, 0, 0))}
    )
    with pytest.raises(Mechanism, match="rack moves along forward: nothing holds it"):
        build_system(model)


def test_two_parts_that_move_together():
    points = {"p": (0, 0, 0), "q": (300, 0, 0), "r": (300, 200, 0)}
    parts = [frame("arm", member("m", ("p", "q"), BOX)), frame("beam", member("m", ("q", "r"), BOX))]
    joints = [joint("weld", "welded", "arm", "beam", "q")]
    model = build(points, parts, joints, {"p": ("arm", "hinge", (0, 0, 1))})
    with pytest.raises(Mechanism, match="arm turns about p along up; beam turns about"):
        build_system(model)


def test_a_released_chain_inside_a_frame():
    points = {"a": (0, 0, 0), "b": (500, 0, 0), "c": (1000, 0, 0)}
    loose = EndFixity((np.inf,) * 4 + (0.0, 0.0))
    part = frame(
        "f",
        member("m", ("a", "b"), BOX, ends=(loose, loose)),
        member("n", ("b", "c"), BOX, ends=(loose, loose)),
    )
    model = build(points, [part], supports={"a": ("f", "welded"), "c": ("f", "welded")})
    with pytest.raises(Mechanism, match="nothing holds it"):
        build_system(model)


def test_a_rod_between_balls_spins_idly_and_is_reported():
    points = {"p": (0, 0, 0), "q": (300, 50, 20)}
    joints = [joint(n, "ball", "toe", "body", n) for n in points]
    model = build(points, [link("toe", "p", "q", BOX, grade(density=7.85e-9))], joints)
    solution = solve(model, [case(field=(0, 0, -9806.65))])
    (spin,) = solution.system.spins
    assert (spin.part, spin.points) == ("toe", ("p", "q"))
    assert not self_checks(solution)[0].refusals


def test_a_mass_beside_the_line_makes_a_mechanism():
    points = {"p": (0, 0, 0), "q": (300, 0, 0), "side": (150, 40, 0)}
    rod = frame("rod", member("m", ("p", "q"), BOX), brackets={"side": "p"})
    joints = [joint(n, "ball", "rod", "body", n) for n in ("p", "q")]
    mass = LumpedMass("m", "rod", "side", 0.01, np.zeros((3, 3)))
    with pytest.raises(Mechanism, match="rod turns about the line p - q: nothing holds it"):
        build_system(build(points, [rod], joints, masses=[mass]))


def test_a_spin_that_a_load_turns_is_refused():
    points = {"p": (0, 0, 0), "q": (300, 0, 0)}
    rod = frame("rod", member("m", ("p", "q"), BOX))
    model = build(points, [rod], [joint(n, "ball", "rod", "body", n) for n in points])
    load = case(push(model, "rod", "p", (0, 0, 100), moment=(5e4, 0, 0)))
    refusal, *_ = self_checks(solve(model, [load]))[0].refusals
    assert "rod turns about the line p - q: the loads turn it and nothing holds it" in refusal


def test_nearly_incompatible_joints():
    points = {"p": (0, 0, 0), "q": (1, 0, 0), "r": (500, 0, 0), "s": (500, 300, 0)}
    parts = [Part("a", "rigid"), Part("b", "rigid")]
    joints = [joint(n, "ball", "a", "b", n) for n in ("p", "q", "s")]
    model = build(points, parts, joints, {"r": ("a", "welded")})
    with pytest.raises(NearlyIncompatible, match="almost contradict each other"):
        build_system(model)


def test_redundant_joints_are_marked():
    points = {"p": (0, 0, 0), "q": (400, 0, 0), "t": (0, 300, 0)}
    parts = [Part("door", "rigid")]
    joints = [joint(n, "hinge", "door", "body", n, (1, 0, 0)) for n in ("p", "q")]
    spring = BushingRates(100, (1, 1), 0, (0, 0))
    joints.append(joint("t", "bushing", "door", "body", "t", (0, 0, 1), spring))
    model = build(points, parts, joints)
    solution = solve(model, [case(push(model, "door", "t", (100, 0, 50)))])
    assert solution.redundant == (("p", "q"),)


def test_ill_conditioning_is_refused():
    points = {"a": (0, 0, 0), "b": (500, 0, 0), "c": (1000, 0, 0)}
    hard, soft = bare_section(1e14, 1e18, 1e18, 1e18), bare_section(1e-3, 1e-4, 1e-4, 1e-4)
    part = frame("f", member("m", ("a", "b"), soft), member("n", ("b", "c"), hard))
    model = build(points, [part], supports={"a": ("f", "welded")})
    with pytest.raises((IllConditioned, Mechanism)):
        build_system(model)


def test_a_spring_that_does_not_carry_its_wheel_cannot_bring_in_roll():
    """The locked spring stands between the arm's inner end and the body: its length moves no wheel."""
    points = {"in": (0, 300, 200), "out": (0, 700, 200), "top": (0, 0, 200)}
    arm = frame("arm", member("m", ("in", "out"), BOX))
    wheel = Wheel("w", "arm", "out", 300, "rear", True, "outboard", None, "none", None)
    spring = ForceElement("spring", ("arm", "body"), ("in", "top"), "w", True, 0, 100)
    rates = BushingRates(1e4, (1e4, 1e4), 1e7, (1e7, 1e7))
    hold = joint("in", "bushing", "arm", "body", "in", (1, 0, 0), rates)
    model = build(points, [arm], [hold], forces=[spring], wheels=[wheel])
    with pytest.raises(FrameError, match="spring does not set the travel of w"):
        solve(model, [case(roll=0.02)])


def test_numbers_too_many_orders_apart_are_refused_in_words():
    points = {"a": (0, 0, 0), "b": (500, 0, 0)}
    part = frame("f", member("m", ("a", "b"), BOX, offset=(1e12, 0.0)))
    model = build(points, [part], supports={"a": ("f", "welded")})
    with pytest.raises((IllConditioned, Mechanism)):
        build_system(model)
