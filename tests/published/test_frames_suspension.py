"""Knuckle statics and bushings: closed forms on invented geometry. x forward, y left, z up; a left wheel."""

import numpy as np
import pytest
from knuckles import FIVE_LINKS, PATCH, at_patch, double_wishbone, five_link_axle
from small_models import (
    bare_section,
    build,
    case,
    frame,
    grade,
    joint,
    joint_force,
    member,
    movement,
    push,
)

from loadpath.frame import solve
from loadpath.model import BushingRates, Part

BEAM = bare_section(1000, 3e5, 3e5, 5e5)


def link_tensions(solution):
    mesh = solution.system.mesh
    found = dict(zip(mesh.elements.part, solution.end_forces[:, 0, 0], strict=True))
    found["spring_damper"] = -solution.pushes[0, 0]
    return found


def hand_tensions(*loads):
    """6 x 6 equilibrium of the knuckle by Plucker lines; tension pulls the knuckle inwards."""
    outer = np.array([o for o, _ in FIVE_LINKS.values()], dtype=float)
    inner = np.array([i for _, i in FIVE_LINKS.values()], dtype=float)
    lines = (inner - outer) / np.linalg.norm(inner - outer, axis=1)[:, None]
    matrix = np.vstack([lines.T, np.cross(outer, lines).T])
    force = np.sum(loads, axis=0)
    right = -np.concatenate([force, np.cross(PATCH, force)])
    return dict(zip(FIVE_LINKS, np.linalg.solve(matrix, right), strict=True))


@pytest.mark.parametrize(
    ("lateral_or_brake", "expected"),
    [
        pytest.param(
            (0, -3800, 0),
            [-2790.7067621, -1781.8261370, 1616.7182736, -218.25953820, 516.39234625, -5348.4717350],
            id="cornering",
        ),
        pytest.param(
            (-4200, 0, 0),
            [9155.5292982, -4654.9803130, -4188.8411318, 1477.6212379, 575.49143744, -5489.7342486],
            id="outboard brake",
        ),
    ],
)
def test_five_link_knuckle(lateral_or_brake, expected):
    """Statics of a rigid body with six axial links; exact rational solve, tension positive. 1e-6."""
    loads = ((0, 0, 5200), lateral_or_brake)
    solution = solve(five_link_axle(), [case(*at_patch("knuckle", *loads))])
    assert [link_tensions(solution)[k] for k in FIVE_LINKS] == pytest.approx(expected, rel=1e-6)


def test_five_link_knuckle_against_hand_equilibrium():
    """The same 6 x 6 equations solved by hand-made Plucker lines, to 1e-8."""
    loads = ((0, 0, 5200), (-1700, -2300, 800))
    found = link_tensions(solve(five_link_axle(), [case(*at_patch("knuckle", *loads))]))
    for name, tension in hand_tensions(*loads).items():
        assert found[name] == pytest.approx(tension, rel=1e-8), name


def test_double_wishbone_with_toe_link():
    """Knuckle equations and the lower arm's hinge equation; outboard brake with cornering. 1e-6."""
    model = double_wishbone()
    solution = solve(model, [case(*at_patch("knuckle", (0, 0, 6000), (-4500, 0, 0), (0, -2500, 0)))])
    mesh = solution.system.mesh
    tension = dict(zip(mesh.elements.part, solution.end_forces[:, 0, 0], strict=True))
    found = [tension["leg1"], tension["leg2"], tension["toe"], -solution.pushes[0, 0]]
    assert found == pytest.approx([-3152.972562, 4047.742722, -1116.521231, -8778.916070], rel=1e-6)
    assert joint_force(solution, "lbj")[:3] == pytest.approx(
        [8093.559016, 2248.177231, -5869.032322], rel=1e-6
    )


def test_planar_lower_arm_on_two_bushings():
    """Moment equilibrium; the rear bushing is free along its axis. 1e-6."""
    points = {"front": (120, 0, 0), "rear": (-180, 0, 0), "ball": (0, 300, 0)}
    arm = frame("arm", member("m1", ("front", "ball"), BEAM), member("m2", ("rear", "ball"), BEAM))
    rates = {n: BushingRates(axial, (8000, 8000), 0, (0, 0)) for n, axial in (("front", 9e3), ("rear", 0))}
    joints = [joint(n, "bushing", "arm", "body", n, (1, 0, 0), rates[n]) for n in rates]
    model = build(points, [arm], joints, {"ball": ("arm", "floor", (0, 0, 1))})
    solution = solve(model, [case(push(model, "arm", "ball", (-4000, 2500, 0)))])
    front, rear = -joint_force(solution, "front"), -joint_force(solution, "rear")
    assert front[:2] == pytest.approx([4000, -5500], rel=1e-6)
    assert rear[1] == pytest.approx(3000, rel=1e-6)
    assert rear[0] == pytest.approx(0, abs=1e-6)


def test_bushings_in_parallel_and_series():
    """k = (800 + 1200) in series with 500 gives 400 N/mm. 1e-6."""
    points = {"p": (0, 0, 0)}
    parts = [Part("a", "rigid"), Part("b", "rigid")]

    def along_x(k):
        return BushingRates(k, (1e3, 1e3), 1e6, (1e6, 1e6))

    joints = [
        joint("k1", "bushing", "a", "body", "p", (1, 0, 0), along_x(800)),
        joint("k2", "bushing", "a", "body", "p", (1, 0, 0), along_x(1200)),
        joint("k3", "bushing", "b", "a", "p", (1, 0, 0), along_x(500)),
    ]
    model = build(points, parts, joints)
    solution = solve(model, [case(push(model, "b", "p", (1000, 0, 0)))])
    assert movement(solution, "b", "p")[0] == pytest.approx(2.5, rel=1e-6)
    assert joint_force(solution, "k1")[0] == pytest.approx(400, rel=1e-6)


def test_rotated_orthotropic_bushing():
    """K = R diag(6000, 1000) Rt at 30 degrees: a pure x load moves it in -y. 1e-6."""
    axis = (np.cos(np.pi / 6), np.sin(np.pi / 6), 0)
    rates = BushingRates(6000, (1000, 1000), 1e6, (1e6, 1e6))
    model = build(
        {"p": (0, 0, 0)}, [Part("a", "rigid")], [joint("k", "bushing", "a", "body", "p", axis, rates)]
    )
    solution = solve(model, [case(push(model, "a", "p", (1000, 0, 0)))])
    # the exact quotient 1000 (cos^2/6000 + sin^2/1000)
    assert movement(solution, "a", "p")[:2] == pytest.approx([0.375, -0.3608439182], rel=1e-6)


def test_free_beam_in_its_own_field():
    """d'Alembert: a free beam pushed in the middle, line load -F/L; supports carry nothing. 0.2 %."""
    area, density, length = 600.0, 7.85e-9, 1000.0
    section = bare_section(area, 5e4, 5e4)
    points = {f"p{k}": (length * k / 2, 0, 0) for k in range(3)}
    part = frame("f", member("m", tuple(points), section, grade(density=density)))
    acceleration = 1200 / (density * area * length)
    assert acceleration == pytest.approx(254777.07006, rel=1e-9)
    supports = {"p0": ("f", "hinge", (0, 0, 1)), "p2": ("f", "shoe", (1, 0, 0))}
    model = build(points, [part], supports=supports)
    load = case(push(model, "f", "p1", (0, 1200, 0)), field=(0, -acceleration, 0))
    solution = solve(model, [load])
    assert abs(joint_force(solution, "at_p2")[1]) < 1e-6
    assert abs(solution.end_forces[0, 5, 0]) == pytest.approx(150000, rel=2e-3)
    assert abs(movement(solution, "f", "p1")[1]) == pytest.approx(0.8928571429, rel=2e-3)


def test_free_rod_pulled_at_one_end():
    """N(x) = F x/L: half the elongation of the clamped rod. 0.1 %."""
    area, density, length = 600.0, 7.85e-9, 1000.0
    points = {"p0": (0, 0, 0), "p1": (500, 0, 0), "p2": (1000, 0, 0)}
    part = frame("f", member("m", tuple(points), bare_section(area, 5e4, 5e4), grade(density=density)))
    acceleration = 5000 / (density * area * length)
    model = build(points, [part], supports={"p0": ("f", "welded")})
    solution = solve(model, [case(push(model, "f", "p2", (5000, 0, 0)), field=(-acceleration, 0, 0))])
    assert movement(solution, "f", "p2")[0] == pytest.approx(0.01984126984, rel=1e-3)
    assert solution.end_forces[0, 0, 0] == pytest.approx(2500, rel=1e-3)
