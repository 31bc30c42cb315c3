"""What if: what is taken out is gone, what is made softer is softer, and what cannot be is told in words."""

from dataclasses import replace

import numpy as np
import pytest
from random_modules import random_cases, random_module
from small_models import bare_section, build, case, frame, joint, member, movement, push

from loadpath.frame import Mechanism, solve
from loadpath.model import BushingRates, Joint, Part, curve_through
from loadpath.trace import TraceError, connections, find, with_stiffness, without

BOX = bare_section(1200, 6e5, 4e5, 7e5, shear_areas=(500, 600))


def cantilever():
    model = build(
        {"a": (0, 0, 0), "b": (500, 0, 0)},
        [frame("f", member("m", ("a", "b"), BOX))],
        supports={"a": ("f", "welded")},
    )
    return model, [case(push(model, "f", "b", (10, 20, 3000), (1e4, 0, 2e4)))]


def test_half_the_stiffness_is_twice_the_movement():
    model, cases = cantilever()
    softer, said = with_stiffness(model, "f.m", 0.5)
    before, after = (movement(solve(m, cases), "f", "b") for m in (model, softer))
    assert after == pytest.approx(2 * before, rel=1e-9)
    assert said == "f.m at 0.5 times its stiffness"


def test_a_whole_part_can_be_made_stiffer():
    model, cases = cantilever()
    stiffer, _ = with_stiffness(model, "f", 4)
    assert movement(solve(stiffer, cases), "f", "b") == pytest.approx(
        movement(solve(model, cases), "f", "b") / 4, rel=1e-9
    )


def test_a_softer_mount_gives_its_load_to_others():
    model = random_module(0)
    cases = random_cases(model, 0, still=True)[:1]
    softer, _ = with_stiffness(model, "m1", 0.01)
    before, after = (
        {o.name: np.linalg.norm(o.wrench[:3, 0]) for o in connections(solve(m, cases))}
        for m in (model, softer)
    )
    assert after["m1"] < 0.5 * before["m1"]
    assert after["m3"] != pytest.approx(before["m3"], rel=1e-3)


def test_a_force_table_is_made_softer_as_a_whole():
    """Half of every force of a table: the same movement under half the load."""
    x = np.linspace(-5, 5, 41)
    law = curve_through(x, 900 * x + 80 * x**3)
    rates = BushingRates(900, (1e3, 1e3), 1e6, (1e6, 1e6), curves=(law, *[None] * 5))
    model = build(
        {"p": (0, 0, 0)}, [Part("a", "rigid")], [joint("k", "bushing", "a", "body", "p", (1, 0, 0), rates)]
    )
    softer, _ = with_stiffness(model, "k", 0.5)
    before = movement(solve(model, [case(push(model, "a", "p", (5000, 0, 0)))]), "a", "p")
    after = movement(solve(softer, [case(push(model, "a", "p", (2500, 0, 0)))]), "a", "p")
    assert after[0] == pytest.approx(before[0], rel=1e-9)


def test_body_points_have_rates_of_their_own():
    model = random_module(0)
    softer, said = with_stiffness(model, "body.m1", 0.1)
    assert softer.body_mounts["m1"].rates == pytest.approx(0.1 * model.body_mounts["m1"].rates)
    assert said == "body.m1 at 0.1 times its stiffness"
    with pytest.raises(TraceError, match="rigid at m3"):
        with_stiffness(model, "body.m3", 0.1)


def test_taking_out_a_joint_a_strut_a_member_a_part():
    model = random_module(0)
    assert "m4" not in without(model, "m4")[0].joints
    assert "damper" not in without(model, "struts.damper")[0].force_elements
    cut, said = without(model, "cradle.front")
    assert [m.name for m in cut.parts["cradle"].members] == ["left", "right", "rear"]
    assert said == "without the member cradle.front and its mass"
    solve(cut, random_cases(cut, 0))
    gone, said = without(model, "toe")
    assert "toe" not in gone.parts
    assert not {"rod", "link_end"} & set(gone.joints)
    assert said == "without toe, its mass and what joins it (rod, link_end)"


def test_a_mechanism_is_told_by_the_frame():
    model = random_module(0)
    gone, _ = without(model, "toe")
    with pytest.raises(Mechanism, match="knuckle"):
        solve(gone, random_cases(gone, 0))


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("cradle.left", "it carries m1, m2; give it a small stiffness"),
        ("toe", ""),
        ("knuckle", "it carries w"),
        ("body.m1", "the body cannot be taken out"),
        ("cradle.frnt", "nearest: cradle.front"),
    ],
)
def test_what_cannot_be_taken_out(name, words):
    model = random_module(0)
    if not words:
        without(model, name)
        return
    with pytest.raises(TraceError, match=words):
        without(model, name)


def test_the_only_member_goes_with_its_part():
    model, _ = cantilever()
    with pytest.raises(TraceError, match="name the part instead"):
        without(model, "f.m")


@pytest.mark.parametrize(
    ("name", "factor", "words"),
    [
        ("m3", 0.5, "ball joint without rates"),
        ("knuckle", 0.5, "rigid: it has no stiffness"),
        ("spring", 0.5, "its rate does not enter"),
        ("m1", 0.0, "above 0"),
        ("m1", float("nan"), "above 0"),
        ("m1", float("inf"), "above 0"),
    ],
)
def test_what_has_no_stiffness(name, factor, words):
    with pytest.raises(TraceError, match=words):
        with_stiffness(random_module(0), name, factor)


def test_a_name_with_two_meanings_must_be_written_in_full():
    model = random_module(0)
    twin: Joint = replace(model.joints["m1"], name="toe")
    model = replace(model, joints={**model.joints, "toe": twin})
    with pytest.raises(TraceError, match=r"joints\.toe and parts\.toe"):
        find(model, "toe")
    assert find(model, "joints.toe").kind == "joint"
    assert find(model, "parts.toe").kind == "part"
    assert find(model, "parts.cradle.members.front") == find(model, "cradle.front")
