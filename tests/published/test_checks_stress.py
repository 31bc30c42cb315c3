"""Stress and utilisation: EN 1993-1-1 and closed forms."""

import numpy as np
import pytest
from small_models import build, case, frame, grade, member, push

from loadpath.checks import analyse, run_checks
from loadpath.checks.plastic import plastic_demand
from sections import SHAPES, section


def test_en_1993_1_1_clause_6_2_1_5_von_mises_of_a_beam_point():
    """EN 1993-1-1 6.2.1(5), closed form: sigma 150, tau 60 -> 182.483 MPa, made in a solid round bar.

    sigma = N/A everywhere, tau = 16 T/(pi d³) at the surface; the outline is a polygon, 0.5 %.
    """
    d = 30.0
    bar = section(SHAPES["solid round"](diameter=d))
    forces = np.array([150.0 * bar.area, 0, 0, 60.0 * np.pi * d**3 / 16, 0, 0])
    assert bar.von_mises(forces).max() == pytest.approx(182.483, rel=5e-3)


def test_sharp_box_normal_stress():
    """N/A - M z/I of a sharp-cornered box 60 x 80 x 2.5, M = 1.2 kNm, N = -25 kN: -113.665 MPa (closed form).

    The outline engine on the same sharp corners; 0.1 %.
    """
    from sections import Outline, outline_section

    outer = np.array([[0, 0], [60, 0], [60, 80], [0, 80.0]])
    inner = np.array([[2.5, 2.5], [57.5, 2.5], [57.5, 77.5], [2.5, 77.5]])
    box = outline_section(Outline(outer, (inner,)), 0.3)
    forces = np.array([-25000.0, 0, 0, 0, 1.2e6, 0])
    assert box.stresses(forces)[:, 0].min() == pytest.approx(-113.665, rel=1e-3)


def test_bredt_shear_stress_of_a_closed_box():
    """Bredt: T/(2 Am t), Am = 57.5 x 77.5, t = 2.5, T = 0.9 kNm: 40.3927 MPa (closed form); walls engine.

    The walls add the open part T t/J sum(b t^3/3), 0.3 % here; its mean over both faces is Bredt's.
    """
    from sections import Walls, walls_section

    nodes = np.array([[0, 0], [57.5, 0], [57.5, 77.5], [0, 77.5]])
    ends = np.array([[0, 1], [1, 2], [2, 3], [3, 0]])
    box = walls_section(Walls(nodes, ends, np.full(4, 2.5)))
    tau = np.linalg.norm(box.stresses(np.array([0, 0, 0, 0.9e6, 0, 0]))[:, 1:], axis=1)
    assert (tau.max() + tau.min()) / 2 == pytest.approx(40.3927, rel=0.005)


def cantilever(shape, steel, cls="rare", force=(0, 0, -1000.0), length=1000.0):
    points = {"root": (0, 0, 0), "tip": (length, 0, 0)}
    part = frame("beam", member("m", ("root", "tip"), section(shape), steel))
    model = build(points, [part], supports={"root": ("beam", "welded")})
    load = case(push(model, "beam", "tip", force), name="load")
    from dataclasses import replace

    return analyse(model, {"load": replace(load, cls=cls)})


def stress_row(analysis):
    (row,) = [r for r in run_checks(analysis) if r.kind == "member stress"]
    return row


def test_utilisation_against_the_proof_stress():
    """EN 1993-1-1 6.2.1(5): u = sigma gamma_M0/Rp0.2. Rectangle 20 x 40, M = 1 kNm: 187.5/420 = 0.4464."""
    row = stress_row(cantilever(SHAPES["solid rectangle"](width=20, height=40), grade()))
    assert row.demand == pytest.approx(1e6 / (20 * 40**2 / 6), rel=2e-3)
    assert row.utilisation == pytest.approx(187.5 / 420, rel=2e-3)
    assert row.verdict == "holds"
    assert "EN 1993-1-1" in row.basis


def test_abuse_uses_the_plastic_moment_of_the_rectangle():
    """Shape factor 1.5 of a rectangle (handbook): M/(1.5 Wel fy), shear V Q/(I b) = 1.5 V/A included."""
    row = stress_row(cantilever(SHAPES["solid rectangle"](width=20, height=40), grade(), cls="abuse"))
    bending = 1e6 / (1.5 * 20 * 40**2 / 6) / 420
    shear = 1.5 * 1000 / 800 / 420
    assert row.utilisation == pytest.approx(np.hypot(bending, np.sqrt(3) * shear), rel=3e-3)


def test_axial_force_with_moment_of_the_rectangle():
    """m + n² = 1 (closed form): n = 0.6, m = 0.64; with shear sqrt(fy² + 3 tau²)."""
    bar = section(SHAPES["solid rectangle"](width=20, height=40))
    fy = 355.0
    forces = np.array([[0.6 * 800 * fy], [0], [0], [0], [0.64 * 20 * 40**2 / 4 * fy], [0]])
    assert plastic_demand(bar, grade(), forces, np.zeros(1)).stress[0] == pytest.approx(fy, rel=5e-3)
    forces[2] = 800 * 100.0 / 1.5  # the parabola's top: 100 MPa, at the sides 2 % more by contraction
    expected = np.hypot(fy, np.sqrt(3) * 100.0)
    assert plastic_demand(bar, grade(), forces, np.zeros(1)).stress[0] == pytest.approx(expected, rel=1e-2)
