"""Local buckling of the walls of a section: flat widths, classes, effective section. Takes numbers, not materials.

Distortional buckling (a lip that moves with its flange) and shear buckling are out: neither is judged here.
"""

from sections.plates.buckling import (
    Edge,
    buckling_factor,
    buckling_stress,
    effective_ends,
    reduction,
    slenderness,
)
from sections.plates.classes import Rules, section_class, wall_limits
from sections.plates.effective import EffectiveSection, effective_section
from sections.plates.parts import PlatePart, plate_parts

__all__ = [
    "Edge",
    "EffectiveSection",
    "PlatePart",
    "Rules",
    "buckling_factor",
    "buckling_stress",
    "effective_ends",
    "effective_section",
    "plate_parts",
    "reduction",
    "section_class",
    "slenderness",
    "wall_limits",
]
