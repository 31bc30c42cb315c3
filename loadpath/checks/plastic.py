"""Plastic section resistance for the class `abuse`: no separation, some permanent set.

Axial force with both bending moments by the section's limit surface of full plasticity (EN 1993-1-1 6.2.9 by
equilibrium), for sections of class 1 and 2. With a the yield stress that this asks for,

    utilisation = sqrt((a + |σω|)² + 3 τ²)/fy

where τ is the largest elastic shear stress and σω the largest elastic warping stress of the section: both are taken
at the worst point and at once, which is on the safe side (shear by von Mises as a yield stress reduced all over, EN
1993-1-1 6.2.8; warping as a part of the section's strength that is used up). It grows in proportion to the loads.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loadpath.checks.buckling import LEAST_STEEL_E
from loadpath.model import Material
from sections import Section
from sections.plates import Rules, section_class

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

LEAST_ELONGATION = 5.0
"""[%] below which a material gets no plastic allowance."""


def plate_rules(material: Material) -> Rules:
    """Which standard's limits hold for its thin walls."""
    return "steel" if material.E >= LEAST_STEEL_E else "aluminium"


def plastic_stress(section: Section, forces: Array, bimoments: Array) -> Array:
    """(m,) yield stress [MPa] at which force columns (6, m) with bimoments (m,) are just carried.

    Raises
    ------
    ValueError : where the section's geometry is not known.
    """
    surface = section.plastic_surface
    if surface is None:
        raise ValueError("no plastic resistance without the section's geometry")
    bending = surface.utilisation(forces[[0, 4, 5]])
    if bimoments.any():
        bending = bending + np.abs(bimoments) * float(np.abs(section.warping).max()) / (
            section.Cw * section.weakest
        )
    tau = section.stresses(forces * np.array([0.0, 1, 1, 1, 0, 0])[:, None])[:, 1:]
    squared = (tau**2).sum(axis=1)
    if len(section.strength):
        squared = squared / section.strength[:, None] ** 2
    largest = squared.max(axis=0, initial=0.0)
    found: Array = np.sqrt(bending**2 + 3 * largest)
    return found


def worst_class(section: Section, material: Material, forces: Array, bimoments: Array) -> tuple[Ints, Ints]:
    """(m,) section class under each force column, and the plate that decides it; class 1 where no walls are known."""
    m = forces.shape[1]
    surface = section.plastic_surface
    if not section.plates or surface is None or material.proof is None:
        return np.ones(m, dtype=np.intp), np.zeros(m, dtype=np.intp)
    elastic = section.plate_stress(forces, bimoments)
    a, b, c = surface.neutral_field(forces[[0, 4, 5]])
    places = np.array([[part.start, part.stop] for part in section.plates]) - surface.centroid
    plastic = a + places[..., :1] * b + places[..., 1:] * c
    classes = section_class(
        section.plates, elastic, plastic, material.proof, material.E, plate_rules(material)
    )
    worst = classes.argmax(axis=0)
    return classes[worst, np.arange(m)], worst
