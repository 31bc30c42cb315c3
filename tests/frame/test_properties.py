"""Properties that hold whatever the numbers: invariance, symmetry, free motions, closing balances."""

import itertools
from dataclasses import replace

import numpy as np
import pytest
from small_models import (
    AXES,
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

from loadpath.frame import section_forces, self_checks, solve
from loadpath.frame.beam import beam_matrices
from loadpath.frame.mesh import build_mesh
from loadpath.model import (
    TAPER_STATIONS,
    Axes,
    BushingRates,
    ForceElement,
    Joint,
    LumpedMass,
    Part,
    PointLoad,
    Wheel,
)

SKEW = bare_section(900, 4e5, 2e5, 3e5, Iyz=9e4, shear_areas=(400, 300), shear_centre=(-12.0, 7.0))
BOX = bare_section(1200, 6e5, 4e5, 7e5, shear_areas=(500, 600))
RATES = BushingRates(1500, (8000, 9000), 2e5, (5e5, 6e5))
STEEL = grade(density=7.85e-9)
POINTS = {
    "a": (0, 0, 0),
    "b": (400, 60, 20),
    "c": (800, -30, 90),
    "d": (400, 300, 150),
    "e": (900, 350, 60),
    "g": (120, 340, 210),
}


def module(points=POINTS, turn=None, subdivide=1):
    """A frame and an arm with all kinds of joints, on elastic mounts; optionally turned in space."""
    turn = np.eye(3) if turn is None else turn
    points = {k: np.array(v, dtype=float) for k, v in points.items()}
    path = ["a", "b", "c"]
    if subdivide > 1:
        path = refined(points, path, subdivide)
    points = {k: turn @ v for k, v in points.items()}
    up = turn @ np.array([0, 0.2, 1.0])
    cradle = frame(
        "cradle",
        member("rail", path, SKEW, STEEL, up, offset=(6.0, -4.0)),
        member("cross", ("b", "d"), BOX, STEEL, up),
        brackets={"g": "d"},
    )
    arm = frame("arm", member("leg", ("d", "e"), BOX, STEEL, up))
    x = turn @ np.array([1.0, 0, 0])
    joints = [
        turned(joint("j1", "bushing", "cradle", "body", "a", (0.3, 1, 0.1), RATES), turn),
        turned(joint("j2", "bushing", "cradle", "body", "c", (0, 0.5, 1), RATES), turn),
        turned(joint("j3", "bushing", "cradle", "body", "g", (0, 0, 1), RATES), turn),
        turned(joint("j4", "hinge", "arm", "cradle", "d", (0.2, 1, 0)), turn),
        turned(joint("j5", "bushing", "arm", "body", "e", (1, 0, 0), RATES), turn),
    ]
    axes = Axes(x, turn @ AXES.left, turn @ AXES.up)
    masses = [LumpedMass("m", "arm", "e", 0.012, np.zeros((3, 3)))]
    rates = {"a": (9e3, 8e3, 7e3), "c": (9e3, 8e3, 7e3)}
    return build(points, [cradle, arm], joints, masses=masses, body_rates=rates, axes=axes)


def refined(points, path, n):
    """Insert n − 1 points into each stretch of a path."""
    result = [path[0]]
    for p, q in itertools.pairwise(path):
        for k in range(1, n):
            name = f"{p}{q}{k}"
            points[name] = points[p] + (points[q] - points[p]) * k / n
            result.append(name)
        result.append(q)
    return result


def turned(j: Joint, turn):
    return replace(j, axes=j.axes @ turn.T)


def loads(model, turn=None):
    turn = np.eye(3) if turn is None else turn
    f, m = turn @ np.array([1000.0, -700, 2500]), turn @ np.array([3e4, 2e4, -5e4])
    load = PointLoad("arm", "e", model.points["e"], f, m, "test")
    return case(load, field=turn @ np.array([3000.0, -2000, -9806]))


def rotation():
    axis, angle = np.array([0.3, -0.5, 0.81]), 1.1
    axis = axis / np.linalg.norm(axis)
    k = np.array([[0, -axis[2], axis[1]], [axis[2], 0, -axis[0]], [-axis[1], axis[0], 0]])
    return np.eye(3) + np.sin(angle) * k + (1 - np.cos(angle)) * k @ k


def test_turning_the_whole_model_turns_the_results():
    turn = rotation()
    plain, rotated = module(), module(turn=turn)
    a, b = solve(plain, [loads(plain)]), solve(rotated, [loads(rotated, turn)])
    both = np.kron(np.eye(2), turn)
    for name in plain.joints:
        assert joint_force(b, name) == pytest.approx(both @ joint_force(a, name), rel=1e-8, abs=1e-6)
    assert section_forces(b) == pytest.approx(section_forces(a), rel=1e-7, abs=1e-5)


def test_renumbering_changes_nothing():
    model = module()
    shuffled = replace(
        model,
        parts=dict(reversed(model.parts.items())),
        joints=dict(reversed(model.joints.items())),
        points=dict(reversed(model.points.items())),
    )
    a, b = solve(model, [loads(model)]), solve(shuffled, [loads(model)])
    for name in model.joints:
        assert joint_force(b, name) == pytest.approx(joint_force(a, name), rel=1e-9, abs=1e-7)


def test_subdividing_members_changes_nothing():
    coarse, fine = module(), module(subdivide=4)
    a, b = solve(coarse, [loads(coarse)]), solve(fine, [loads(fine)])
    for name in coarse.joints:
        assert joint_force(b, name) == pytest.approx(joint_force(a, name), rel=1e-8, abs=1e-6)
    assert movement(b, "arm", "e") == pytest.approx(movement(a, "arm", "e"), rel=1e-8)


def test_a_free_part_has_six_motions_without_energy():
    mesh = build_mesh(module())
    elements = mesh.elements
    stiffness = beam_matrices(elements).stiffness()
    for e in range(len(stiffness)):
        values = np.linalg.eigvalsh(stiffness[e] / np.sqrt(np.outer(*[np.diag(stiffness[e])] * 2)))
        assert np.sum(np.abs(values) < 1e-10) == 6
        assert values[6] > 1e-4


def test_a_free_frame_of_several_members_has_six_motions_without_energy():
    """The whole cradle, skew sections, offsets and a corner, free in space: rank 6 less than its freedoms."""
    mesh = build_mesh(module())
    elements = mesh.elements
    turn = np.zeros((len(elements.length), 12, 12))
    for k in range(0, 12, 3):
        turn[:, k : k + 3, k : k + 3] = elements.frame
    blocks = [b for b, owner in enumerate(mesh.owners) if owner == "cradle"]
    number = {b: n for n, b in enumerate(blocks)}
    stiffness = np.zeros((6 * len(blocks), 6 * len(blocks)))
    for e, k in enumerate(np.swapaxes(turn, 1, 2) @ beam_matrices(elements).stiffness() @ turn):
        if elements.part[e] == "cradle":
            at = np.concatenate([6 * number[int(b)] + np.arange(6) for b in elements.ends[e]])
            stiffness[np.ix_(at, at)] += k
    scale = 1 / np.sqrt(np.diag(stiffness))
    values = np.linalg.eigvalsh(stiffness * np.outer(scale, scale))
    assert np.abs(values[:6]).max() < 1e-12
    assert values[6] > 1e-4


def test_all_balances_close():
    model = module()
    (check,) = self_checks(solve(model, [loads(model)]))
    assert check.equilibrium < 1e-9
    assert check.balance < 1e-9
    assert not check.warnings
    assert not check.refusals


def test_mirrored_twins_are_equal():
    """A skew member and its mirror image under mirrored loads: forces mirror, moments as axial vectors."""
    flip = np.diag([1.0, -1, 1])
    tip = np.array([300, 420.0, 80])
    points = {"o_l": (0, 50, 0), "t_l": tip, "o_r": (0, -50, 0), "t_r": flip @ tip}
    twin = replace(SKEW.mirrored())
    parts = [
        frame("f_l", member("m", ("o_l", "t_l"), SKEW, offset=(5.0, 3.0))),
        frame("f_r", member("m", ("o_r", "t_r"), twin, offset=(-5.0, 3.0))),
    ]
    model = build(points, parts, supports={"o_l": ("f_l", "welded"), "o_r": ("f_r", "welded")})
    force, moment = np.array([200, -900, 700.0]), np.array([1e4, -2e4, 3e4])
    load = case(
        push(model, "f_l", "t_l", force, moment), push(model, "f_r", "t_r", flip @ force, -flip @ moment)
    )
    solution = solve(model, [load])
    left, right = movement(solution, "f_l", "t_l"), movement(solution, "f_r", "t_r")
    assert right[:3] == pytest.approx(flip @ left[:3], rel=1e-9)
    assert right[3:] == pytest.approx(-flip @ left[3:], rel=1e-9)


def test_a_rolled_body_sets_the_struts_so_that_the_wheels_travel():
    """Equal and opposite travel of roll × half track; the bar's push follows from its twist."""
    points = {"in_l": (0, 300, 200), "out_l": (0, 700, 200), "top_l": (0, 650, 600)}
    points |= {k.replace("_l", "_r"): (x, -y, z) for k, (x, y, z) in points.items()}
    parts, joints, forces, wheels = [], [], [], []
    for s in "lr":
        arm = f"arm_{s}"
        parts.append(frame(arm, member("m", (f"in_{s}", f"out_{s}"), BOX)))
        joints.append(joint(f"in_{s}", "hinge", arm, "body", f"in_{s}", (1, 0, 0)))
        forces.append(
            ForceElement(f"strut_{s}", (arm, "body"), (f"out_{s}", f"top_{s}"), f"w_{s}", True, 0, 100)
        )
        wheels.append(Wheel(f"w_{s}", arm, f"out_{s}", 300, "rear", s == "l", "outboard", None, "none", None))
    model = build(points, parts, joints, forces=forces, wheels=wheels)
    solution = solve(model, [case(roll=0.02)])
    assert movement(solution, "arm_l", "out_l")[2] == pytest.approx(-0.02 * 700, rel=1e-9)
    assert movement(solution, "arm_r", "out_r")[2] == pytest.approx(0.02 * 700, rel=1e-9)
    assert solution.pushes == pytest.approx(0, abs=1e-3)


def test_a_line_load_peaks_inside_the_member():
    """Simply supported beam: q L^2/8 in the middle."""
    points = {"a": (0, 0, 0), "b": (2000, 0, 0)}
    part = frame("f", member("m", ("a", "b"), BOX, grade(density=1e-6)))
    model = build(points, [part], supports={"a": ("f", "hinge", (0, 1, 0)), "b": ("f", "floor", (0, 0, 1))})
    solution = solve(model, [case(field=(0, 0, -1000.0))])
    moment = section_forces(solution)[0, :, 4, 0]
    assert np.abs(moment).argmax() == len(TAPER_STATIONS) // 2
    assert np.abs(moment).max() == pytest.approx(1e-6 * 1200 * 1000 * 2000**2 / 8, rel=1e-9)


def test_rigid_parts_and_guided_strut_carry_bending():
    """A slider and a ball: the rod carries the side load as a cantilever from the guide."""
    points = {"guide": (0, 0, 0), "top": (0, 0, 300)}
    rod = frame("rod", member("m", ("guide", "top"), BOX, up=(1.0, 0, 0)))
    joints = [joint("guide", "slider", "carrier", "rod", "guide", (0, 0, 1))]
    supports = {"top": ("rod", "ball")}
    carrier = Part("carrier", "rigid")
    hold = joint("hold", "welded", "carrier", "body", "guide")
    model = build(points, [rod, carrier], [*joints, hold], supports)
    solution = solve(model, [case(push(model, "rod", "guide", (0, 0, 500)))])
    assert joint_force(solution, "at_top")[2] == pytest.approx(500, rel=1e-9)
