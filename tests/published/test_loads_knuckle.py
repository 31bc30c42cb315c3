"""Brake load cases on a five-link knuckle: statics of a rigid body with six axial links.

Any statics text; geometry and loads invented, expected values from an exact rational solve, tension positive. From
vehicle data to link forces, so that size, direction and point of action are all in it. The wheel leans inward at its
top, which puts its contact patch 5 mm outside of its centre. x forward, y left, z up.
"""

from dataclasses import replace

import numpy as np
import pytest
from small_models import bare_section, build, joint, link

from loadpath.frame import solve
from loadpath.loads import KINDS, STANDARD_GRAVITY, GivenForce
from loadpath.loads import build as build_cases
from loadpath.model import AxleData, ForceElement, Part, Vehicle, Wheel

LINKS = {
    "front_lower": ((35, 720, 215), (260, 380, 230)),
    "rear_lower": ((-30, 715, 205), (-210, 350, 225)),
    "front_upper": ((40, 690, 455), (190, 420, 470)),
    "rear_upper": ((-35, 685, 460), (-180, 430, 480)),
    "toe": ((-130, 700, 300), (-140, 370, 315)),
    "spring": ((-40, 690, 230), (-30, 560, 640)),
}
CENTRE, PATCH = np.array([0, 780.0, 320]), np.array([0, 785.0, 0])
RADIUS, LEAN = np.hypot(320, 5), np.arctan2(5, 320)
WHEEL = Wheel(
    "w", "knuckle", "centre", RADIUS, "front", True, "outboard", "unit", "half-shaft", "unit", -LEAN
)
OUTBOARD = [9155.52929811982, -4654.980313003269, -4188.841131815408, 1477.6212378681357, 575.4914374417475]
OUTBOARD += [-5489.73424856673]
CORNERING = [-2790.7067621284236, -1781.8261370207085, 1616.7182735769597, -218.25953820149766]
CORNERING += [516.3923462402786, -5348.471735033687]


def half_axle(wheel):
    """The left side of an axle without mass, and a unit that takes torques."""
    points = {"centre": CENTRE, "unit": (0, 200, 320)}
    parts, joints = (
        [Part("knuckle", "rigid"), Part("unit", "rigid")],
        [joint("unit", "welded", "unit", "body", "unit")],
    )
    for name, (outer, inner) in LINKS.items():
        points[f"{name}_k"], points[f"{name}_b"] = outer, inner
        if name != "spring":
            parts.append(link(name, f"{name}_k", f"{name}_b", bare_section(400, 1e4, 1e4, 2e4)))
            joints += [
                joint(f"{name}_{e}", "ball", name, p, f"{name}_{e}")
                for e, p in (("k", "knuckle"), ("b", "body"))
            ]
    spring = ForceElement("spring", ("knuckle", "body"), ("spring_k", "spring_b"), "w", True, 0.0, 35.0)
    return build(points, parts, joints, forces=[spring], wheels=[wheel])


def vehicle(load, deceleration):
    """A vehicle whose front wheels carry `load` [N] each under a deceleration [g]."""
    height, wheelbase = 500.0, 2700.0
    mass = 2 * load / STANDARD_GRAVITY / (0.5 + deceleration * height / wheelbase)
    axle = AxleData(1570.0, 0.0, 0.0, 0.0, 0.5)
    return Vehicle(mass, 0.5, wheelbase, height, 0.0, None, axle, axle)


def tensions(wheel, spec, data=None):
    """Tension of every link under one load case."""
    model = half_axle(wheel)
    solution = solve(model, list(build_cases({"it": spec}, data, model).values()))
    found = dict(zip(solution.system.mesh.elements.part, solution.end_forces[:, 0, 0], strict=True))
    return [found[name] for name in LINKS if name != "spring"] + [-solution.pushes[0, 0]]


def hand_tensions(*forces, moment=(0, 0, 0)):
    """6 x 6 equilibrium of the knuckle by Plucker lines under forces at positions and a moment."""
    outer, inner = (np.array(ends, dtype=float) for ends in zip(*LINKS.values(), strict=True))
    lines = (inner - outer) / np.linalg.norm(inner - outer, axis=1)[:, None]
    wrench = sum(np.concatenate([force, np.cross(at, force)]) for force, at in forces)
    wrench[3:] += moment
    return np.linalg.solve(np.vstack([lines.T, np.cross(outer, lines).T]), -wrench)


def test_outboard_friction_brake():
    """Brake force at the contact patch. 1e-6."""
    found = tensions(WHEEL, KINDS["braking"](g=4200 / 5200), vehicle(5200, 4200 / 5200))
    assert found == pytest.approx(OUTBOARD, rel=1e-6)


def test_given_forces_at_the_contact_patch():
    """Vertical with braking, vertical with a side force. 1e-6."""
    for force, expected in (((-4200.0, 0.0, 5200.0), OUTBOARD), ((0.0, -3800.0, 5200.0), CORNERING)):
        spec = KINDS["given"](forces=(GivenForce(wheel="w", force=force),))
        assert tensions(WHEEL, spec) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize(
    ("brake", "blend", "away"), [("inboard", 0.0, 1.0), ("outboard", 1.0, 1.0), ("outboard", 0.3, 0.3)]
)
def test_inboard_and_blended_brake(brake, blend, away):
    """Ground force at the patch; of its torque F r the share of inboard brake or half-shaft is taken away."""
    spec = KINDS["braking"](g=4200 / 5200, blend=blend)
    found = tensions(replace(WHEEL, brake=brake), spec, vehicle(5200, 4200 / 5200))
    force = np.array([-4200.0, 0, 5200])
    expected = hand_tensions((force, PATCH), moment=(0, -4200 * RADIUS * away, 0))
    assert found == pytest.approx(expected, rel=1e-8)
    assert np.sign(found[2]) != np.sign(OUTBOARD[2]) or away < 0.5


@pytest.mark.parametrize(("drive", "away"), [("half-shaft", 1.0), ("hub", 0.0)])
def test_launch_and_its_reversal(drive, away):
    """The same for drive: a hub motor keeps its torque on the knuckle; thrown over, all that it adds turns round."""
    data = vehicle(5200, 0.0)
    rest = hand_tensions((np.array([0, 0, 5200.0]), PATCH))
    for forward in (3000.0, -3000.0):
        moved = 2 * forward * 500 / 2700 / 2  # m a h / L of an axle pair that drives with 2 F
        force = np.array([forward, 0, 5200 - moved])
        expected = hand_tensions((force, PATCH), moment=(0, forward * RADIUS * away, 0))
        spec = KINDS["launch"](front_torque=2 * forward * RADIUS)
        found = tensions(replace(WHEEL, drive=drive), spec, data)
        assert found == pytest.approx(expected, rel=1e-8)
        if forward > 0:
            pull = found
    assert np.array(pull) + found == pytest.approx(2 * rest, rel=1e-8)


def test_pothole_edge_through_the_wheel_centre():
    """Twice the static load rearward and three times upward, on a line through the centre."""
    found = tensions(WHEEL, KINDS["pothole"](longitudinal=2.0, vertical=3.0), vehicle(5200, 0.0))
    assert found == pytest.approx(hand_tensions((np.array([-10400.0, 0, 15600]), CENTRE)), rel=1e-8)


def test_brake_in_turn_by_vehicle_data():
    """Friction brake and side force of one wheel together; sizes by superposed transfer (Gillespie, Milliken)."""
    spec = KINDS["combined"](longitudinal=-0.5, lateral=0.4, turn="right")
    data = vehicle(5200, 0.0)
    up = 5200 * (1 + 2 * 0.5 * 500 / 2700) + data.mass / 2 * STANDARD_GRAVITY * 0.4 * 500 / 1570
    side = data.mass / 2 * 0.4 * STANDARD_GRAVITY * up / (2 * 5200 * (1 + 2 * 0.5 * 500 / 2700))
    expected = hand_tensions((np.array([-0.5 * up, -side, up]), PATCH))
    assert tensions(WHEEL, spec, data) == pytest.approx(expected, rel=1e-8)
