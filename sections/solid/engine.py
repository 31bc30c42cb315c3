"""From an outline to a section: properties, and stress at its surface."""

from __future__ import annotations

import numpy as np

from sections.errors import Fault, ShapeError
from sections.geometry.outline import Outline, area_integrals
from sections.plastic.rings import plastic_modulus
from sections.result import Section, warping_dies_out
from sections.solid.fem import solve_fem
from sections.solid.mesh import triangulate
from sections.solid.stress import surface_stress


def outline_section(outline: Outline, nu: float = 0.3) -> Section:
    """Properties and surface stress of a section by its outline.

    Area, centroid, second moments and plastic moduli are exact for the polygon; torsion and shear come from
    quadratic finite elements. The shear centre is Trefftz's, which does not depend on Poisson's ratio and
    decouples torsion from shear.

    Parameters
    ----------
    nu : Poisson's ratio, above −1 and at most 0.5; it moves the shear tensor and shear stress of wide shapes.

    Notes
    -----
    Stress is reported at the surface: at the middle of boundary edges, a few on each side, and at sharp convex
    corners. At a sharp re-entrant corner theory has no finite shear stress: none is reported there nor nearer than
    a quarter of the local wall. In solid shapes the largest transverse shear may lie inside (1.38 V/A at the
    middle of a circle against 1.23 at its edge).

    Raises
    ------
    ShapeError : corners too sharp to be meshed, or stresses that fail to balance unit forces by 1e-6.
    ValueError : Poisson's ratio out of range.
    """
    if not -1 < nu <= 0.5:
        raise ValueError(f"Poisson's ratio = {nu}: must be above -1 and at most 0.5")
    area = area_integrals(outline.rings)
    mesh = triangulate(outline)
    field = solve_fem(mesh, area, nu)
    if not np.allclose(field.forces, np.eye(3, 2), rtol=0, atol=1e-6):
        raise ShapeError(
            "outline", [Fault("", "", "its shear stresses do not balance the forces; check its points")]
        )
    points, stress, warping = surface_stress(mesh.boundary, area, field, nu)
    (Izz, Iyz), (_, Iyy) = area.inertia
    return Section(
        engine="outline",
        area=area.area,
        centroid=area.centroid,
        Iyy=float(Iyy),
        Izz=float(Izz),
        Iyz=float(Iyz),
        J=field.J,
        Cw=field.Cw,
        shear_centre=area.centroid + field.shear_offset,
        shear_tensor=field.shear_tensor,
        Wpl_y=plastic_modulus(outline.rings),
        Wpl_z=plastic_modulus([ring[:, ::-1] * [-1.0, 1.0] for ring in outline.rings]),
        closed=warping_dies_out(field.Cw, field.J, float(Iyy + Izz), area.area),
        box=outline.box,
        points=points,
        stress=stress,
        warping=warping,
        rings=outline.rings,
    )
