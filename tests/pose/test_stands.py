"""Load cases in their poses: grouping, travels asked for, loads that no travel carries, bars between the wheels."""

import re
from dataclasses import replace
from typing import get_args

import numpy as np
import pytest
from linkages import driven, spring
from small_models import axes_along, bare_section, build, case, frame, grade, joint, link, member

from loadpath.checks import locked_pushes
from loadpath.frame import build_system, self_checks, solve, solve_system
from loadpath.frame.power import WORKS
from loadpath.model import (
    BushingRates,
    Coil,
    Kinematics,
    Part,
    PointLoad,
    PoseWish,
    Split,
    Stop,
    curve_through,
)
from loadpath.pose import NoRest, OutOfReach, make_mechanism
from loadpath.pose.stands import stands
from loadpath.pose.twisting import twist_rates
from loadpath.sweep.rolling import roll_rates

X, Y = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)
ARM, SEAT, TOP, HALF = 500.0, 300.0, 420.0, 700.0
BAR_ARM, BAR_SPAN = 150.0, 600.0
COIL = Coil(60.0, 5000.0, None)


def sided(name, left):
    return f"{name}_{'l' if left else 'r'}"


def axle(law=COIL, diameter=24.0, arm_diameter=200.0):
    """Two trailing arms with coils, and an anti-roll bar with stiff arms on upright links; x forward, y left."""
    points, parts, joints, wheels, struts = {"middle": (0, 0, 350)}, [], [], [], []
    for left in (True, False):
        y = HALF if left else -HALF
        b = BAR_SPAN / 2 if left else -BAR_SPAN / 2

        def n(name, left=left):
            return sided(name, left)

        points |= {
            n("pivot"): (0, y, 300),
            n("wheel"): (-ARM, y, 300),
            n("seat"): (-SEAT, y, 300),
            n("top"): (-SEAT, y, 300 + TOP),
            n("foot"): (-BAR_ARM, b, 250),
            n("end"): (-BAR_ARM, b, 350),
            n("bush"): (0, b, 350),
        }
        parts += [
            Part(n("arm"), "rigid"),
            link(n("drop"), n("foot"), n("end"), bare_section(300.0, 1e4, 1e4), up=X),
        ]
        joints += [
            joint(n("pivot"), "hinge", n("arm"), "body", n("pivot"), Y),
            joint(n("foot"), "ball", n("drop"), n("arm"), n("foot")),
            joint(n("end"), "ball", n("drop"), "bar", n("end")),
            replace(
                joint(n("bush"), "bushing", "bar", "body", n("bush"), Y),
                rates=BushingRates(1e6, (1e6, 1e6), 0.0, (1e6, 1e6)),
            ),
        ]
        wheels.append(replace(driven(n("arm"), n("wheel")), name=n("wheel"), left=left))
        element = replace(spring(n("arm"), n("seat"), n("top"), n("wheel")), name=n("spring"), law=law)
        struts.append(element)
    thin, thick = (round_bar(d) for d in (diameter, arm_diameter))
    bar = frame(
        "bar",
        member("back", ("bush_l", "middle", "bush_r"), thin),
        member("arm_l", ("bush_l", "end_l"), thick),
        member("arm_r", ("bush_r", "end_r"), thick),
    )
    parts.append(replace(bar, split=Split("middle", None)))
    return build(points, parts, joints, forces=struts, wheels=wheels)


def round_bar(d):
    inertia = np.pi * d**4 / 32
    return bare_section(np.pi * d**2 / 4, inertia / 2, inertia / 2, inertia)


def upward(model, left, force):
    part, centre = sided("arm", left), sided("wheel", left)
    push = np.array([0, 0, force])
    return PointLoad(part, centre, model.at(part, centre), push, np.zeros(3), "ground")


def weighed(loads, wish, roll=0.0):
    """Builds one load case for each pair of upward forces at the wheel centres."""

    def make(model, names=None):
        made = {}
        for k, pair in enumerate(loads):
            forces = tuple(upward(model, *pair_of) for pair_of in zip((True, False), pair, strict=True))
            name = f"case_{k}"
            made[name] = replace(case(*forces, name=name), pose=wish, strain=1.0, roll=roll)
        return {n: c for n, c in made.items() if names is None or n in names}

    return make


def standing(model, make, held=None):
    return stands(model, make(model), make, held)


BAR_RATE = grade().G * np.pi * 24**4 / 32 / BAR_SPAN
"""[N·mm/rad] closed form, G J / L."""


def test_roll_twists_the_bar_and_loads_its_links():
    """Stiff arms: each link pushes with G J / L times the twist, over its lever; the twist is that of both arms."""
    roll = np.radians(1.0)
    (stand,) = standing(axle(), weighed([(3000.0, 3000.0)], PoseWish(by="from roll"), roll))
    travel = stand.model.pose.travel
    assert travel["wheel_l"] == pytest.approx(-HALF * np.tan(roll))
    assert travel["wheel_r"] == pytest.approx(HALF * np.tan(roll))
    turn = np.arcsin(HALF * np.tan(roll) / ARM)  # of an arm; the link takes the bar's end along as far
    solution = solve(stand.model, stand.cases)
    push = solution.joint_forces[solution.joint_names.index("end_l"), 2, 0]
    assert abs(push) == pytest.approx(BAR_RATE * 2 * turn / BAR_ARM, rel=0.01)
    assert stand.cases[0].roll == 0.0


def test_the_rate_of_a_bar_is_torsion_where_its_arms_are_stiff_and_less_where_they_bend():
    stiff, soft = (make_mechanism(axle(arm_diameter=d)) for d in (200.0, 24.0))
    assert twist_rates(stiff, None) == pytest.approx([BAR_RATE], rel=1e-9)
    assert twist_rates(stiff, locked_pushes) == pytest.approx([BAR_RATE], rel=0.02)
    inertia = np.pi * 24**4 / 64
    bent = 2 * BAR_ARM / (3 * grade().E * inertia)  # both arms as cantilevers, as a twist of the whole
    in_line = 1 / (1 / BAR_RATE + bent)
    assert twist_rates(soft, locked_pushes) == pytest.approx([in_line], rel=0.03)


def test_roll_stiffness_of_an_axle_by_hand():
    """Springs k i² y², the bar G J / L by the twist of both arms; upright struts: their ratio stands still."""
    rate = roll_rates(make_mechanism(axle()), locked_pushes)["front"]
    assert rate.springs == pytest.approx(2 * 60.0 * (SEAT / ARM) ** 2 * HALF**2, rel=1e-5)
    assert rate.bar == pytest.approx(BAR_RATE * (2 * HALF / ARM) ** 2, rel=0.02)


@pytest.mark.parametrize("diameter", [24.0, 30.0])
def test_springs_push_with_what_the_frame_finds_under_a_load_on_one_wheel(diameter):
    """Bar with arms that bend: the locked springs carry what their law gives, to a per cent."""
    model = axle(diameter=diameter, arm_diameter=24.0)
    (stand,) = standing(model, weighed([(3600.0, 2800.0)], PoseWish(by="from load")), locked_pushes)
    solution = solve(stand.model, stand.cases)
    own = [stand.model.pose.pushes[n] for n in solution.push_names]
    assert solution.pushes[:, 0] == pytest.approx(own, rel=0.01)
    torsion_only = standing(model, weighed([(3600.0, 2800.0)], PoseWish(by="from load")))[0].model.pose.travel
    travel = stand.model.pose.travel
    assert travel["wheel_l"] - travel["wheel_r"] > torsion_only["wheel_l"] - torsion_only["wheel_r"] > 0


def test_load_cases_of_one_pose_are_solved_together():
    make = weighed([(3000.0, 3000.0), (4000.0, 4000.0), (3000.0, 3200.0)], PoseWish(jounce=20.0))
    (stand,) = standing(axle(), make)
    assert stand.numbers == (0, 1, 2)
    make = weighed([(3500.0, 3500.0), (4000.0, 4000.0), (3500.0, 3500.0)], PoseWish(by="from load"))
    first, second = standing(axle(), make)
    assert (first.numbers, second.numbers) == ((0, 2), (1,))


def test_travels_of_single_wheels():
    wish = PoseWish(jounce=20.0, wheels={"wheel_r": -10.0})
    (stand,) = standing(axle(), weighed([(3000.0, 3000.0)], wish))
    assert stand.model.pose.travel == pytest.approx({"wheel_l": 20.0, "wheel_r": -10.0})
    assert stand.model.points["wheel_l"][2] == pytest.approx(320.0)


def test_what_no_travel_carries_is_refused_in_words():
    with pytest.raises(NoRest, match="spring_l, spring_r pushes with is not known"):
        standing(axle(law=None), weighed([(3000.0, 3000.0)], PoseWish(by="from load")))
    with pytest.raises((NoRest, OutOfReach), match="case_0"):
        standing(axle(), weighed([(90000.0, 90000.0)], PoseWish(by="from load")))
    model = axle()
    wheels = {n: replace(w, jounce=60.0, rebound=50.0) for n, w in model.wheels.items()}
    with pytest.raises(NoRest, match=r"beyond its full jounce of 60 mm; a stop is missing or too soft"):
        standing(replace(model, wheels=wheels), weighed([(4500.0, 4500.0)], PoseWish(by="from load")))


def test_all_load_cases_without_a_travel_are_told_together():
    model = axle()
    make = weighed([(90000.0, 90000.0), (3000.0, 3000.0), (5000.0, 5000.0)], PoseWish(by="from load"))
    wheels = {n: replace(w, jounce=60.0, rebound=50.0) for n, w in model.wheels.items()}
    with pytest.raises(NoRest) as error:
        standing(replace(model, wheels=wheels), make)
    told = str(error.value)
    assert told.startswith("2 load cases find no travel:")
    assert re.search(
        r"case_0: no travel is found at which .* the load is still more than they push with", told
    )
    assert re.search(r"case_2: .* beyond its full jounce of 60 mm", told)
    assert "case_1" not in told


def test_a_bump_stop_that_never_lets_go_of_its_gap_still_lets_newton_through():
    """A stop of steel behind a gap of 10 mm: the travel ends a little behind it."""
    steel = Stop(10.0, curve_through([0, 1, 2], [0, 2e5, 8e5]), rebound=False)
    model = axle()
    stops = {
        f"stop{s}": replace(model.force_elements[f"spring{s}"], name=f"stop{s}", law=steel, locked=False)
        for s in ("_l", "_r")
    }
    model = replace(model, force_elements={**model.force_elements, **stops})
    (stand,) = standing(model, weighed([(20000.0, 20000.0)], PoseWish(by="from load")))
    assert 10 * ARM / SEAT < stand.model.pose.travel["wheel_l"] < 10.4 * ARM / SEAT + 1


def test_forces_that_do_not_belong_to_the_pose_are_refused():
    """The identity: a joint axis, a velocity or a push that is not that of the pose leaves power over."""
    (stand,) = standing(axle(), weighed([(3400.0, 3000.0)], PoseWish(jounce=40.0, wheels={"wheel_r": -20.0})))
    (check,) = self_checks(solve(stand.model, stand.cases))
    assert check.power < 1e-11
    assert not check.refusals
    solution = solve(stand.model, stand.cases)
    wrong = replace(solution, pushes=solution.pushes * [[1.001], [1.0]])
    assert "do not belong together" in " ".join(self_checks(wrong)[0].refusals)
    turned = axes_along((0.02, 1.0, 0.0))
    tilted = replace(stand.model, joints={
        **stand.model.joints, "pivot_l": replace(stand.model.joints["pivot_l"], axes=turned)})  # fmt: skip
    side = PointLoad(
        "arm_l", "wheel_l", stand.model.points["wheel_l"], np.array([0, 500.0, 0]), np.zeros(3), "side"
    )
    loaded = [replace(c, loads=(*c.loads, side)) for c in stand.cases]
    found = self_checks(solve_system(build_system(tilted), loaded))[0]
    assert found.power > 1e-8
    assert found.refusals


def test_the_identity_counts_springs_that_answer_with_a_rate():
    """One spring of the axle set free with its rate: what it adds to its given push works on the motion too."""
    (stand,) = standing(axle(), weighed([(3400.0, 3000.0)], PoseWish(jounce=20.0)))
    elements = dict(stand.model.force_elements)
    elements["spring_l"] = replace(elements["spring_l"], locked=False, force=5000.0, free_rate=60.0)
    solution = solve(replace(stand.model, force_elements=elements), stand.cases)
    assert abs(solution.pushes[0, 0] - 5000.0) > 100
    (check,) = self_checks(solution)
    assert check.power < 1e-11


def test_every_way_a_bushing_moves_is_known_to_the_identity():
    assert set(WORKS) == set(get_args(Kinematics))
