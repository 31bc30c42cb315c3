"""Plastic section resistance for the class `abuse`: no separation, some permanent set.

Axial force with both bending moments by the section's limit surface of full plasticity (EN 1993-1-1 6.2.9 by
equilibrium), for sections of class 1 and 2. With a the yield stress that this asks for,

    utilisation = sqrt((a + |σω|)² + 3 τ²)/fy

where τ is the largest elastic shear stress and σω the largest elastic warping stress of the section: both are taken
at the worst point and at once, which is on the safe side (shear by von Mises as a yield stress reduced all over, EN
1993-1-1 6.2.8; warping as a part of the section's strength that is used up). It grows in proportion to the loads.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.checks.buckling import LEAST_STEEL_E
from loadpath.model import Material
from sections import Section
from sections.plates import Rules, section_class, wall_limits

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

LEAST_ELONGATION = 5.0
"""[%] below which a material gets no plastic allowance (common practice, no source)."""


def plate_rules(material: Material) -> Rules:
    """Which standard's limits hold for its thin walls."""
    return "steel" if material.E >= LEAST_STEEL_E else "aluminium"


@dataclass(frozen=True, eq=False)
class Demand:
    """What force columns (m,) ask of a fully plastic section.

    Attributes
    ----------
    stress : (m,) yield stress [MPa] at which they are just carried.
    number : (m,) section class, 1 where no walls are known. plate : (m,) the one of the section's `plates` that
        decides it.
    """

    stress: Array
    number: Ints
    plate: Ints


def plastic_demand(section: Section, material: Material, forces: Array, bimoments: Array) -> Demand:
    """Demand of force columns (6, m) with bimoments (m,) [N·mm²].

    Raises
    ------
    ValueError : where the section's geometry is not known.
    """
    surface = section.plastic_surface
    if surface is None:
        raise ValueError("no plastic resistance without the section's geometry")
    bending, field = surface.reached(forces[[0, 4, 5]])
    if bimoments.any():
        bending = bending + np.abs(bimoments) * float(np.abs(section.warping).max()) / (
            section.Cw * section.weakest
        )
    tau = section.stresses(forces * np.array([0.0, 1, 1, 1, 0, 0])[:, None])[:, 1:]
    squared = (tau**2).sum(axis=1)
    if len(section.strength):
        squared = squared / section.strength[:, None] ** 2
    stress = np.sqrt(bending**2 + 3 * squared.max(axis=0, initial=0.0))
    return Demand(stress, *_class(section, material, forces, bimoments, field))


def _class(
    section: Section, material: Material, forces: Array, bimoments: Array, field: Array
) -> tuple[Ints, Ints]:
    """(m,) section class with the neutral line of `field` (3, m), and the plate that decides it."""
    m = forces.shape[1]
    if not section.plates or material.proof is None:
        return np.ones(m, dtype=np.intp), np.zeros(m, dtype=np.intp)
    elastic = section.plate_stress(forces, bimoments)
    places = np.array([[part.start, part.stop] for part in section.plates]) - section.centroid
    plastic = field[0] + places @ field[1:]
    rules = plate_rules(material)
    classes = section_class(section.plates, elastic, plastic, material.proof, material.E, rules)
    # Of several in the highest class the one that is nearest to buckling, or furthest beyond it.
    near = wall_limits(section.plates, elastic, material.E, rules)
    worst = (classes + near / (1 + near)).argmax(axis=0)
    return classes[worst, np.arange(m)], worst
