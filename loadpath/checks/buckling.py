"""Column buckling of links under compression.

A link between two joints that let it turn is a column pinned at both ends, its system length the distance of the
joints. EN 1993-1-1 6.3.1 with buckling curve c (cold-formed tube, solid bar); aluminium by EN 1999-1-1 6.3.1.2,
buckling class B (parameters from memory). Axial force alone; gamma_M1 = 1.0. Members of frames have no system
length of their own: they are not checked here, and said to be.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from loadpath.checks.analysis import Analysis, Stretch
from loadpath.checks.row import CheckRow, judge
from loadpath.model import Material
from sections import Section

Array = NDArray[np.float64]

KIND = "column buckling"
LEAST_SHARE = 0.01
"""Share of the resistance under which compression is not worth a row."""
LEAST_STEEL_E = 120_000.0
"""[MPa] from which rules for steel are used, those for aluminium below."""


def reduction_factor(slenderness: Array | float, imperfection: float, plateau: float = 0.2) -> Array:
    """Buckling reduction factor chi of EN 1993-1-1 6.3.1.2 (1), with curve c imperfection = 0.49.

    slenderness : relative, sqrt(A fy/Ncr). plateau : 0.2 for steel; EN 1999-1-1 has others for aluminium.
    """
    relative = np.asarray(slenderness, dtype=float)
    phi = 0.5 * (1 + imperfection * (relative - plateau) + relative**2)
    chi = 1 / (phi + np.sqrt(np.maximum(phi**2 - relative**2, 0.0)))
    factor: Array = np.minimum(chi, 1.0)
    return factor


def euler_load(E: float, section: Section, length: float) -> float:
    """Critical load [N] of a column pinned at both ends, about its weaker principal axis."""
    return float(np.pi**2 * E * section.principal[1] / length**2)


def check_link_buckling(analysis: Analysis) -> Iterator[CheckRow]:
    """One row for each link and load case that puts it under compression."""
    for stretch in analysis.members:
        if not pinned_link(analysis, stretch):
            continue
        for c in analysis.shown:
            row = _row(analysis, stretch, c)
            if row is not None:
                yield row


def pinned_link(analysis: Analysis, stretch: Stretch) -> bool:
    """Whether a member is a link of one section between joints that let it turn."""
    if stretch.part.kind != "link" or any(len(chain) > 1 for chain in stretch.member.sections):
        return False
    own = [j for j in analysis.model.joints.values() if stretch.part.name in j.between]
    return all(j.kind in ("ball", "hinge", "bushing") for j in own)


def _row(analysis: Analysis, stretch: Stretch, c: int) -> CheckRow | None:
    solved, k = analysis.at(c)
    at = np.isin(solved.looks.rows, stretch.elements)
    compression = float(-solved.looks.forces[at, 0, k].min())
    section, material = stretch.member.sections[0][0], stretch.member.material
    case = analysis.cases[c]
    if material.proof is None or case.cls == "repeated":
        return None
    length = float(analysis.elements.length[stretch.elements].sum())
    critical = euler_load(material.E, section, length)
    squash = section.area * material.proof * section.weakest
    curve = _curve(material)
    resistance = squash * float(reduction_factor(np.sqrt(squash / critical), *curve[:2]))
    utilisation = compression / resistance
    if utilisation < LEAST_SHARE:
        return None
    return CheckRow(
        kind=KIND,
        subject=stretch.part.name,
        place=f"{length:.0f} mm long, Euler load {critical / 1e3:.1f} kN",
        case=case.name,
        demand=compression / 1e3,
        allowable=resistance / 1e3,
        unit="kN",
        utilisation=utilisation,
        verdict=judge(utilisation),
        basis=curve[2],
        reason="axial force alone, pinned at both ends",
    )


def _curve(material: Material) -> tuple[float, float, str]:
    """Imperfection, plateau and their source."""
    if material.E >= LEAST_STEEL_E:
        return 0.49, 0.2, "EN 1993-1-1 6.3.1, buckling curve c, gamma_M1 = 1.0, pinned at both ends"
    return (
        0.32,
        0.0,
        "EN 1999-1-1 6.3.1.2, buckling class B (from memory), gamma_M1 = 1.0, pinned at both ends",
    )
