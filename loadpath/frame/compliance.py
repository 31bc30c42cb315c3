"""The coupled 6 × 6 compliance of a section about its centroid."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Material
from sections import Section

Array = NDArray[np.float64]


def section_compliance(section: Section, material: Material) -> Array:
    """Strains of a section under its forces.

    (ε, γy, γz, κx, κy, κz) = C (N, Vy, Vz, T, My, Mz), forces at the centroid, right-handed moments;
    Timoshenko beam, Saint-Venant torsion about the shear centre, oblique principal axes.

    Returns
    -------
    (6, 6) [1/N, 1/(N·mm), 1/(N·mm²)], symmetric.
    """
    compliance = np.zeros((6, 6))
    compliance[0, 0] = 1.0 / (material.E * section.area)
    bending = np.array([[section.Iyy, -section.Iyz], [-section.Iyz, section.Izz]])
    compliance[4:, 4:] = np.linalg.inv(bending) / material.E
    compliance[1:3, 1:3] = section.shear_tensor / material.G
    y, z = section.shear_offset
    to_shear_centre = np.array([z, -y, 1.0])
    compliance[1:4, 1:4] += np.outer(to_shear_centre, to_shear_centre) / (material.G * section.J)
    return compliance
