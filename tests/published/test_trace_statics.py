"""Load paths that books give in closed form: levers, simple beams, springs side by side, two ways to ground.

Statics and beam theory as in any text, e.g. Timoshenko, Strength of Materials, part I (from memory): closed forms,
so no source is needed for the numbers; each stands in the assert.
"""

import numpy as np
import pytest
from small_models import Z, bare_section, build, case, frame, grade, joint, link, member, push

from loadpath.frame import solve
from loadpath.model import BushingRates, LineLoad, LumpedMass, Part, PointLoad, Wheel
from loadpath.trace import contributions, flow_through, forces_along, free_bodies, shares_along, standard_cuts

BAR = bare_section(1e4, 1e7, 1e7, 1e7)
BENDING = bare_section(1e9, 8e5, 8e5, 1e-3)
"""Inextensible, no shear, next to no torsion: what the closed forms assume."""


def shares(solution, cut_number=0, direction=0, c=0):
    """Share or value by joint at a cut."""
    cut = standard_cuts(solution.system.model)[cut_number]
    flow = flow_through(cut, free_bodies(solution, c))
    one = shares_along(flow, forces_along(solution.system.model.axes)[direction])
    found = one.shares if one.shares is not None else one.values
    return dict(zip([a.name for a in flow.crossings], found, strict=True))


def two_arm_knuckle():
    """Wheel centre 330 mm above ground, lower joint at 200, upper at 550; sideways and in turning held by links."""
    points = {
        "wheel": (0, 0, 330),
        "lower": (0, 0, 200),
        "upper": (0, 0, 550),
        "side": (0, -400, 550),
        "ahead": (-400, 0, 550),
        "toe": (0, -150, 330),
        "toe_in": (-300, -150, 330),
    }
    parts = [
        Part("knuckle", "rigid"),
        Part("lower_arm", "rigid"),
        link("upper_arm", "upper", "ahead", BAR),
        link("side_link", "upper", "side", BAR),
        link("toe_link", "toe", "toe_in", BAR, up=Z),
    ]
    joints = [
        joint("lower", "ball", "knuckle", "lower_arm", "lower"),
        joint("upper", "ball", "knuckle", "upper_arm", "upper"),
        joint("side", "ball", "knuckle", "side_link", "upper"),
        joint("toe", "ball", "knuckle", "toe_link", "toe"),
    ]
    supports = {
        "ahead": ("upper_arm", "ball"),
        "side": ("side_link", "ball"),
        "toe_in": ("toe_link", "ball"),
        "wheel": ("lower_arm", "welded"),
    }
    wheel = Wheel("w", "knuckle", "wheel", 330.0, "rear", True, "outboard", None, "none", None)
    return build(points, parts, joints, supports=supports, wheels=[wheel])


@pytest.mark.parametrize(("height", "lower", "upper"), [(0.0, 11.0, -4.0), (330.0, 4.4, 2.6)])
def test_the_lower_joint_of_a_two_arm_knuckle(height, lower, upper):
    """7 kN along at the contact patch, then at the wheel centre: 11.0 and 4.4 kN at the lower joint.

    Lever rule: F (zu − h)/(zu − zl) with zl = 200, zu = 550.
    """
    model = two_arm_knuckle()
    load = PointLoad(
        "knuckle", "wheel", np.array([0, 0, height]), np.array([7000.0, 0, 0]), np.zeros(3), "7 kN"
    )
    found = shares(solve(model, [case(load)]))
    assert 7.0 * found["lower"] == pytest.approx(lower, rel=1e-9)
    assert 7.0 * (found["upper"] + found["side"]) == pytest.approx(upper, rel=1e-9)
    assert found["lower"] == pytest.approx((550 - height) / 350, rel=1e-9)
    assert sum(found.values()) == pytest.approx(1.0, abs=1e-10)


def simple_beam(*loads, density=0.0, masses=()):
    """Span 1000: ball at one end, two slides and no turning about its own axis at the other."""
    length = 1000.0
    points = {"a": (0, 0, 0), "l": (300, 0, 0), "m": (650, 0, 0), "b": (length, 0, 0)}
    beam = frame("beam", member("m", ("a", "l", "m", "b"), BAR, grade(density=density)))
    loose = BushingRates(0.0, (1e6, 1e6), 1e6, (0.0, 0.0))
    joints = [
        joint("a", "ball", "beam", "body", "a"),
        joint("b", "bushing", "beam", "body", "b", (1, 0, 0), loose),
    ]
    return build(points, [beam], joints, supports=None, masses=masses)


def test_simply_supported_beam_divides_by_the_lever():
    """A force at a third: (L − x)/L and x/L; each load by itself, and its own weight half and half."""
    model = simple_beam(density=7.85e-9)
    loads = [push(model, "beam", p, (0, 0, f)) for p, f in (("l", 4000.0), ("m", -1500.0))]
    named = [PointLoad(x.part, x.point, x.position, x.force, x.moment, f"at {x.point}") for x in loads]
    line = LineLoad("beam", "m", np.array([0, 0, 2.0]), "line")
    found = contributions(solve(model, [case(*named, field=(0, 0, -9806.65), line_loads=(line,))]), "beam")
    up = {s.name: w[:, 2, 0] for s, w in zip(found.sources, found.wrenches, strict=True)}
    assert up["at l"] == pytest.approx([4000 * 0.7, 4000 * 0.3], rel=1e-9)
    assert up["at m"] == pytest.approx([-1500 * 0.35, -1500 * 0.65], rel=1e-9)
    assert up["line"] == pytest.approx([1000, 1000], rel=1e-9)
    weight = 7.85e-9 * 1e4 * 1000 * 9806.65
    assert up["own mass"] == pytest.approx([-weight / 2, -weight / 2], rel=1e-9)


def test_a_moment_on_a_simply_supported_beam():
    """M/L up at one support and down at the other, wherever the moment acts."""
    model = simple_beam()
    found = contributions(solve(model, [case(push(model, "beam", "l", moment=(0, -6e5, 0)))]), "beam")
    assert found.wrenches[0, :, 2, 0] == pytest.approx([-600, 600], rel=1e-9)


@pytest.mark.parametrize("rates", [(800.0, 1200.0), (500.0, 4500.0)])
def test_springs_side_by_side_share_by_stiffness(rates):
    """A body between two springs in line takes k1/(k1 + k2) of a force on each."""
    points = {"a": (0, 0, 0), "b": (0, 0, 100), "c": (0, 0, 40)}
    held = [BushingRates(k, (1e5, 1e5), 1e6, (1e6, 1e6)) for k in rates]
    joints = [joint(p, "bushing", "block", "body", p, (0, 0, 1), r) for p, r in zip("ab", held, strict=True)]
    lug = frame("lug", member("m", ("c", "b"), BAR, up=(1, 0, 0)))
    model = build(
        points, [Part("block", "rigid"), lug], [*joints, joint("lug", "welded", "lug", "block", "c")]
    )
    solution = solve(model, [case(push(model, "lug", "b", (0, 0, 1000.0)))])
    expected = np.array(rates) / sum(rates)
    assert list(shares(solution, -1, 2).values()) == pytest.approx(expected, rel=1e-9)
    assert contributions(solution, "block").wrenches[0, :, 2, 0] == pytest.approx(1000 * expected, rel=1e-9)


def test_springs_in_series_with_the_body():
    """The body's rate behind a mount is in series with it: 1/k = 1/km + 1/kb on each way."""
    mounts, body = (3000.0, 3000.0), (9000.0, 1500.0)
    points = {"a": (0, 0, 0), "b": (0, 0, 100)}
    joints = [
        joint(p, "bushing", "block", "body", p, (0, 0, 1), BushingRates(k, (1e5, 1e5), 1e6, (1e6, 1e6)))
        for p, k in zip("ab", mounts, strict=True)
    ]
    rates = {p: (1e7, 1e7, k) for p, k in zip("ab", body, strict=True)}
    mass = LumpedMass("m", "block", "a", 0.1, np.zeros((3, 3)))
    model = build(points, [Part("block", "rigid")], joints, masses=[mass], body_rates=rates)
    found = contributions(solve(model, [case(field=(0, 0, -9806.65))]), "block")
    series = [1 / (1 / m + 1 / b) for m, b in zip(mounts, body, strict=True)]
    assert found.wrenches[0, :, 2, 0] == pytest.approx(-980.665 * np.array(series) / sum(series), rel=1e-9)


def test_two_beams_across_each_other_by_castigliano():
    """Two simply supported beams joined where they cross at mid-span, a force there.

    Castigliano with the force between them as the unknown: each takes in proportion to 48 E I / L³.
    """
    long, short = 1000.0, 600.0
    points = {
        "m": (0, 0, 0),
        "a": (-long / 2, 0, 0),
        "b": (long / 2, 0, 0),
        "c": (0, -short / 2, 0),
        "d": (0, short / 2, 0),
    }
    cross = frame(
        "cross", member("along", ("a", "m", "b"), BENDING), member("across", ("c", "m", "d"), BENDING)
    )
    model = build(points, [cross], supports=dict.fromkeys("abcd", ("cross", "ball")))
    found = contributions(solve(model, [case(push(model, "cross", "m", (0, 0, 5000.0)))]), "cross")
    stiff = np.array([long**-3, long**-3, short**-3, short**-3]) / 2
    assert found.wrenches[0, :, 2, 0] == pytest.approx(5000 * stiff / (2 * stiff[::2].sum()), rel=1e-6)


def test_propped_cantilever_by_castigliano():
    """A cantilever with its tip on a spring k: the prop takes P (L³/3EI)/(L³/3EI + 1/k), the wall the rest."""
    length, k, p = 800.0, 900.0, 3000.0
    points = {"a": (0, 0, 0), "b": (length, 0, 0)}
    arm = frame("arm", member("m", ("a", "b"), BENDING))
    prop = BushingRates(0.0, (k, k), 0.0, (0.0, 0.0))
    joints = [joint("b", "bushing", "arm", "body", "b", (1, 0, 0), prop)]
    model = build(points, [arm], joints, supports={"a": ("arm", "welded")})
    solution = solve(model, [case(push(model, "arm", "b", (0, 0, p)))])
    give = length**3 / (3 * 210000 * 8e5)
    found = contributions(solution, "arm")
    taken = dict(zip(found.joints, found.wrenches[0, :, 2, 0], strict=True))
    assert taken["b"] == pytest.approx(p * give / (give + 1 / k), rel=1e-9)
    assert taken["at_a"] == pytest.approx(p / k / (give + 1 / k), rel=1e-9)
    assert shares(solution, -1, 2)["b"] == pytest.approx(give / (give + 1 / k), rel=1e-9)
