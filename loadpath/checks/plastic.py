"""Plastic section resistance for the class `abuse`: no separation, some permanent set.

Linear summation of axial force and bending moments, EN 1993-1-1 6.2.1(7) with plastic resistances, the yield
stress reduced for shear by von Mises (the largest elastic shear stress is taken, which is on the safe side):

    |N|/(A fy ρ) + |My|/(Wpl,y fy ρ) + |Mz|/(Wpl,z fy ρ) <= 1,    ρ² = 1 − 3 (τ/fy)²

At the limit this is the same as a² + 3 (τ/fy)² = 1 with a the unreduced sum, so that

    utilisation = sqrt(a² + 3 (τ/fy)²)

grows in proportion to the loads.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from sections import Section

Array = NDArray[np.float64]

LEAST_ELONGATION = 5.0
"""[%] below which a material gets no plastic allowance."""

_OBLIQUE = 0.02


def plastic_applies(section: Section) -> bool:
    """Whether the section's y and z are axes of symmetry or close to it, so that Wpl,y and Wpl,z apply."""
    return abs(section.Iyz) <= _OBLIQUE * min(section.Iyy, section.Izz)


def plastic_utilisation(section: Section, forces: Array, yield_stress: float) -> Array:
    """(m,) utilisation of the plastic section resistance for force columns (6, m)."""
    normal, _, _, _, my, mz = np.abs(forces)
    a = normal / section.area + my / section.Wpl_y + mz / section.Wpl_z
    shear = np.array([0, 1, 1, 1, 0, 0]) * section.stress[:, 1:, :]
    tau = np.einsum("pkf,fm->pkm", shear, forces)
    largest = (tau**2).sum(axis=1).max(axis=0, initial=0.0)
    utilisation: Array = np.sqrt(a**2 + 3 * largest) / yield_stress
    return utilisation
