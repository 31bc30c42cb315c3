"""Loads followed through a part: they add up exactly, and an elastic body or a moved ground is told as such."""

from dataclasses import replace

import numpy as np
import pytest
from random_modules import random_cases, random_module
from small_models import bare_section, build, case, frame, joint, member, push

from loadpath.frame import solve
from loadpath.model import BushingRates, Part, Pose, curve_through
from loadpath.trace import (
    BESIDE,
    LOAD,
    MASS,
    MOVEMENT,
    POSE,
    TABLE,
    TraceError,
    connections,
    contributions,
    followable,
    outgoing,
)

BOX = bare_section(1200, 6e5, 4e5, 7e5, shear_areas=(500, 600))
SOFT = BushingRates(1500, (4000, 5000), 2e5, (3e5, 3e5))


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("part", ["cradle", "lower", "upper"])
def test_contributions_add_up_to_the_joints_forces(seed, part):
    model = random_module(seed)
    solution = solve(model, random_cases(model, seed))
    found = contributions(solution, part)
    assert found.closing.max() < 1e-10
    whole = {one.name: one for one in connections(solution)}
    for j, name in enumerate(found.joints):
        one = whole[name]
        wanted = one.wrench if one.source == part else -one.wrench
        size = np.abs(found.wrenches).max()
        assert found.wrenches[:, j].sum(axis=0) == pytest.approx(wanted, abs=1e-10 * size)


def test_what_comes_in_is_told_by_its_kind():
    model = random_module(5)
    sources = contributions(solve(model, random_cases(model, 5)), "cradle").sources
    kinds = {s.name: s.kind for s in sources}
    assert kinds["arm1"] == "bushing"
    assert kinds["own mass"] == MASS
    assert kinds["load on cradle"] == LOAD
    assert kinds["line load"] == LOAD
    assert kinds["movement of the ground"] == MOVEMENT
    assert kinds["other forces on the body at m2"] == BESIDE
    below = contributions(solve(model, random_cases(model, 5)), "lower")
    assert {s.name: s.kind for s in below.sources}["movement of cradle"] == MOVEMENT
    assert {s.name: s.kind for s in below.sources}["damper"] == "strut"


def test_each_contribution_is_in_balance_with_what_comes_in():
    """What one source brings must leave by the joints: force by force, whatever the sharing."""
    model = random_module(4)
    solution = solve(model, random_cases(model, 4))
    found = contributions(solution, "cradle")
    into = {one.name: one.wrench if one.target == "cradle" else -one.wrench for one in connections(solution)}
    for source, wrenches in zip(found.sources, found.wrenches, strict=True):
        out = wrenches[:, :3].sum(axis=0)
        size = np.abs(found.wrenches).max()
        if source.name in into:
            assert out == pytest.approx(into[source.name][:3], abs=1e-9 * size)
        elif source.kind in (MOVEMENT, BESIDE):
            assert out == pytest.approx(np.zeros_like(out), abs=1e-9 * size)


def test_a_part_stands_on_the_body_or_on_what_is_nearer_to_it():
    model = random_module(0)
    assert outgoing(model, "cradle") == ("m1", "m2", "m3", "m4")
    assert outgoing(model, "lower") == ("arm1", "arm2", "spring")
    assert outgoing(model, "upper") == ("up1", "up2")
    assert followable(model) == ("cradle", "lower", "upper")


def with_tables(model, *names):
    """Bushings of which the axial force grows with the cube of the movement beside its rate, and bends at once."""
    joints = dict(model.joints)
    x = np.linspace(-6, 6, 41)
    for name in names:
        rates = joints[name].rates
        force = rates.axial * x + 60 * x**3
        joints[name] = replace(
            joints[name], rates=replace(rates, curves=(curve_through(x, force), *rates.curves[1:]))
        )
    return replace(model, joints=joints)


@pytest.mark.parametrize("seed", range(3))
def test_bushings_with_tables_are_told_for_themselves(seed):
    """The law of a bushing is no straight line: its rate at rest divides loads, the rest is a source of its own."""
    model = with_tables(random_module(seed), "m1", "m2", "arm1")
    solution = solve(model, random_cases(model, seed))
    for part, names in (("cradle", ("m1", "m2")), ("lower", ("arm1",))):
        found = contributions(solution, part)
        assert found.closing.max() < 1e-9
        own = {s.name for s in found.sources if s.kind == TABLE}
        assert own == {f"{name} beyond its rate at rest" for name in names}
        k = next(k for k, s in enumerate(found.sources) if s.kind == TABLE)
        brought = found.wrenches[k, :, :3].sum(axis=0)
        assert np.abs(brought).max() < 1e-8 * np.abs(found.wrenches).max()


@pytest.mark.parametrize("part", ["cradle", "lower", "upper"])
def test_wind_up_of_a_pose_is_told_for_itself(part):
    model = random_module(2)
    rng = np.random.default_rng(7)
    wound = {n: rng.uniform(-0.5, 0.5, 6) * [1, 1, 1, 0.1, 0.1, 0.1] for n in ("m1", "m2", "arm2", "up2")}
    pose = Pose({"w": 20.0}, {}, wound, {}, {})
    posed = replace(model, pose=pose)
    cases = [replace(c, strain=1.0) for c in random_cases(model, 2)]
    found = contributions(solve(posed, cases), part)
    assert found.closing.max() < 1e-9
    assert [s.kind for s in found.sources].count(POSE) == 1


def test_a_strut_that_holds_an_arm_takes_its_share():
    """Ball joint above a strut: what the ball brings up goes into the strut, not round through the bushings."""
    model = random_module(0)
    solution = solve(model, random_cases(model, 0, still=True)[:1])
    found = contributions(solution, "lower")
    assert found.joints == ("arm1", "arm2", "spring")
    ball = next(k for k, s in enumerate(found.sources) if s.name == "ball")
    push = solution.pushes[solution.push_names.index("spring"), 0]
    assert np.linalg.norm(found.wrenches[ball, 2, :3, 0]) == pytest.approx(abs(push), rel=0.2)


@pytest.mark.parametrize("seed", range(3))
def test_a_strut_that_stands_on_the_cradle(seed):
    """Its far end moves with the cradle: that movement is a source of the arm as the joints' is."""
    model = random_module(seed)
    spring = replace(model.force_elements["spring"], between=("cradle", "lower"), ends=("c3", "low"))
    model = replace(model, force_elements={**model.force_elements, "spring": spring})
    solution = solve(model, random_cases(model, seed))
    found = contributions(solution, "lower")
    assert found.joints == ("arm1", "arm2", "spring")
    assert found.closing.max() < 1e-10
    push = solution.pushes[solution.push_names.index("spring")]
    line = model.points["c3"] - model.points["low"]
    taken = np.einsum("i,kic->c", line / np.linalg.norm(line), found.wrenches[:, 2, :3])
    assert taken == pytest.approx(push, rel=1e-8)


def test_what_does_not_stand_alone_is_refused_in_words():
    model = random_module(0)
    solution = solve(model, random_cases(model, 0))
    with pytest.raises(TraceError, match="knuckle does not stand alone"):
        contributions(solution, "knuckle")
    with pytest.raises(TraceError, match="nearest: cradle"):
        contributions(solution, "cradel")


def test_a_part_that_floats_has_no_way_to_follow():
    model = build({"a": (0, 0, 0)}, [Part("block", "rigid")], supports={"a": ("block", "welded")})
    solution = solve(model, [case()])
    floating = replace(solution, system=replace(solution.system, model=replace(model, joints={})))
    with pytest.raises(TraceError, match="stands on nothing"):
        contributions(floating, "block")


def redundant_plate():
    """A rigid plate welded to rigid ground twice: what each weld takes is not determinate."""
    points = {"a": (0, 0, 0), "b": (400, 0, 0), "c": (100, 0, 0)}
    arm = frame("arm", member("m", ("c", "b"), BOX))
    model = build(
        points,
        [Part("plate", "rigid"), arm],
        [joint("arm", "welded", "arm", "plate", "c")],
        supports={"a": ("plate", "welded"), "b": ("plate", "welded")},
    )
    return model, solve(model, [case(push(model, "arm", "b", (0, 0, 1000)))])


def test_joints_that_are_not_determinate_are_marked_and_close_together():
    _, solution = redundant_plate()
    found = contributions(solution, "plate")
    assert found.sure == (False, False)
    assert found.wrenches.sum(axis=(0, 1))[2, 0] == pytest.approx(1000.0, rel=1e-10)


def test_a_part_held_twice_over_only_when_cut_free_is_refused():
    """A block on two soft arms: cut free, what it stands on is rigid and holds it twice."""
    points = {"a": (0, 0, 0), "b": (400, 0, 0), "p": (0, 0, 300), "q": (400, 0, 300)}
    legs = [
        frame(n, member("m", path, BOX, up=(0, 1, 0)))
        for n, path in (("one", ("a", "p")), ("two", ("b", "q")))
    ]
    model = build(
        points,
        [Part("block", "rigid"), *legs],
        [joint("p", "welded", "block", "one", "p"), joint("q", "welded", "block", "two", "q")],
        supports={"a": ("one", "welded"), "b": ("two", "welded")},
    )
    solution = solve(model, [case(push(model, "block", "p", (100, 50, -2000)))])
    with pytest.raises(TraceError, match="more than once over"):
        contributions(solution, "block")


def test_a_split_that_does_not_add_up_is_not_shown():
    model = random_module(0)
    solution = solve(model, random_cases(model, 0))
    bent = solution.joint_forces.copy()
    bent[solution.joint_names.index("m1"), 0] += 1.0
    with pytest.raises(TraceError, match="not shown"):
        contributions(replace(solution, joint_forces=bent), "cradle")
