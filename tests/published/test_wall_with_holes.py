"""Shear stiffness of a wall with a row of holes against plane-stress finite elements, set up here apart from the
library's method (numeric reference, no publication), and against the closed form of sparse holes."""

from __future__ import annotations

import numpy as np
import pytest
import skfem
from skfem.models.elasticity import linear_elasticity

from sections import Outline
from sections.geometry import circle
from sections.geometry.edits import hole_conductance
from sections.solid.mesh import triangulate

NU = 0.3


def shear_stiffness(diameter: float, width: float, pitch: float) -> float:
    """Of one pitch of the wall, over that of a wall without holes; its long edges move past each other, straight."""
    p, b = pitch / 2, width / 2
    outline = Outline([(-p, -b), (p, -b), (p, b), (-p, b)], (circle(diameter / 2, 32, "area"),))
    mesh = triangulate(outline)
    mesh = skfem.MeshTri(mesh.points.T.copy(), mesh.triangles.T.copy()).refined()
    basis = skfem.Basis(mesh, skfem.ElementVector(skfem.ElementTriP2()))
    shear = 1 / (2 * (1 + NU))
    matrix = linear_elasticity(NU / (1 - NU**2), shear).assemble(basis)
    x, z = basis.doflocs
    across = np.zeros(basis.N, dtype=bool)
    across[basis.nodal_dofs[1]] = across[basis.facet_dofs[1]] = True
    top, bottom, side = (np.abs(v) < 1e-6 * pitch for v in (z - b, z + b, np.abs(x) - p))
    moved = np.where(top & ~across, 1.0, 0.0)
    held = np.flatnonzero(top | bottom | (side & across))
    u = skfem.solve(*skfem.condense(matrix, np.zeros(basis.N), x=moved, D=held))
    return float(u @ (matrix @ u)) / (shear * pitch / width)


def by_strip(diameter: float, width: float, pitch: float) -> float:
    """The same by the equivalent strip in series with what is left of the wall."""
    return width / (width - diameter + 1 / hole_conductance(1.0, diameter, pitch))


@pytest.mark.parametrize("share", [0.1, 0.3, 0.5, 0.7])
@pytest.mark.parametrize("pitch", [1.5, 2.0, 3.0, 5.0])
def test_equivalent_strip_against_finite_elements(share, pitch):
    """At most 1 % high, 14 % low."""
    ratio = by_strip(share, 1.0, pitch * share) / shear_stiffness(share, 1.0, pitch * share)
    assert 0.86 < ratio < 1.01


def test_sparse_holes_closed_form():
    """Kachanov, effective moduli of a plate with few round holes (from memory): G/G* = 1 + 4 f/(1 + ν), f the
    share of the holes in the area."""
    d, width, pitch = 1.0, 50.0, 100.0
    f = np.pi * d**2 / 4 / (width * pitch)
    assert 1 / by_strip(d, width, pitch) - 1 == pytest.approx(4 * f / (1 + NU), rel=1e-3)
