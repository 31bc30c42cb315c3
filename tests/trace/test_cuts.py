"""Cuts: they close, their shares sum to one, and they go round the parts that a practitioner would name."""

import numpy as np
import pytest
from random_modules import random_cases, random_module
from small_models import build, case, frame, joint, member

from loadpath.frame import solve
from loadpath.model import Part, PointLoad, Wheel
from loadpath.trace import (
    TraceError,
    cut_round,
    flow_through,
    forces_along,
    free_bodies,
    moments_about,
    pick,
    shares_along,
    standard_cuts,
)

SEEDS = range(8)


def flows(solution, cuts):
    for c in range(len(solution.cases)):
        bodies = free_bodies(solution, c)
        for cut in cuts:
            yield flow_through(cut, bodies)


@pytest.mark.parametrize("seed", SEEDS)
def test_cuts_close_and_shares_sum_to_one(seed):
    model = random_module(seed)
    solution = solve(model, random_cases(model, seed))
    cuts = [*standard_cuts(model), cut_round(model, ["lower"]), cut_round(model, ["cradle", "upper"])]
    measures = [
        *forces_along(model.axes),
        *moments_about(model, "wheel"),
        *moments_about(model, "ball", "top"),
    ]
    judged = 0
    for flow in flows(solution, cuts):
        assert flow.closing < 1e-10
        for measure in measures:
            one = shares_along(flow, measure)
            largest = max(measure.size(a.wrench, a.position) for a in flow.crossings)
            assert one.net == pytest.approx(one.loads + one.masses, abs=1e-10 * largest)
            if one.shares is not None:
                judged += 1
                assert one.shares.sum() == pytest.approx(1.0, abs=1e-10)
    assert judged > 45


def test_standard_cuts_of_a_module():
    model = random_module(0)
    wheel, arms, body = standard_cuts(model)
    assert wheel.inside == {"knuckle"}
    assert arms.inside == {"knuckle", "lower", "upper", "toe"}
    assert body.inside == set(model.parts)
    solution = solve(model, random_cases(model, 0))
    crossing = [{a.name for a in f.crossings} for f in flows(solution, (wheel, arms, body))]
    assert crossing[0] == {"ball", "top", "rod"}
    assert crossing[1] == {"arm1", "arm2", "up1", "up2", "link_end", "spring", "damper"}
    assert crossing[2] == {"m1", "m2", "m3", "m4", "up1", "up2", "link_end", "spring", "damper"}


def two_wheels(*joints):
    parts = [Part(n, "rigid") for n in ("left", "right", "axle", "cradle")]
    wheels = [
        Wheel(f"w{p}", p, p, 300.0, "rear", p == "left", "outboard", None, "none", None)
        for p in ("left", "right")
    ]
    points = {"left": (0, 700, 300), "right": (0, -700, 300), "a": (0, 0, 300), "b": (500, 0, 300)}
    return build(points, parts, joints, wheels=wheels)


def test_wheels_that_share_an_arm_have_one_cut():
    model = two_wheels(
        joint("l", "welded", "left", "axle", "left"),
        joint("r", "welded", "right", "axle", "right"),
        joint("c", "hinge", "axle", "cradle", "a", (0, 1, 0)),
        joint("m", "welded", "cradle", "body", "b"),
    )
    names = {cut.name: cut.inside for cut in standard_cuts(model)}
    assert names["arms_of_wleft_wright"] == {"left", "right", "axle"}
    assert names["onto_body"] == {"left", "right", "axle", "cradle"}


def test_what_stands_on_the_body_is_no_arm():
    """A knuckle that sits on the cradle itself: the cut goes between them."""
    mounts = [joint(f"m{p}", "ball", "cradle", "body", p) for p in ("a", "b", "left")]
    model = two_wheels(
        joint("l", "welded", "left", "cradle", "left"),
        joint("r", "welded", "right", "cradle", "right"),
        *mounts,
    )
    assert {frozenset(c.inside) for c in standard_cuts(model)} == {
        frozenset(["left"]),
        frozenset(["right"]),
        frozenset(["left", "right", "axle", "cradle"]),
    }


def test_without_a_net_there_is_no_share():
    model = random_module(3)
    solution = solve(
        model,
        [
            case(
                PointLoad("knuckle", "wheel", model.points["wheel"], np.array([0, 0, 5e3]), np.zeros(3), "up")
            )
        ],
    )
    cut = standard_cuts(model)[0]
    forward, left, up = (shares_along(next(flows(solution, [cut])), m) for m in forces_along(model.axes))
    assert forward.shares is None
    assert left.shares is None
    assert np.abs(left.values).max() > 100
    assert up.shares is not None


def test_moments_do_not_depend_on_where_a_load_is_written():
    """A force moved with its moment is the same load: its moment about a line stays."""
    model = random_module(1)
    at, aside, force = model.points["wheel"], np.array([30.0, -40, 55]), np.array([1e3, -2e3, 3e3])
    here = PointLoad("knuckle", "wheel", at, force, np.cross(aside, force), "load")
    there = PointLoad("knuckle", "wheel", at + aside, force, np.zeros(3), "load")
    solution = solve(model, [case(here), case(there)])
    first, second = (f for f in flows(solution, standard_cuts(model)[:1]))
    for measure in moments_about(model, "rod"):
        assert shares_along(second, measure).values == pytest.approx(
            shares_along(first, measure).values, rel=1e-9
        )
        assert shares_along(second, measure).loads == pytest.approx(
            shares_along(first, measure).loads, rel=1e-9
        )


def test_a_kingpin_moment_is_the_toe_links_alone():
    """The two ball joints lie on the line: only the third joint has a moment about it. Statics."""
    model = random_module(2)
    solution = solve(model, random_cases(model, 2))
    (measure,) = moments_about(model, "ball", "top")
    one = shares_along(next(flows(solution, standard_cuts(model)[:1])), measure)
    share = dict(zip([a.name for a in one.flow.crossings], one.shares, strict=True))
    assert share["rod"] == pytest.approx(1.0, abs=1e-9)


@pytest.mark.parametrize(
    ("ask", "words"),
    [
        (lambda m: cut_round(m, ["lowr"]), "nearest: lower"),
        (lambda m: cut_round(m, []), "one part or more"),
        (lambda m: moments_about(m, "bal"), "nearest: ball"),
        (lambda m: moments_about(m, "ball", "ball"), "at one place"),
        (lambda m: pick(forces_along(m.axes), "upp"), "nearest: up"),
    ],
)
def test_questions_without_an_answer(ask, words):
    with pytest.raises(TraceError, match=words):
        ask(random_module(0))


def test_a_part_beside_the_wheels_path_is_inside_the_last_cut_only():
    bar = frame("bar", member("m", ("a", "b"), random_module(0).parts["toe"].members[0].sections[0][0]))
    model = two_wheels(
        joint("l", "welded", "left", "cradle", "left"),
        joint("r", "welded", "right", "cradle", "right"),
        joint("m", "welded", "cradle", "body", "b"),
    )
    model = build(
        {k: tuple(v) for k, v in model.points.items()},
        [*model.parts.values(), bar],
        [*model.joints.values(), joint("bar", "welded", "bar", "cradle", "a")],
        wheels=model.wheels.values(),
    )
    assert [("bar" in c.inside) for c in standard_cuts(model)] == [False] * (
        len(standard_cuts(model)) - 1
    ) + [True]
