"""Static frames of textbooks and closed forms. Planar frames lie in x-y; bending is about z."""

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
from loadpath.model import TAPER_STATIONS, EndFixity, LineLoad, Settlement

Z = (0, 0, 1.0)
INCH, POUND, PSI = 25.4, 4.4482216152605, 0.0068947572932
FREE_Z = EndFixity((np.inf,) * 5 + (0.0,))


def plane(A, inertia):
    """A section whose bending about z has I; stiff enough the other way to stay in the plane."""
    return bare_section(A, inertia, inertia, J=inertia)


def test_logan_example_5_1_plane_frame():
    """Logan, A First Course in the Finite Element Method, Ex. 5.1 (from memory, recomputed). 0.4 %."""
    steel = grade(E=30e6 * PSI)
    column, beam = plane(10 * INCH**2, 200 * INCH**4), plane(10 * INCH**2, 100 * INCH**4)
    points = {"n1": (0, 0, 0), "n2": (0, 3048, 0), "n3": (3048, 3048, 0), "n4": (3048, 0, 0)}
    part = frame(
        "portal",
        member("m1", ("n1", "n2"), column, steel),
        member("m2", ("n2", "n3"), beam, steel),
        member("m3", ("n3", "n4"), column, steel),
    )
    model = build(points, [part], supports={"n1": ("portal", "welded"), "n4": ("portal", "welded")})
    loads = case(
        push(model, "portal", "n2", (10000 * POUND, 0, 0)),
        push(model, "portal", "n3", moment=(0, 0, 5000 * POUND * INCH)),
    )
    solution = solve(model, [loads])
    n2, n3 = movement(solution, "portal", "n2"), movement(solution, "portal", "n3")
    assert n2[[0, 1, 5]] == pytest.approx([0.211 * INCH, 0.00148 * INCH, -0.00153], rel=0.004)
    assert n3[[0, 1, 5]] == pytest.approx([0.209 * INCH, -0.00148 * INCH, -0.00149], rel=0.004)


def test_hibbeler_example_16_1_frame_with_roller():
    """Hibbeler, Structural Analysis, Ex. 16-1 (from memory, recomputed). 0.3 %."""
    steel, kip = grade(E=29e6 * PSI), 1000 * POUND
    part = frame("f", member("m", ("n1", "n2", "n3"), plane(10 * INCH**2, 500 * INCH**4), steel))
    points = {"n1": (0, 0, 0), "n2": (6096, 0, 0), "n3": (6096, -6096, 0)}
    model = build(points, [part], supports={"n1": ("f", "shoe", (1, 0, 0)), "n3": ("f", "welded")})
    solution = solve(model, [case(push(model, "f", "n2", (5 * kip, 0, 0)))])
    n1, n2 = movement(solution, "f", "n1"), movement(solution, "f", "n2")
    assert n2[[0, 1, 5]] == pytest.approx([0.696 * INCH, -0.00155 * INCH, -0.002488], rel=0.003)
    assert n1[[0, 5]] == pytest.approx([0.696 * INCH, 0.001234], rel=0.003)
    assert -joint_force(solution, "at_n1")[1] == pytest.approx(-1.87 * kip, rel=0.003)
    on_ground = joint_force(solution, "at_n3")
    assert -on_ground[[0, 1, 5]] == pytest.approx([-5 * kip, 1.87 * kip, 750 * kip * INCH], rel=0.003)


def test_kassimali_example_8_4_space_frame():
    """Kassimali, Matrix Analysis of Structures, Ex. 8.4 (from memory, recomputed). 0.02 %."""
    kip = 1000 * POUND
    steel = grade(E=29e6 * PSI, G=11.5e6 * PSI)
    section = bare_section(32.9 * INCH**2, 236 * INCH**4, 716 * INCH**4, 15.1 * INCH**4)
    points = {"n1": (0, 0, 0), "n2": (-6096, 0, 0), "n3": (0, -6096, 0), "n4": (0, 0, -6096)}
    local_x_y = {
        "21": ((1, 0, 0), (0, 1, 0)),
        "31": ((0, 1, 0), (0, 0, 1)),
        "41": ((0, 0, 1), (-0.5, 0.8660254, 0)),
    }
    members = [
        member(f"m{k}", (f"n{k[0]}", "n1"), section, steel, up=np.cross(x, y))
        for k, (x, y) in local_x_y.items()
    ]
    supports = dict.fromkeys(("n2", "n3", "n4"), ("f", "welded"))
    model = build(points, [frame("f", *members)], supports=supports)
    moment = 1800 * kip * INCH
    load = case(
        push(model, "f", "n1", moment=(-moment, 0, moment)),
        line_loads=(LineLoad("f", "m21", np.array([0, -0.25 * kip / INCH, 0]), "udl"),),
    )
    solution = solve(model, [load])
    expected = [-0.0013522 * INCH, -0.0027965 * INCH, -0.001812 * INCH, -0.0030021, 0.0010569, 0.0064986]
    assert movement(solution, "f", "n1") == pytest.approx(expected, rel=2e-4)
    reactions = {
        "n2": [5.3757, 44.106, -0.74272, 2.1722, 58.987, 2330.5],
        "n3": [-4.6249, 11.117, -6.4607, -515.55, -0.76472, 369.67],
        "n4": [-0.75082, 4.7763, 7.2034, -383.5, -60.166, -4.702],
    }
    for point, values in reactions.items():
        scaled = -joint_force(solution, f"at_{point}") / kip / np.repeat([1, INCH], 3)
        assert scaled == pytest.approx(values, rel=2e-4)


def test_logan_example_3_8_space_truss():
    """Logan, Ex. 3.8 (from memory, recomputed); full-precision values of the same statics. 0.01 %."""
    wood = grade(E=1.2e6 * PSI)
    points = {"n1": (72, 0, 0), "n2": (0, 36, 0), "n3": (0, 36, 72), "n4": (0, 0, -48)}
    points = {k: np.array(v) * INCH for k, v in points.items()}
    bars = {"n2": 0.302, "n3": 0.729, "n4": 0.187}
    parts = [link(f"bar_{n}", "n1", n, plane(a * INCH**2, 100.0), wood) for n, a in bars.items()]
    joints = [joint(f"pin_{n}", "ball", f"bar_{n}", "body", n) for n in bars]
    joints += [joint("j23", "ball", "bar_n3", "bar_n2", "n1"), joint("j24", "ball", "bar_n4", "bar_n2", "n1")]
    model = build(points, parts, joints, supports={"n1": ("bar_n2", "floor", (0, 1, 0))})
    solution = solve(model, [case(push(model, "bar_n2", "n1", (0, 0, -1000 * POUND)))])
    u = movement(solution, "bar_n2", "n1") / INCH
    assert [u[0], u[2]] == pytest.approx([-0.0711143, -0.266239], rel=1e-4)
    stress = solution.end_forces[:, 0, 0] / [a * INCH**2 for a in bars.values()] / PSI
    assert stress == pytest.approx([-948.19, 1445.37, -2868.54], rel=1e-4)
    assert stress == pytest.approx([-945, 1440, -2850], rel=0.015)  # as printed, hand rounding


def cantilever(L, section, material, n=1, **more):
    points = {f"p{k}": (L * k / n, 0, 0) for k in range(n + 1)}
    part = frame("f", member("m", tuple(points), section, material, **more))
    return build(points, [part], supports={"p0": ("f", "welded")}), f"p{n}"


def test_macneal_harder_straight_cantilever():
    """MacNeal & Harder (1985), straight cantilever beam, theory values of the paper. 0.3 %."""
    depth, width = 5.08, 2.54
    material = grade(E=68947.573, G=68947.573 / 2.6)
    area = depth * width
    section = bare_section(
        area, depth * width**3 / 12, width * depth**3 / 12, 100.0, shear_areas=(area * 5 / 6, area * 5 / 6)
    )
    # y is the deep direction: I about z is width depth^3 / 12
    model, tip = cantilever(152.4, section, material)
    cases = [case(push(model, "f", tip, np.eye(3)[k] * POUND)) for k in range(3)]
    solution = solve(model, cases)
    found = [movement(solution, "f", tip, k)[k] for k in range(3)]
    assert found == pytest.approx([0.000762, 2.74574, 10.97534], rel=0.003)


def test_bent_cantilever_out_of_plane():
    """Strain energy (e.g. Timoshenko, Strength of Materials): L of round bar, load across. 1e-6."""
    d = 30.0
    inertia = np.pi * d**4 / 64
    points = {"a": (0, 0, 0), "b": (600, 0, 0), "c": (600, 400, 0)}
    part = frame(
        "f",
        member(
            "m",
            tuple(points),
            bare_section(np.pi * d**2 / 4, inertia, inertia, 2 * inertia),
            grade(G=80769.230769),
        ),
    )
    model = build(points, [part], supports={"a": ("f", "welded")})
    solution = solve(model, [case(push(model, "f", "c", (0, 0, -1000)))])
    assert movement(solution, "f", "c")[2] == pytest.approx(-26.12449, rel=1e-6)
    assert np.abs(joint_force(solution, "at_a")[3:5]) == pytest.approx([400000, 600000], rel=1e-6)


def test_rigid_end_zones_with_settlement():
    """Slope-deflection with rigid ends: node moments, not those at the flexible faces. 1e-6."""
    points = {"i": (0, 0, 0), "fi": (80, 0, 0), "fj": (580, 0, 0), "j": (700, 0, 0)}
    part = frame("f", member("m", ("fi", "fj"), plane(1e3, 400000.0)), brackets={"i": "fi", "j": "fj"})
    model = build(points, [part], supports={"i": ("f", "welded"), "j": ("f", "welded")})
    move = Settlement("j", np.array([0, 2.0, 0]), np.zeros(3))
    solution = solve(model, [case(settlements=(move,))])
    at_i, at_j = joint_force(solution, "at_i"), joint_force(solution, "at_j")
    assert abs(at_i[1]) == pytest.approx(16128, rel=1e-6)
    assert [abs(at_i[5]), abs(at_j[5])] == pytest.approx([5322240, 5967360], rel=1e-6)


def test_internal_hinge_between_two_cantilevers():
    """Two cantilevers joined by a hinge, one loaded. 1e-6."""
    points = {"a": (0, 0, 0), "h": (2000, 0, 0), "b": (4000, 0, 0)}
    part = frame(
        "f",
        member("m1", ("a", "h"), plane(1e3, 2e6), ends=(EndFixity(), FREE_Z)),
        member("m2", ("h", "b"), plane(1e3, 4e6)),
    )
    model = build(points, [part], supports={"a": ("f", "welded"), "b": ("f", "welded")})
    solution = solve(model, [case(line_loads=(LineLoad("f", "m2", np.array([0, -5.0, 0]), "udl"),))])
    assert movement(solution, "f", "h")[1] == pytest.approx(-7.9365079, rel=1e-6)
    moments = [abs(joint_force(solution, f"at_{p}")[5]) for p in "ab"]
    assert moments == pytest.approx([2.5e6, 7.5e6], rel=1e-6)


def test_release_condenses_the_load():
    """Propped cantilever by a moment release at a fixed node (Roark, beam tables). 1e-6."""
    points = {"i": (0, 0, 0), "j": (2000, 0, 0)}
    part = frame("f", member("m", ("i", "j"), plane(1e3, 2e6), ends=(EndFixity(), FREE_Z)))
    model = build(points, [part], supports={"i": ("f", "welded"), "j": ("f", "welded")})
    solution = solve(model, [case(line_loads=(LineLoad("f", "m", np.array([0, -5.0, 0]), "udl"),))])
    at_i, at_j = -joint_force(solution, "at_i"), -joint_force(solution, "at_j")
    assert [at_i[5], at_i[1], at_j[1]] == pytest.approx([2.5e6, 6250, 3750], rel=1e-6)
    assert at_j[5] == pytest.approx(0, abs=1e-3)


def test_depth_tapered_cantilever():
    """Integral of x^2/I(x) in closed form, rectangle 10 x (60 to 20). 0.2 %; one tapered segment."""
    sections = tuple(bare_section(10 * h, h * 10**3 / 12, 10 * h**3 / 12) for h in 60 - 40 * TAPER_STATIONS)
    model, tip = cantilever(500.0, (sections,), grade())
    solution = solve(model, [case(push(model, "f", tip, (0, -1000, 0)))])
    assert movement(solution, "f", tip)[1] == pytest.approx(-2.3406629, rel=0.002)


def test_short_timoshenko_beam_with_settlement():
    """Closed form with Phi = 12 E I / (G As L^2) = 0.1248. 1e-6."""
    b, h = 20.0, 60.0
    section = bare_section(b * h, h * b**3 / 12, b * h**3 / 12, shear_areas=(b * h * 5 / 6,) * 2)
    points = {"i": (0, 0, 0), "j": (300, 0, 0)}
    part = frame("f", member("m", ("i", "j"), section, grade(G=80769.2307692)))
    model = build(points, [part], supports={"i": ("f", "welded"), "j": ("f", "welded")})
    solution = solve(model, [case(settlements=(Settlement("j", np.array([0, -1.0, 0]), np.zeros(3)),))])
    at_i = joint_force(solution, "at_i")
    assert np.abs(at_i[[1, 5]]) == pytest.approx([29871.977, 4480796.6], rel=1e-6)


def test_channel_loaded_through_its_web():
    """Shear centre e = 3 b^2/(h + 6 b) (Timoshenko), Saint-Venant torsion, warping free. 1e-6.

    The member's line is the web's mid-line; y is along the web, the flanges point to +z.
    """
    b, h, t, e = 50.0, 100.0, 4.0, 18.75
    area = (2 * b + h) * t
    z_c = 2 * b * t * b / 2 / area
    strong = t * h**3 / 12 + 2 * b * t * (h / 2) ** 2
    section = bare_section(area, 2e5, strong, (2 * b + h) * t**3 / 3, shear_centre=(0.0, -e - z_c))
    model, tip = cantilever(800.0, section, grade(G=80769.2307692), offset=(0.0, z_c))
    solution = solve(model, [case(push(model, "f", tip, (0, -2000, 0)))])
    u = movement(solution, "f", tip)
    assert abs(u[3]) == pytest.approx(0.087053571, rel=1e-6)
    assert u[1] == pytest.approx(-2.8513021, rel=1e-6)


def test_semi_rigid_ends():
    """Slope-deflection (Chen & Lui type): M = q L^2/12 / (1 + 2 E I/(k L)). 1e-6."""
    soft = EndFixity((np.inf,) * 5 + (2e9,))
    points = {"i": (0, 0, 0), "m": (1500, 0, 0), "j": (3000, 0, 0)}
    part = frame("f", member("m", tuple(points), plane(1e3, 5e6), ends=(soft, soft)))
    model = build(points, [part], supports={"i": ("f", "welded"), "j": ("f", "welded")})
    solution = solve(model, [case(line_loads=(LineLoad("f", "m", np.array([0, -4.0, 0]), "udl"),))])
    at_i = -joint_force(solution, "at_i")
    assert at_i[5] == pytest.approx(2222222.2, rel=1e-6)
    assert at_i[5] / 2e9 == pytest.approx(0.0011111111, rel=1e-6)
    middle = solution.end_forces[0, 5, 0]
    assert abs(middle) == pytest.approx(2277777.8, rel=1e-6)


def test_grillage_of_two_crossing_beams():
    """Two simply supported beams that share a load by their stiffness. 1e-6."""
    points = {
        "a1": (-1000, 0, 0),
        "a2": (1000, 0, 0),
        "b1": (0, -1500, 0),
        "b2": (0, 1500, 0),
        "x": (0, 0, 0),
    }
    a = frame("a", member("m", ("a1", "x", "a2"), bare_section(1e3, 3e6, 3e6)))
    b = frame("b", member("m", ("b1", "x", "b2"), bare_section(1e3, 5e6, 5e6)))
    model = build(
        points,
        [a, b],
        [joint("cross", "ball", "a", "b", "x")],
        {
            "a1": ("a", "hinge", (0, 1, 0)),
            "a2": ("a", "floor", Z),
            "b1": ("b", "hinge", (1, 0, 0)),
            "b2": ("b", "floor", Z),
        },
    )
    solution = solve(model, [case(push(model, "a", "x", (0, 0, -20000)))])
    assert movement(solution, "a", "x")[2] == pytest.approx(-3.5419126, rel=1e-6)
    assert -20000 - joint_force(solution, "cross")[2] == pytest.approx(-13388.43, rel=1e-6)
    assert -joint_force(solution, "at_a2")[2] == pytest.approx(6694.2149, rel=1e-6)


def test_kleinlogel_fixed_portal_lateral_load():
    """Kleinlogel, Rigid frame formulas: rectangular frame, fixed feet, k = Ib h/(Ic L). 0.01 %."""
    points = {"n1": (0, 0, 0), "n2": (0, 3000, 0), "n3": (4000, 3000, 0), "n4": (4000, 0, 0)}
    column, beam = plane(STIFF, 1e7), plane(STIFF, 2e7)
    part = frame(
        "f",
        member("m1", ("n1", "n2"), column),
        member("m2", ("n2", "n3"), beam),
        member("m3", ("n3", "n4"), column),
    )
    model = build(points, [part], supports={"n1": ("f", "welded"), "n4": ("f", "welded")})
    solution = solve(model, [case(push(model, "f", "n2", (10000, 0, 0)))])
    base, other = joint_force(solution, "at_n1"), joint_force(solution, "at_n4")
    # the load at one corner makes the feet differ only by the beam's axial stiffness, taken as very large
    assert [abs(base[5]), abs(other[5])] == pytest.approx([8.25e6, 8.25e6], rel=1e-4)
    assert abs(solution.end_forces[0, 5, 0]) == pytest.approx(6.75e6, rel=1e-4)
    assert abs(joint_force(solution, "at_n1")[1]) == pytest.approx(3375, rel=1e-4)


def test_bow_girder_clamped_at_both_ends():
    """Semicircular bow girder, central load (Timoshenko, Strength of Materials II). 0.1 %; 64 chords."""
    n, R, d = 64, 500.0, 40.0
    inertia = np.pi * d**4 / 64
    angles = np.linspace(0, np.pi, n + 1)
    points = {f"p{k}": (R * np.cos(a), R * np.sin(a), 0) for k, a in enumerate(angles)}
    section = bare_section(np.pi * d**2 / 4, inertia, inertia, 2 * inertia)
    part = frame("f", member("m", tuple(points), section, grade(G=80769.230769)))
    model = build(points, [part], supports={"p0": ("f", "welded"), f"p{n}": ("f", "welded")})
    solution = solve(model, [case(push(model, "f", f"p{n // 2}", (0, 0, -5000)))])
    assert movement(solution, "f", f"p{n // 2}")[2] == pytest.approx(-6.1144187, rel=1e-3)
    assert np.abs(joint_force(solution, "at_p0")[3:5]) == pytest.approx([1.25e6, 454225.28], rel=1e-3)
    middle = np.linalg.norm(solution.end_forces[n // 2 - 1, 4:, 0])
    assert middle == pytest.approx(795774.72, rel=1e-3)
