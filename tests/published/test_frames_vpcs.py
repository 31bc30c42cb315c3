"""Societe Francaise des Mecaniciens / AFNOR, Guide de validation des progiciels de calcul de structures
(1990): static sheets, values looked up in secondary prints that quote it. Planar frames lie in x-y."""

import numpy as np
import pytest
from small_models import (
    STIFF,
    bare_section,
    build,
    case,
    frame,
    grade,
    joint,
    joint_force,
    link,
    member,
    movement,
    push,
)

from loadpath.frame import solve
from loadpath.model import BushingRates, LineLoad

Z = (0, 0, 1.0)


def plane(A, inertia):
    return bare_section(A, inertia, inertia, J=inertia)


def tube(outer, inner):
    inertia = np.pi * (outer**4 - inner**4) / 64
    return bare_section(np.pi * (outer**2 - inner**2) / 4, inertia, inertia, 2 * inertia)


def pinned_beam(L, section, material, n=2):
    """Beam along x on a hinge about z and a roller, n equal segments."""
    points = {f"p{k}": (L * k / n, 0, 0) for k in range(n + 1)}
    part = frame("f", member("m", tuple(points), section, material))
    supports = {"p0": ("f", "hinge", Z), f"p{n}": ("f", "shoe", (1, 0, 0))}
    return build(points, [part], supports=supports)


def test_ssll02_short_deep_beam():
    """SSLL02/89: 21 % of the deflection is shear, A/As = 2.42. 0.01 %."""
    section = bare_section(3100, 2.81e7, 2.81e7, shear_areas=(1280.9917355, 1280.9917355))
    model = pinned_beam(1440.0, section, grade(E=200000, G=200000 / 2.6))
    solution = solve(model, [case(line_loads=(LineLoad("f", "m", np.array([0, -100.0, 0]), "q"),))])
    assert movement(solution, "f", "p1")[1] == pytest.approx(-1.25926, rel=1e-4)


def test_ssll03_spring_at_midspan():
    """SSLL03/89: exact integers by design. 1e-6."""
    points = {f"p{k}": (3000.0 * k, 0, 0) for k in range(5)}
    part = frame("f", member("m", tuple(points), plane(1e6, 6.3e8)))
    spring = joint("spring", "bushing", "body", "f", "p2", (0, 1, 0), BushingRates(2100, (0, 0), 0, (0, 0)))
    supports = {"p0": ("f", "hinge", Z), "p4": ("f", "shoe", (1, 0, 0))}
    model = build(points, [part], [spring], supports)
    solution = solve(
        model, [case(push(model, "f", "p1", (0, -42000, 0)), push(model, "f", "p3", (0, -42000, 0)))]
    )
    assert movement(solution, "f", "p2")[1] == pytest.approx(-10.0, rel=1e-6)
    assert joint_force(solution, "spring")[1] == pytest.approx(21000, rel=1e-6)
    assert abs(solution.end_forces[1, 5, 0]) == pytest.approx(63e6, rel=1e-6)


def test_ssll05_two_cantilevers_joined_by_a_rigid_block():
    """SSLL05/89: inextensible bars. 1e-5."""
    points = {"a1": (0, 0, 0), "a2": (2000, 0, 0), "b1": (0, -200, 0), "b2": (2000, -200, 0)}
    bar = plane(STIFF, 1e5 / 7.5)
    parts = [
        frame("a", member("m", ("a1", "a2"), bar, grade(E=200000)), brackets={"b2": "a2"}),
        frame("b", member("m", ("b1", "b2"), bar, grade(E=200000))),
    ]
    model = build(
        points,
        parts,
        [joint("block", "welded", "a", "b", "b2")],
        {"a1": ("a", "welded"), "b1": ("b", "welded")},
    )
    solution = solve(model, [case(push(model, "a", "a2", (0, -1000, 0)))])
    assert movement(solution, "a", "a2")[1] == pytest.approx(-125.0, rel=1e-5)
    for name in ("at_a1", "at_b1"):
        assert np.abs(joint_force(solution, name)[[1, 5]]) == pytest.approx([500, 500000], rel=1e-5)


def test_ssll06_quarter_circle_cantilever():
    """SSLL06/89: thin arc clamped at one end, load values from memory. 0.1 %; 64 chords."""
    n, R = 64, 3000.0
    angles = np.linspace(np.pi / 2, 0, n + 1)
    points = {f"p{k}": (R * np.cos(a), R * np.sin(a), 0) for k, a in enumerate(angles)}
    model = build(
        points,
        [frame("f", member("m", tuple(points), tube(20, 16), grade(E=200000)))],
        supports={"p0": ("f", "welded")},
    )
    solution = solve(model, [case(push(model, "f", f"p{n}", (10, 5, 0), (0, 0, 8000)))])
    assert movement(solution, "f", f"p{n}")[[0, 1, 5]] == pytest.approx([379.1, 241.7, 0.1654], rel=1e-3)


def test_ssll08_semicircular_arch():
    """SSLL08/89: pinned and rolling foot, load at the crown. 0.02 %; 200 chords."""
    n, R = 200, 1000.0
    angles = np.linspace(np.pi, 0, n + 1)
    points = {f"p{k}": (R * np.cos(a), R * np.sin(a), 0) for k, a in enumerate(angles)}
    model = build(
        points,
        [frame("f", member("m", tuple(points), tube(20, 16), grade(E=200000)))],
        supports={"p0": ("f", "hinge", Z), f"p{n}": ("f", "shoe", (1, 0, 0))},
    )
    solution = solve(model, [case(push(model, "f", f"p{n // 2}", (0, -100, 0)))])
    foot_a, foot_b = movement(solution, "f", "p0"), movement(solution, "f", f"p{n}")
    crown = movement(solution, "f", f"p{n // 2}")
    found = [foot_a[5], foot_b[5], crown[1], foot_b[0]]
    assert found == pytest.approx([-0.030774, 0.030774, -19.206, 53.912], rel=2e-4)


def test_ssll10_rigid_joint_of_four_members():
    """SSLL10/89: inextensible members; further digits from memory. 0.01 %."""
    points = {
        "a": (0, 0, 0),
        "b": (-4000, 0, 0),
        "c": (0, 1000, 0),
        "d1": (500, 0, 0),
        "d": (1000, 0, 0),
        "e": (0, -2000, 0),
    }
    steel = grade(E=200000)
    sides = {
        "ab": (("b", "a"), 40),
        "ac": (("a", "c"), 10),
        "ad": (("a", "d1", "d"), 10),
        "ae": (("e", "a"), 20),
    }
    members = [member(k, path, plane(STIFF, side**4 / 12), steel) for k, (path, side) in sides.items()]
    supports = {"b": ("f", "welded"), "c": ("f", "hinge", Z), "d": ("f", "welded"), "e": ("f", "welded")}
    model = build(points, [frame("f", *members)], supports=supports)
    load = case(
        push(model, "f", "d1", (0, -100000, 0)),
        line_loads=(LineLoad("f", "ab", np.array([0, -1.0, 0]), "q"),),
    )
    solution = solve(model, [load])
    assert abs(movement(solution, "f", "a")[5]) == pytest.approx(0.227118, rel=1e-4)
    ends = dict(zip(solution.system.mesh.elements.member, range(5), strict=False))
    at_j = {k: abs(solution.end_forces[e, 5, 0]) for k, e in ends.items()}
    assert at_j["ab"] == pytest.approx(11023720, rel=1e-4)
    assert at_j["ae"] == pytest.approx(1211299.4, rel=1e-4)


def test_ssll11_plane_truss():
    """SSLL11/89. 0.05 %."""
    points = {"a": (0, 0, 0), "b": (1000, 0, 0), "c": (500, 500, 0), "d": (2000, 1000, 0)}
    bars = {"ac": 200, "cb": 200, "cd": 100, "bd": 100}
    parts = [link(k, k[0], k[1], plane(area, 100.0), grade(E=196200)) for k, area in bars.items()]
    joints = [
        joint("ca", "hinge", "ac", "cb", "c", Z),
        joint("cc", "hinge", "ac", "cd", "c", Z),
        joint("dd", "hinge", "cd", "bd", "d", Z),
        joint("a1", "hinge", "ac", "body", "a", Z),
        joint("b1", "hinge", "cb", "body", "b", Z),
        joint("b2", "hinge", "bd", "body", "b", Z),
    ]
    model = build(points, parts, joints)
    solution = solve(model, [case(push(model, "cd", "d", (0, -9810, 0)))])
    c, d = movement(solution, "cd", "c"), movement(solution, "cd", "d")
    assert [*c[:2], *d[:2]] == pytest.approx([0.26517, 0.08839, 3.47902, -5.60084], rel=5e-4)


def test_ssll14_gable_portal_with_pinned_feet():
    """SSLL14/89: the left rafter's load is per horizontal projection. 0.02 %."""
    points = {
        "a": (0, 0, 0),
        "b": (0, 8000, 0),
        "c": (10000, 12000, 0),
        "d": (20000, 8000, 0),
        "e": (20000, 0, 0),
    }
    column, rafter = plane(1e6, 5e8), plane(1e6, 2.5e8)
    members = [
        member("m1", ("a", "b"), column),
        member("m2", ("b", "c"), rafter),
        member("m3", ("c", "d"), rafter),
        member("m4", ("d", "e"), column),
    ]
    model = build(points, [frame("f", *members)], supports=dict.fromkeys("ae", ("f", "hinge", Z)))
    along_slope = -3.0 * 10000 / np.hypot(10000, 4000)
    load = case(
        push(model, "f", "c", (0, -20000, 0)),
        push(model, "f", "b", (-10000, 0, 0), (0, 0, -1e8)),
        line_loads=(LineLoad("f", "m2", np.array([0, along_slope, 0]), "q"),),
    )
    solution = solve(model, [load])
    foot = -joint_force(solution, "at_a")
    assert [foot[1], foot[0]] == pytest.approx([31500.0, 20239.4], rel=2e-4)
    assert movement(solution, "f", "c")[1] == pytest.approx(-30.72, rel=2e-4)


def test_ssll09_two_bar_truss():
    """SSLL09/89: exact. 1e-6."""
    run, rise = 4500 * np.cos(np.pi / 6), 4500 * np.sin(np.pi / 6)
    points = {"a": (0, 0, 0), "b": (2 * run, 0, 0), "c": (run, -rise, 0)}
    parts = [link("ac", "a", "c", plane(300, 100.0)), link("bc", "b", "c", plane(300, 100.0))]
    joints = [
        joint("cc", "hinge", "ac", "bc", "c", Z),
        joint("ja", "hinge", "ac", "body", "a", Z),
        joint("jb", "hinge", "bc", "body", "b", Z),
    ]
    model = build(points, parts, joints)
    solution = solve(model, [case(push(model, "ac", "c", (0, -21000, 0)))])
    assert movement(solution, "ac", "c")[1] == pytest.approx(-3.0, rel=1e-6)
    assert solution.end_forces[0, 0, 0] / 300 == pytest.approx(70.0, rel=1e-6)


def winkler(n, supports):
    """A steel beam on n + 1 springs that stand for a foundation of 0.84 N/mm per mm."""
    L = np.pi * np.sqrt(10) / 2 * 1000
    points = {f"p{k}": (L * k / n, 0, 0) for k in range(n + 1)}
    part = frame("f", member("m", tuple(points), plane(1e6, 1e8)))
    joints = []
    for k in range(n + 1):
        rate = 0.84 * L / n * (0.5 if k in (0, n) else 1.0)
        # the other rates only keep the beam in its plane
        rates = BushingRates(rate, (1.0, 1.0), 0, (0, 0))
        joints.append(joint(f"s{k}", "bushing", "body", "f", f"p{k}", (0, 1, 0), rates))
    return build(points, [part], joints, supports)


def test_ssll15_free_beam_on_an_elastic_foundation():
    """SSLL15/89: Winkler beam with three equal loads; rate from memory, confirmed by all results. 0.1 %."""
    n = 80
    model = winkler(n, {})
    loads = [push(model, "f", f"p{k}", (0, -10000, 0)) for k in (0, n // 2, n)]
    solution = solve(model, [case(*loads)])
    middle, end = movement(solution, "f", f"p{n // 2}"), movement(solution, "f", f"p{n}")
    assert [middle[1], end[1], abs(end[5])] == pytest.approx([-6.844, -7.854, 0.000706], rel=1e-3)
    assert abs(solution.end_forces[n // 2 - 1, 5, 0]) == pytest.approx(5.759e6, rel=1e-3)


def test_ssll16_supported_beam_on_an_elastic_foundation():
    """SSLL16/89: Winkler beam with a line load, a mid load and end moments. 0.2 %."""
    n = 80
    model = winkler(n, {"p0": ("f", "shoe", (1, 0, 0)), f"p{n}": ("f", "shoe", (1, 0, 0))})
    load = case(
        push(model, "f", f"p{n // 2}", (0, -10000, 0)),
        push(model, "f", "p0", moment=(0, 0, -15e6)),
        push(model, "f", f"p{n}", moment=(0, 0, 15e6)),
        line_loads=(LineLoad("f", "m", np.array([0, -5.0, 0]), "q"),),
    )
    solution = solve(model, [load])
    assert movement(solution, "f", "p0")[5] == pytest.approx(-0.003045, rel=2e-3)
    assert movement(solution, "f", f"p{n // 2}")[1] == pytest.approx(-4.23326, rel=2e-3)
    assert abs(solution.end_forces[n // 2 - 1, 5, 0]) == pytest.approx(33.84e6, rel=2e-3)
    assert -joint_force(solution, "at_p0")[1] == pytest.approx(11674, rel=2e-3)
