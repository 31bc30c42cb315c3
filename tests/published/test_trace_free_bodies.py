"""Free bodies of knuckles, free bars and bushings: closed forms, as in the checks of the frame; shares from them.

Statics of a rigid body with six axial links (Plücker's line matrix, any statics text) and of a double wishbone with
toe link, solved in exact rationals; d'Alembert's principle for a free bar in its own field. Geometry invented.
"""

import numpy as np
import pytest
from knuckles import FIVE_LINKS, at_patch, double_wishbone, five_link_axle
from small_models import bare_section, build, case, frame, grade, joint, member, push

from loadpath.frame import solve
from loadpath.model import BushingRates, Part
from loadpath.trace import (
    closing_error,
    contributions,
    cut_round,
    flow_through,
    forces_along,
    free_bodies,
    shares_along,
    standard_cuts,
    strain_energies,
    total,
)

CORNERING = [-2790.7067621, -1781.8261370, 1616.7182736, -218.25953820, 516.39234625, -5348.4717350]
BRAKING = [9155.5292982, -4654.9803130, -4188.8411318, 1477.6212379, 575.49143744, -5489.7342486]


@pytest.mark.parametrize(
    ("load", "tensions", "direction"),
    [
        pytest.param((0, -3800, 0), CORNERING, 1, id="cornering"),
        pytest.param((-4200, 0, 0), BRAKING, 0, id="outboard brake"),
    ],
)
def test_free_body_and_shares_of_a_five_link_knuckle(load, tensions, direction):
    """Each link pulls the knuckle inwards by its tension; its share is its component over the net. 1e-6."""
    model = five_link_axle()
    bodies = free_bodies(solve(model, [case(*at_patch("knuckle", (0, 0, 5200), load))]), 0)
    found = {a.name.removesuffix("_k"): a.wrench[:3] for a in bodies["knuckle"] if a.source}
    assert set(found) == set(FIVE_LINKS)
    pulls = {}
    for (name, (outer, inner)), tension in zip(FIVE_LINKS.items(), tensions, strict=True):
        line = np.subtract(inner, outer)
        pulls[name] = tension * line / np.linalg.norm(line)
        assert found[name] == pytest.approx(pulls[name], rel=1e-6, abs=1e-3)
    assert closing_error(bodies["knuckle"]) < 1e-10
    flow = flow_through(standard_cuts(model)[0], bodies)
    one = shares_along(flow, forces_along(model.axes)[direction])
    shares = dict(zip([a.name.removesuffix("_k") for a in flow.crossings], one.shares, strict=True))
    assert one.net == pytest.approx(load[direction], rel=1e-9)
    for name, pull in pulls.items():
        assert shares[name] == pytest.approx(-pull[direction] / load[direction], rel=1e-6, abs=1e-8)
    assert sum(shares.values()) == pytest.approx(1.0, abs=1e-10)


def test_free_bodies_of_a_double_wishbone():
    """Force of the lower ball joint on the knuckle, and the arm between it, the spring and the body. 1e-6."""
    model = double_wishbone()
    loads = ((0, 0, 6000), (-4500, 0, 0), (0, -2500, 0))
    solution = solve(model, [case(*at_patch("knuckle", *loads))])
    bodies = free_bodies(solution, 0)
    on = {part: {a.name: a.wrench[:3] for a in actions} for part, actions in bodies.items()}
    ball = np.array([8093.559016, 2248.177231, -5869.032322])
    assert on["knuckle"]["lbj"] == pytest.approx(ball, rel=1e-6)
    assert on["arm"]["lbj"] == pytest.approx(-ball, rel=1e-6)
    seat = np.subtract(model.points["sl"], model.points["su"])
    push_on_arm = 8778.916070 * seat / np.linalg.norm(seat)
    assert on["arm"]["spring"] == pytest.approx(push_on_arm, rel=1e-6, abs=1e-2)
    hinge = on["arm"]["l1"] + on["arm"]["l2"]
    assert hinge == pytest.approx(ball - push_on_arm, rel=1e-6, abs=1e-2)
    for part in model.parts:
        assert closing_error(bodies[part]) < 1e-10
    through = contributions(solution, "arm")
    assert [source.name for source in through.sources] == ["lbj"]
    taken = dict(zip(through.joints, through.wrenches[0, :, :3, 0], strict=True))
    assert taken["spring"] == pytest.approx(-push_on_arm, rel=1e-6, abs=1e-2)
    assert sum(taken.values()) == pytest.approx(-ball, rel=1e-6)


@pytest.mark.parametrize(
    ("force", "acceleration"),
    [
        pytest.param((0, 1200, 0), 254777.07006, id="beam pushed in the middle"),
        pytest.param((5000, 0, 0), 1061571.1253, id="rod pulled at its end"),
    ],
)
def test_a_free_bar_is_in_balance_with_its_own_mass(force, acceleration):
    """F = m a with m = rho A L: the push and the field on the bar's mass are all there is. 1e-6."""
    section, steel = bare_section(600, 5e4, 5e4), grade(density=7.85e-9)
    bar = frame("bar", member("m", ("a", "b", "c"), section, steel))
    points = {"a": (0, 0, 0), "b": (500, 0, 0), "c": (1000, 0, 0)}
    model = build(points, [bar], supports={"b": ("bar", "welded")})
    force = np.array(force, dtype=float)
    field = -acceleration * force / np.linalg.norm(force)
    at = "b" if force[1] else "c"
    bodies = free_bodies(solve(model, [case(push(model, "bar", at, force), field=field)]), 0)
    own = {a.name: a for a in bodies["bar"]}
    assert own["own mass"].wrench[:3] == pytest.approx(-force, rel=1e-6, abs=1e-6)
    assert own["own mass"].position == pytest.approx([500, 0, 0], abs=1e-9)
    assert np.abs(own["at_b"].wrench).max() < 1e-2
    assert np.abs(total(bodies["bar"], np.zeros(3))).max() < 1e-4


def along_x(k):
    return BushingRates(k, (1e3, 1e3), 1e6, (1e6, 1e6))


def test_bushings_in_parallel_and_series_share_by_rate():
    """800 and 1200 N/mm side by side take 0.4 and 0.6 of what one of 500 N/mm in series brings. 1e-6."""
    joints = [
        joint("k1", "bushing", "a", "body", "p", (1, 0, 0), along_x(800)),
        joint("k2", "bushing", "a", "body", "p", (1, 0, 0), along_x(1200)),
        joint("k3", "bushing", "b", "a", "p", (1, 0, 0), along_x(500)),
    ]
    model = build({"p": (0, 0, 0)}, [Part("a", "rigid"), Part("b", "rigid")], joints)
    solution = solve(model, [case(push(model, "b", "p", (1000, 0, 0)))])
    bodies = free_bodies(solution, 0)
    along = forces_along(model.axes)[0]
    both = shares_along(flow_through(cut_round(model, ["a", "b"]), bodies), along)
    assert both.shares == pytest.approx([0.4, 0.6], rel=1e-6)
    only = shares_along(flow_through(cut_round(model, ["b"]), bodies), along)
    assert (only.net, only.shares) == (pytest.approx(1000, rel=1e-9), pytest.approx([1.0]))
    found = contributions(solution, "a")
    assert found.joints == ("k1", "k2")
    assert found.wrenches[0, :, 0, 0] == pytest.approx([400, 600], rel=1e-6)
    energies = strain_energies(solution).joints[:, 0]
    assert energies == pytest.approx([400**2 / 1600, 600**2 / 2400, 1000**2 / 1000], rel=1e-6)


def test_energy_of_a_rotated_orthotropic_bushing():
    """K = R diag(6000, 1000) Rt at 30 degrees, 1000 N along x moves 0.375 mm: half the product. 1e-6."""
    axis = (np.cos(np.pi / 6), np.sin(np.pi / 6), 0)
    rates = BushingRates(6000, (1000, 1000), 1e6, (1e6, 1e6))
    model = build(
        {"p": (0, 0, 0)}, [Part("a", "rigid")], [joint("k", "bushing", "a", "body", "p", axis, rates)]
    )
    solution = solve(model, [case(push(model, "a", "p", (1000, 0, 0)))])
    onto = next(a for a in free_bodies(solution, 0)["body"] if a.name == "k")
    assert onto.wrench == pytest.approx([1000, 0, 0, 0, 0, 0], abs=1e-6)
    assert strain_energies(solution).joints[0, 0] == pytest.approx(0.5 * 1000 * 0.375, rel=1e-6)
