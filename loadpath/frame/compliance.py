"""The coupled 6 × 6 compliance of a section about its centroid."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Material
from sections import Section

Array = NDArray[np.float64]


def section_compliances(pairs: Sequence[tuple[Section, Material, float]]) -> Array:
    """Strains of sections under their forces, for a section, its material and the ease of its twist each.

    (ε, γy, γz, κx, κy, κz) = C (N, Vy, Vz, T, My, Mz), forces at the centroid, right-handed moments;
    Timoshenko beam, Saint-Venant torsion about the shear centre, oblique principal axes. The ease of twist is 1,
    or less where held warping stiffens an open member.

    Returns
    -------
    (n, 6, 6) [1/N, 1/(N·mm), 1/(N·mm²)], symmetric.
    """
    figures = [(s.area, s.Iyy, s.Izz, s.Iyz, s.J / ease, *s.shear_offset, m.E, m.G) for s, m, ease in pairs]
    area, iyy, izz, iyz, torsion, y, z, e, g = np.array(figures).reshape(-1, 9).T
    c = np.zeros((len(area), 6, 6))
    c[:, 0, 0] = 1.0 / (e * area)
    determinant = e * (iyy * izz - iyz**2)
    c[:, 4, 4], c[:, 5, 5] = izz / determinant, iyy / determinant
    c[:, 4, 5] = c[:, 5, 4] = iyz / determinant
    shear = np.array([s.shear_tensor for s, _, _ in pairs]).reshape(-1, 2, 2)
    c[:, 1:3, 1:3] = shear / g[:, None, None]
    to_shear_centre = np.stack([z, -y, np.ones_like(y)], axis=1)
    about = to_shear_centre[:, :, None] * to_shear_centre[:, None, :]
    c[:, 1:4, 1:4] += about / (g * torsion)[:, None, None]
    return c
