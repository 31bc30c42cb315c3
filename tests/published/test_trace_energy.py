"""Strain energy by closed forms: cantilevers, and a portal by hand from Kleinlogel's moments.

Timoshenko, Strength of Materials, part I, ch. 11; Kleinlogel, Rigid frame formulas (both from memory; the integrals
are written out here).
"""

import numpy as np
import pytest
from small_models import STEEL_E, STEEL_G, bare_section, build, case, frame, joint, member, push

from loadpath.frame import solve
from loadpath.model import BushingRates, LineLoad, Part, curve_through
from loadpath.trace import SPLIT, strain_energies

AREA, IYY, TORSION, SHEAR = 900.0, 5e5, 3e5, 450.0
SPAN = 700.0
BAR = bare_section(AREA, IYY, IYY, TORSION, shear_areas=(SHEAR, SHEAR))
INEXTENSIBLE = bare_section(1e8, IYY, IYY, TORSION)


def cantilever(*loads, lines=()):
    model = build(
        {"a": (0, 0, 0), "b": (SPAN, 0, 0)},
        [frame("f", member("m", ("a", "b"), BAR))],
        supports={"a": ("f", "welded")},
    )
    made = [push(model, "f", "b", *load) for load in loads]
    energies = strain_energies(solve(model, [case(*made, line_loads=lines)]))
    return dict(zip(SPLIT, energies.elements[0, :, 0], strict=True))


def test_each_action_has_its_own_energy():
    """N²L/2EA, P²L³/6EI + P²L/2GA_s, T²L/2GJ."""
    n, p, t = 2e4, 3e3, 5e5
    found = cantilever(((n, 0, p), (t, 0, 0)))
    assert found["axial"] == pytest.approx(n**2 * SPAN / (2 * STEEL_E * AREA), rel=1e-9)
    assert found["bending"] == pytest.approx(p**2 * SPAN**3 / (6 * STEEL_E * IYY), rel=1e-9)
    assert found["shear"] == pytest.approx(p**2 * SPAN / (2 * STEEL_G * SHEAR), rel=1e-9)
    assert found["torsion"] == pytest.approx(t**2 * SPAN / (2 * STEEL_G * TORSION), rel=1e-9)


def test_a_uniform_load_on_a_cantilever():
    """w²L⁵/40EI in bending, w²L³/6GA_s in shear."""
    w = 4.0
    found = cantilever(lines=(LineLoad("f", "m", np.array([0, w, 0]), "w"),))
    assert found["bending"] == pytest.approx(w**2 * SPAN**5 / (40 * STEEL_E * IYY), rel=1e-9)
    assert found["shear"] == pytest.approx(w**2 * SPAN**3 / (6 * STEEL_G * SHEAR), rel=1e-9)


def portal(height, span):
    points = {"n1": (0, 0, 0), "n2": (0, 0, height), "n3": (span, 0, height), "n4": (span, 0, 0)}
    up = (0, 1, 0)
    members = [
        member(n, path, INEXTENSIBLE, up=up)
        for n, path in (("left", ("n1", "n2")), ("beam", ("n2", "n3")), ("right", ("n4", "n3")))
    ]
    return build(
        points, [frame("portal", *members)], supports={"n1": ("portal", "welded"), "n4": ("portal", "welded")}
    )


@pytest.mark.parametrize(("height", "span"), [(300.0, 400.0), (500.0, 350.0)])
def test_energy_shares_of_a_portal_by_hand(height, span):
    """Fixed feet, side force F at a corner: M1 = F h/2 (3k + 1)/(6k + 1), M2 = F h/2 · 3k/(6k + 1), k = h/L.

    The moment runs straight from M1 at a foot to −M2 at the corner and from M2 to −M2 along the beam, and the
    integral of a straight line from a to b over a length l is l (a² + a b + b²)/3.
    """
    force = 1e4
    model = portal(height, span)
    solution = solve(model, [case(push(model, "portal", "n2", (force, 0, 0)))])
    k = height / span
    foot, corner = force * height / 2 * np.array([3 * k + 1, 3 * k]) / (6 * k + 1)
    column = height * (foot**2 - foot * corner + corner**2) / 3 / (2 * STEEL_E * IYY)
    beam = span * corner**2 / 3 / (2 * STEEL_E * IYY)
    energies = strain_energies(solution)
    members = dict(
        zip(solution.system.mesh.elements.member, energies.elements.sum(axis=1)[:, 0], strict=True)
    )
    assert members["left"] == pytest.approx(column, rel=1e-6)
    assert members["right"] == pytest.approx(column, rel=1e-6)
    assert members["beam"] == pytest.approx(beam, rel=1e-6)
    block = solution.system.mesh.places["portal", "n2"].block
    work = 0.5 * force * solution.movement[block, 0, 0]
    assert sum(members.values()) == pytest.approx(work, rel=1e-8)
    share = beam / (2 * column + beam)
    assert members["beam"] / energies.total[0] == pytest.approx(share, rel=1e-6)


def test_energy_of_a_cubic_bushing():
    """F = k1 x + k3 x³ with k1 = 1000 N/mm, k3 = 50 N/mm³ under 6000 N: x by Cardano, k1 x²/2 + k3 x⁴/4. 1e-6."""
    x = np.linspace(-6, 6, 2401)
    law = curve_through(x, 1000 * x + 50 * x**3)
    rates = BushingRates(1000, (1e3, 1e3), 1e6, (1e6, 1e6), curves=(law, *[None] * 5))
    bushing = joint("k", "bushing", "a", "body", "p", (1, 0, 0), rates)
    model = build({"p": (0, 0, 0)}, [Part("a", "rigid")], [bushing])
    solution = solve(model, [case(push(model, "a", "p", (f, 0, 0))) for f in (6000, -6000)])
    moved = solution.movement[solution.system.mesh.places["a", "p"].block, 0]
    assert moved == pytest.approx([3.622731111712, -3.622731111712], rel=1e-6)
    assert strain_energies(solution).joints[0] == pytest.approx([8715.1418, 8715.1418], rel=1e-6)
