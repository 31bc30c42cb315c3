"""Strain energy: its parts add up, and all of it is half the work from outside (Clapeyron)."""

import numpy as np
import pytest
from random_modules import STEEL, random_cases, random_module, skew_section
from small_models import bare_section, build, case, frame, member, push

from loadpath.frame import section_forces, solve
from loadpath.model import STATION_WEIGHTS, EndFixity
from loadpath.trace import strain_energies


@pytest.mark.parametrize("seed", range(8))
def test_clapeyron_on_random_modules(seed):
    """Half the work of the loads is the energy of members, bushings and body together.

    The damper's given push works too: it is among the loads on the blocks.
    """
    model = random_module(seed)
    solution = solve(model, random_cases(model, seed, still=True))
    work = 0.5 * (solution.loads * solution.movement).sum(axis=(0, 1))
    assert strain_energies(solution).total == pytest.approx(work, rel=1e-9)


@pytest.mark.parametrize("seed", range(4))
def test_the_split_is_the_whole(seed):
    """Axial, bending, torsion and shear add up to ½ ∫ Sᵀ C S, couplings of a skew section included."""
    model = random_module(seed)
    solution = solve(model, random_cases(model, seed))
    elements, s = solution.system.mesh.elements, section_forces(solution)
    c = elements.compliances[elements.section_at]
    whole = 0.5 * np.einsum(
        "s,e,esic,esij,esjc->ec", STATION_WEIGHTS, elements.length, s, c, s, optimize=True
    )
    energies = strain_energies(solution)
    assert energies.elements.sum(axis=1) == pytest.approx(whole, rel=1e-10, abs=1e-12)
    assert energies.elements.min() > -1e-9


def test_semi_rigid_ends_and_the_work_on_them():
    rng = np.random.default_rng(3)
    ends = (EndFixity((np.inf, 4e4, 5e4, np.inf, 3e7, 2e7)), EndFixity((np.inf,) * 3 + (0.0, 5e7, np.inf)))
    leg = member("leg", ("a", "b"), skew_section(rng), STEEL, ends=ends)
    beam = member("beam", ("b", "c"), skew_section(rng), STEEL)
    points = {"a": (0, 0, 0), "b": (300, 40, 20), "c": (700, -60, 90)}
    model = build(points, [frame("f", leg, beam)], supports={"a": ("f", "welded"), "c": ("f", "welded")})
    solution = solve(model, [case(push(model, "f", "b", (3e3, -5e3, 8e3), (2e5, 1e5, -3e5)))])
    energies = strain_energies(solution)
    work = 0.5 * (solution.loads * solution.movement).sum()
    assert energies.total[0] == pytest.approx(work, rel=1e-9)
    assert energies.ends[0, 0] > 0.01 * work
    assert energies.ends[1, 0] == 0


def test_twisting_about_the_shear_centre_is_torsion_alone():
    """A torque on a cantilever with the shear centre off the centroid makes no bending and no shear."""
    section = bare_section(900, 4e5, 2e5, 3e5, shear_areas=(400, 300), shear_centre=(-12.0, 7.0))
    model = build(
        {"a": (0, 0, 0), "b": (500, 0, 0)},
        [frame("f", member("m", ("a", "b"), section))],
        supports={"a": ("f", "welded")},
    )
    solution = solve(model, [case(push(model, "f", "b", moment=(1e6, 0, 0)))])
    axial, bending, torsion, shear = strain_energies(solution).elements[0, :, 0]
    assert (axial, bending, shear) == pytest.approx((0, 0, 0), abs=1e-9 * torsion)
    assert torsion == pytest.approx(1e12 * 500 / (2 * 210000 / 2.6 * 3e5), rel=1e-9)
