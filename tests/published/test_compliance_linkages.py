"""Toe, camber and movement per unit load against statics and unit-load sums worked out by hand.

Closed forms: equilibrium of a rigid body, springs in series, and the unit-load theorem (movement = sum of member
forces under the load times those under a unit load at the movement times flexibility; any text on structures).
Reference cases on invented geometry: five-link statics, wheel rate, bushings in parallel, in series and turned.
x forward, y left, z up; a left wheel unless said.
"""

from dataclasses import replace

import numpy as np
import pytest
from small_models import STEEL_E, axes_along, bare_section, build, frame, joint, link, member

from loadpath.compliance import (
    ANSWERS,
    FIGURES,
    LOADS,
    answers_of,
    picked,
    reciprocity,
    shares_of,
    standing_wheels,
)
from loadpath.model import BushingRates, ForceElement, Joint, Part, Wheel

RAD = 180 / np.pi
ANSWER = {a.name: k for k, a in enumerate(ANSWERS)}
LOAD = {load.name: k for k, load in enumerate(LOADS)}
FIGURE = {f.name: k for k, f in enumerate(FIGURES)}


def left_wheel(part, radius, **more):
    return Wheel("w", part, "centre", radius, "rear", True, "outboard", None, "none", None, **more)


def value(answers, load, answer, how="alone"):
    """In shown units: deg or mm for each kN or kN·m."""
    return float(answers.shown(how)[0, ANSWER[answer], LOAD[load]])


# ---- a trailing arm: rigid, on two bushings across the car, wheel centre behind them on their middle plane

REACH, BASE, RADIUS = 420.0, 360.0, 310.0
RADIAL, AXIAL, BODY_RATE, HUB = 6000.0, 900.0, 25000.0, 9e8


def trailing_arm(body=None, hub=None, radial=RADIAL):
    """Bushings at the height of the wheel centre; a locked strut stands upright over the wheel centre."""
    points = {
        "inner": (0, 700 - BASE / 2, RADIUS),
        "outer": (0, 700 + BASE / 2, RADIUS),
        "centre": (-REACH, 700, RADIUS),
        "seat": (-REACH, 700, RADIUS),
        "top": (-REACH, 700, RADIUS + 300),
    }
    rates = BushingRates(AXIAL, (radial, radial), 0.0, (0.0, 0.0))
    joints = [joint(p, "bushing", "arm", "body", p, (0, 1, 0), rates) for p in ("inner", "outer")]
    strut = ForceElement("strut", ("arm", "body"), ("seat", "top"), "w", True, 0.0, 0.0)
    wheel = left_wheel("arm", RADIUS, hub_tilt=hub)
    rates = dict.fromkeys(("inner", "outer"), (body,) * 3) if body else {}
    return build(points, [Part("arm", "rigid")], joints, forces=[strut], wheels=[wheel], body_rates=rates)


def test_trailing_arm_toe_and_camber_per_lateral_kn():
    """The couple F·reach, and F·radius, on two radial rates at a distance: angle = M / (k b² / 2)."""
    found = answers_of(trailing_arm())
    turning = RADIAL * BASE**2 / 2
    # the force inward behind the pivots takes the rear of the wheel inward: toe-out; its top leans outward
    assert value(found, "lateral", "toe") == pytest.approx(-RAD * 1e3 * REACH / turning, rel=1e-9)
    assert value(found, "lateral", "camber") == pytest.approx(RAD * 1e3 * RADIUS / turning, rel=1e-9)
    sideways = 1e3 * (1 / (2 * AXIAL) + REACH**2 / turning + RADIUS**2 / turning)
    assert value(found, "lateral", "patch inward") == pytest.approx(sideways, rel=1e-9)


def test_trailing_arm_toe_per_aligning_moment_and_recession():
    found = answers_of(trailing_arm())
    assert value(found, "aligning moment", "toe") == pytest.approx(
        RAD * 1e6 / (RADIAL * BASE**2 / 2), rel=1e-9
    )
    assert value(found, "impact", "centre rearward") == pytest.approx(1e3 / (2 * RADIAL), rel=1e-9)
    assert value(found, "impact", "toe") == pytest.approx(0, abs=1e-9)


def test_trailing_arm_braking_winds_it_up_round_its_strut():
    """Brake force at the patch: equilibrium gives the bushings F rearward and F·radius/reach up or down.

    The vertical movement of the pivots over the reach to the held strut turns the arm; the top goes forward.
    """
    found = answers_of(trailing_arm())
    vertical = 1e3 * RADIUS / REACH / (2 * RADIAL)
    assert value(found, "braking", "wind-up") == pytest.approx(RAD * vertical / REACH, rel=1e-9)


def test_in_series_the_contributions_add_up_exactly():
    """Forces are given by statics alone: bushings, body and hub bearing each bring their own closed form."""
    model = trailing_arm(body=BODY_RATE, hub=HUB)
    shares = shares_of(model)
    brought = {
        s.group.name: picked(b[0])[FIGURE["camber by lateral force"]]
        for s, b in zip(shares.shares, shares.brought("alone"), strict=True)
    }
    couple = RAD * 1e3 * RADIUS / (BASE**2 / 2)
    assert brought["bushings"] == pytest.approx(couple / RADIAL, rel=1e-9)
    assert brought["body"] == pytest.approx(couple / BODY_RATE, rel=1e-9)
    assert brought["hub bearings"] == pytest.approx(RAD * 1e3 * RADIUS / HUB, rel=1e-9)
    for figure in ("camber by lateral force", "toe by lateral force", "recession by impact"):
        whole = picked(shares.base.shown("alone")[0])[FIGURE[figure]]
        assert picked(shares.remainder("alone")[0])[FIGURE[figure]] == pytest.approx(0, abs=1e-9 * abs(whole))
        assert picked(shares.on_springs("alone")[0])[FIGURE[figure]] == pytest.approx(0, abs=1e-12)


# ---- five links of known tension rate: unit-load sums over a statics worked out with lines

FIVE_LINKS = {
    "front_lower": ((35, 720, 215), (260, 380, 230)),
    "rear_lower": ((-30, 715, 205), (-210, 350, 225)),
    "front_upper": ((40, 690, 455), (190, 420, 470)),
    "rear_upper": ((-35, 685, 460), (-180, 430, 480)),
    "toe": ((-130, 700, 300), (-140, 370, 315)),
    "spring_damper": ((-40, 690, 230), (-30, 560, 640)),
}
CENTRE = np.array([0, 780.0, 320])
AREAS = {"front_lower": 400, "rear_lower": 350, "front_upper": 240, "rear_upper": 260, "toe": 180}


def five_link_axle(rate=0.0):
    points, parts, joints = {"centre": CENTRE}, [Part("knuckle", "rigid")], []
    for name, (outer, inner) in FIVE_LINKS.items():
        points[f"{name}_k"], points[f"{name}_b"] = outer, inner
        if name in AREAS:
            parts.append(link(name, f"{name}_k", f"{name}_b", bare_section(AREAS[name], 1e4, 1e4, 2e4)))
            joints.append(joint(f"{name}_k", "ball", name, "knuckle", f"{name}_k"))
            joints.append(joint(f"{name}_b", "ball", name, "body", f"{name}_b"))
    ends = ("spring_damper_k", "spring_damper_b")
    spring = ForceElement("spring_damper", ("knuckle", "body"), ends, "w", True, 0.0, rate)
    return build(points, parts, joints, forces=[spring], wheels=[left_wheel("knuckle", 320)])


def tensions(force, at, moment=(0, 0, 0)):
    """(6,) tension of each line under a wrench on the knuckle, by its equilibrium."""
    outer = np.array([o for o, _ in FIVE_LINKS.values()], dtype=float)
    line = np.array([i for _, i in FIVE_LINKS.values()], dtype=float) - outer
    line = line / np.linalg.norm(line, axis=1)[:, None]
    equilibrium = np.vstack([line.T, np.cross(outer, line).T])
    f = np.asarray(force, dtype=float)
    return -np.linalg.solve(
        equilibrium, np.concatenate([f, np.cross(at, f) + np.asarray(moment, dtype=float)])
    )


def flexibility(rate):
    lengths = [np.linalg.norm(np.subtract(o, i)) for o, i in FIVE_LINKS.values()]
    links = [
        length / (STEEL_E * AREAS[n]) for n, length in zip(FIVE_LINKS, lengths, strict=False) if n in AREAS
    ]
    return np.array([*links, 1 / rate if rate else 0.0])


@pytest.mark.parametrize("rate", [0.0, 35.0])
def test_five_link_toe_camber_and_recession_by_the_unit_load_theorem(rate):
    """Geometry of the five-link reference cases; with the spring locked, and with the wheel on its spring."""
    patch, none = CENTRE - [0, 0, 320], (0, 0, 0)
    ride = standing_wheels(five_link_axle(rate))
    found, flex = answers_of(ride.model), flexibility(rate)
    acting = {
        "lateral": tensions((0, -1, 0), patch),
        "braking": tensions((-1, 0, 0), patch),
        "aligning moment": tensions(none, patch, (0, 0, -1)),
        "impact": tensions((-1, 0, 0), CENTRE),
        "vertical": tensions((0, 0, 1), patch),
    }
    # a left wheel toes in with a turn about -z, and gains camber with a turn about -x
    unit = {
        "toe": tensions(none, patch, (0, 0, -1)) * RAD,
        "camber": tensions(none, patch, (-1, 0, 0)) * RAD,
        "wind-up": tensions(none, patch, (0, 1, 0)) * RAD,
        "centre rearward": tensions((-1, 0, 0), CENTRE),
        "centre upward": tensions((0, 0, 1), CENTRE),
        "patch inward": tensions((0, -1, 0), patch),
    }
    scale = {"aligning moment": 1e6}
    for load, n in acting.items():
        for answer, one in unit.items():
            expected = scale.get(load, 1e3) * float((n * one * flex).sum())
            assert value(found, load, answer) == pytest.approx(expected, rel=1e-8, abs=1e-10), (load, answer)
    assert reciprocity(ride.model, found) < 1e-9


def test_five_link_shares_of_single_links_add_up():
    """Statically determinate: a link made rigid takes out its own term of the sum and no other."""
    from loadpath.compliance import singles_of

    model = five_link_axle()
    shares = shares_of(model, singles_of(model))
    patch = CENTRE - [0, 0, 320]
    terms = tensions((0, -1, 0), patch) * tensions((0, 0, 0), patch, (0, 0, -1)) * flexibility(0.0)
    found = shares.brought("alone")[:, 0, ANSWER["toe"], LOAD["lateral"]]
    assert [s.group.name for s in shares.shares] == list(AREAS)
    assert found == pytest.approx(1e3 * RAD * terms[:5], rel=1e-8)


# ---- the wheel on its spring


def test_wheel_rate_by_installation_ratio():
    """Milliken & Milliken, Race Car Vehicle Dynamics, ch. 16 (from memory), numbers invented: K_w = K_s IR².

    The second term, spring force times the change of the ratio, is not part of it.
    """
    lean = np.radians(20)
    points = {
        "pivot": (0, 0, 300),
        "centre": (0, 380, 300),
        "seat": (0, 260, 300),
        "top": (0, 260 - 400 * np.sin(lean), 300 + 400 * np.cos(lean)),
    }
    pivot = joint("pivot", "hinge", "arm", "body", "pivot", (1, 0, 0))
    strut = ForceElement("strut", ("arm", "body"), ("seat", "top"), "w", True, 4000.0, 35.0)
    wheel = left_wheel("arm", 300)
    ride = standing_wheels(build(points, [Part("arm", "rigid")], [pivot], forces=[strut], wheels=[wheel]))
    assert ride.springs == {"strut": 35.0}
    found = answers_of(ride.model)
    assert 1e3 / value(found, "vertical", "centre upward") == pytest.approx(14.468355790926257, rel=1e-6)


# ---- bushings, at a wheel whose centre they hold


def held_at_centre(*joints, parts=(), supports=None):
    model = build(
        {"centre": (0, 700, 300)},
        [Part("carrier", "rigid"), *parts],
        joints,
        supports=supports,
        wheels=[left_wheel("carrier", 300)],
    )
    return answers_of(model)


def turned_rates(axes, first, second, between=("carrier", "body"), name="bush"):
    rates = BushingRates(first, (second, 1e4), 1e9, (1e9, 1e9))
    return Joint(name, "bushing", between, "centre", np.asarray(axes), rates)


def test_turned_orthotropic_bushing_moves_the_wheel_aside():
    """Closed form K = R diag(k) Rᵀ: 6000 and 1000 N/mm turned by 30°, 1 kN along x: 0.375 and -0.36084 mm."""
    c, s = np.cos(np.radians(30)), np.sin(np.radians(30))
    found = held_at_centre(turned_rates([[c, s, 0], [-s, c, 0], [0, 0, 1]], 6000.0, 1000.0))
    # the impact load is along -x, so both change their sign; inward is -y
    assert value(found, "impact", "centre rearward") == pytest.approx(0.375, rel=1e-9)
    assert -value(found, "impact", "centre inward") == pytest.approx(0.3608439182435161, rel=1e-9)


def test_two_bushings_side_by_side_and_one_behind_them():
    """Closed form: 800 and 1200 N/mm side by side, 500 N/mm behind: 1 kN moves by 2.5 mm."""
    one = turned_rates(np.eye(3), 800.0, 1e4, ("carrier", "between"), "one")
    two = turned_rates(np.eye(3), 1200.0, 1e4, ("carrier", "between"), "two")
    behind = turned_rates(np.eye(3), 500.0, 1e4, ("between", "body"), "behind")
    found = held_at_centre(one, two, behind, parts=[Part("between", "rigid")])
    assert value(found, "impact", "centre rearward") == pytest.approx(2.5, rel=1e-9)


# ---- where the torque goes


def test_inboard_brake_leaves_only_the_force_at_the_centre():
    """With the brake inboard the carrier sees the brake force at the wheel centre and no torque (free body)."""
    outboard = trailing_arm()
    inboard = replace(
        outboard,
        parts={**outboard.parts, "housing": Part("housing", "rigid")},
        joints={**outboard.joints, "held": Joint("held", "welded", ("housing", "body"), "top", np.eye(3))},
        wheels={"w": replace(outboard.wheels["w"], brake="inboard", brake_part="housing")},
    )
    found = answers_of(inboard)
    assert value(found, "braking", "wind-up") == pytest.approx(0, abs=1e-9)
    assert value(found, "braking", "centre rearward") == pytest.approx(1e3 / (2 * RADIAL), rel=1e-9)
    assert reciprocity(inboard, found) < 1e-9
    spoilt = found.found.copy()
    lateral, centre = (
        [n.name for n in found.loads].index("lateral"),
        [a.name for a in ANSWERS].index("centre rearward"),
    )
    spoilt[0, centre, 0, lateral] += 1.0
    assert reciprocity(inboard, replace(found, found=spoilt)) > 1e-3  # the self-check can fail here too


def test_bending_arm_brings_what_a_cantilever_gives():
    """A carrier welded to the tip of a cantilever along y: camber by lateral force, F·radius·L/(E I)."""
    length, inertia = 350.0, 4e5
    points = {"root": (0, 300, 320), "centre": (0, 300 + length, 320)}
    arm = frame("arm", member("leg", ("root", "centre"), bare_section(900, inertia, 2e5)))
    model = build(
        points,
        [arm, Part("carrier", "rigid")],
        [
            Joint("root", "welded", ("arm", "body"), "root", axes_along((1, 0, 0))),
            Joint("tip", "welded", ("arm", "carrier"), "centre", axes_along((1, 0, 0))),
        ],
        wheels=[left_wheel("carrier", 320)],
    )
    shares = shares_of(model)
    expected = RAD * 1e3 * 320 * length / (STEEL_E * inertia)
    assert value(shares.base, "lateral", "camber") == pytest.approx(expected, rel=1e-9)
    (brought,) = shares.brought("alone")
    assert shares.shares[0].group.name == "arms and links"
    assert brought[0, ANSWER["camber"], LOAD["lateral"]] == pytest.approx(expected, rel=1e-9)
