"""Restrained warping of open members: Vlasov (1961); Timoshenko & Gere, Theory of Elastic Stability, ch. 5."""

from dataclasses import replace

import numpy as np
import pytest
from published.section_geometry import midline_z
from scipy.integrate import solve_bvp
from small_models import bare_section, build, case, frame, grade, member, movement, push

from loadpath.frame import look_along, solve, stress_peaks
from sections import walls_section

E, G = 210000.0, 80769.230769
J, CW, L, T = 81066.6666667, 1.66666666667e10, 2000.0, 1e6


def cantilever(warping, n=1):
    """I of 200 between flange mid-lines, flanges 100 x 10, web 6: one surface point at a flange tip."""
    made = bare_section(2 * 1000 + 6 * 200, 2.4e7, 1.67e6, J)
    tip = 100.0 / 2 * 200.0 / 2  # sectorial coordinate b/2 h/2
    made = replace(
        made,
        Cw=CW,
        closed=False,
        points=np.zeros((1, 2)),
        stress=np.zeros((1, 3, 6)),
        warping=np.array([tip]),
    )
    points = {f"p{k}": (L * k / n, 0, 0) for k in range(n + 1)}
    beam = replace(member("m", tuple(points), made, grade(E=E, G=G)), warping=warping)
    model = build(points, [frame("f", beam)], supports={"p0": ("f", "welded")})
    return solve(model, [case(push(model, "f", f"p{n}", moment=(T, 0, 0)))]), f"p{n}"


@pytest.mark.parametrize("n", [1, 4])
def test_vlasov_cantilever_with_tip_torque(n):
    """Closed form: kL = 2.7355, tip twist 0.19472564 rad (1e-6), root bimoment 7.249964e8 N·mm², 217.49892 MPa."""
    solution, tip = cantilever(("held", "free"), n)
    assert movement(solution, "f", tip)[3] == pytest.approx(0.19472564, rel=1e-6)
    looks = look_along(solution)
    root = int(np.argmin(looks.rows * 10 + looks.fractions))
    assert abs(looks.bimoments[root, 0]) == pytest.approx(724996400.0, rel=1e-5)
    assert stress_peaks(solution, looks).von_mises[0, 0] == pytest.approx(217.49892, rel=1e-5)


def test_saint_venant_alone_is_far_too_soft():
    """T L/(G J) = 0.3055 rad with warping free at both ends (closed form)."""
    solution, tip = cantilever(("free", "free"))
    assert movement(solution, "f", tip)[3] == pytest.approx(0.30545, rel=1e-4)


@pytest.mark.parametrize("held", [("held", "held"), ("free", "held"), ("held", "free"), ("free", "free")])
def test_twist_and_bimoment_against_the_differential_equation(held):
    """G J φ' − E Cw φ''' = T solved by scipy's boundary-value solver, warping φ' = 0 held or φ'' = 0 free."""
    x = np.linspace(0, L, 401)

    def rate(_, y):  # y = φ, φ', φ''
        return np.vstack([y[1], y[2], (G * J * y[1] - T) / (E * CW)])

    def ends(a, b):
        first = a[1] if held[0] == "held" else a[2]
        last = b[1] if held[1] == "held" else b[2]
        return np.array([a[0], first, last])

    exact = solve_bvp(rate, ends, x, np.zeros((3, len(x))), tol=1e-8)
    solution, _ = cantilever(held, n=5)
    twists = [movement(solution, "f", f"p{k}")[3] for k in range(6)]
    assert twists == pytest.approx(exact.sol(np.linspace(0, L, 6))[0], rel=1e-5, abs=1e-9)
    looks = look_along(solution)
    places = solution.system.mesh.elements.start[looks.rows] + looks.fractions * L / 5
    bimoments = E * CW * exact.sol(places)[2]
    assert looks.bimoments[:, 0] == pytest.approx(bimoments, rel=1e-4, abs=1e-4 * T * 800)


def test_nafems_le5_z_section():
    """NAFEMS LE5 (from memory): Z of 1 m flanges and a 2 m web, 0.1 m thick, 10 m long, built in, 1.2 MNm at its free
    end, E = 210 GPa, nu = 0.3: axial stress of 108 MPa at a flange tip 2.5 m from the root."""
    made = walls_section(midline_z(1000, 2000, 100))
    assert not made.closed
    points = {f"p{k}": (2500.0 * k, 0, 0) for k in range(5)}
    steel = grade(E=210000.0, G=210000.0 / 2.6)
    beam = replace(member("m", tuple(points), made, steel), warping=("held", "free"))
    model = build(points, [frame("f", beam)], supports={"p0": ("f", "welded")})
    solution = solve(model, [case(push(model, "f", "p4", moment=(1.2e9, 0, 0)))])
    looks = look_along(solution)
    at = int(np.argmin(np.abs(looks.rows - 1) * 10 + looks.fractions))
    tip = np.abs(looks.bimoments[at, 0] * made.warping / made.Cw).max()
    assert tip == pytest.approx(108.0, rel=0.002)
