"""What tables of a section list: each property with its unit, and what is made of the section's materials."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from loadpath.model import Material, Model
from sections import Section

_NOTHING = 1e-7
"""A value under this part of what it could be is rounding, or an error of the elements, and shown as 0."""
_ROUND = 1e-6
"""I1 and I2 closer than this, and every axis is a principal one."""

STEEL = Material(
    name="steel",
    E=210_000.0,
    G=81_000.0,
    nu=0.3,
    density=7.85e-9,
    proof=None,
    ultimate=None,
    elongation=None,
    source="EN 1993-1-1 3.2.6 and EN 1991-1-1 table A.4 (from memory)",
    from_memory=True,
)
"""Assumed for a section that no member of the case uses."""


@dataclass(frozen=True)
class Property:
    """One property of a section.

    Attributes
    ----------
    value : None where it has no meaning. scales : True where a ratio of two of them means something; False for
        places and angles.
    """

    name: str
    unit: str
    value: float | None
    scales: bool = True


@dataclass(frozen=True)
class Use:
    """Members of the case that a section and materials of one stiffness and density make.

    Attributes
    ----------
    materials : names. material : the first of them. members : names. length : of prismatic stretches [mm].
    tapered : True where it is also one of the sections of a taper, which `length` leaves out.
    """

    materials: tuple[str, ...]
    material: Material
    members: tuple[str, ...]
    length: float
    tapered: bool

    @property
    def name(self) -> str:
        return " and ".join(self.materials)


def uses(model: Model, name: str) -> list[Use]:
    """Where a section of the case is used, by material; a steel that is assumed where it is not."""
    groups: dict[tuple[float, float, float], list[tuple[Material, str, float, bool]]] = {}
    for part in model.parts.values():
        for member in part.members:
            if name not in member.section_names:
                continue
            along = [
                float(np.linalg.norm(model.points[b] - model.points[a])) for a, b in pairwise(member.path)
            ]
            one = member.section_names * len(member.path) if len(member.section_names) == 1 else None
            whole = [set(pair) == {name} for pair in pairwise(one or member.section_names)]
            length = sum(run for run, own in zip(along, whole, strict=True) if own)
            grade = member.material
            label = part.name if part.kind == "link" else f"{part.name}.{member.name}"
            key = (grade.E, grade.G, grade.density)
            groups.setdefault(key, []).append((grade, label, length, not all(whole)))
    found = [_use(group) for group in groups.values()]
    return found or [Use((STEEL.name,), STEEL, (), 0.0, False)]


def _use(group: Sequence[tuple[Material, str, float, bool]]) -> Use:
    grades, labels, lengths, tapers = zip(*group, strict=True)
    names = tuple(dict.fromkeys(g.name for g in grades))
    return Use(names, grades[0], labels, sum(lengths), any(tapers))


def properties(section: Section, used: Sequence[Use]) -> list[Property]:
    """Every property in the order of the tables: geometry, then mass and stiffness in each material."""
    return [*_geometry(section), *(p for use in used for p in _in_material(section, use))]


def _geometry(section: Section) -> list[Property]:
    size = float(np.ptp(section.box, axis=0).max())
    polar = section.Iyy + section.Izz
    largest, smallest, angle = section.principal
    round_ = largest - smallest <= _ROUND * largest
    moduli = section.elastic_moduli
    area_y, area_z = (float(a) for a in 1 / np.diag(section.shear_tensor))
    return [
        Property("area", "mm²", section.area),
        *_place("centroid", section.centroid, size),
        *_place("shear centre", section.shear_centre, size),
        Property("Iyy", "mm⁴", section.Iyy),
        Property("Izz", "mm⁴", section.Izz),
        Property("Iyz", "mm⁴", _clean(section.Iyz, polar), scales=False),
        Property("I1", "mm⁴", largest),
        Property("I2", "mm⁴", smallest),
        Property("angle of I1 from y", "deg", None if round_ else _angle(angle), scales=False),
        Property("J", "mm⁴", section.J),
        Property("Cw", "mm⁶", _clean(section.Cw, polar * size**2)),
        Property("shear area y", "mm²", area_y),
        Property("shear area z", "mm²", area_z),
        Property("Wel y, top", "mm³", moduli["Wy_top"]),
        Property("Wel y, bottom", "mm³", moduli["Wy_bottom"]),
        Property("Wel z, right", "mm³", moduli["Wz_right"]),
        Property("Wel z, left", "mm³", moduli["Wz_left"]),
        Property("Wpl y", "mm³", section.Wpl_y),
        Property("Wpl z", "mm³", section.Wpl_z),
    ]


def _in_material(section: Section, use: Use) -> list[Property]:
    grade, name = use.material, use.name
    per_metre = section.mass_per_metre(grade.density * 1e12)
    found = [Property(f"mass in {name}", "kg/m", per_metre)]
    if use.length > 0:
        found.append(Property(f"mass of members in {name}", "kg", per_metre * use.length * 1e-3))
    return [
        *found,
        Property(f"E·Iyy in {name}", "kN·m²", grade.E * section.Iyy * 1e-9),
        Property(f"E·Izz in {name}", "kN·m²", grade.E * section.Izz * 1e-9),
        Property(f"G·J in {name}", "kN·m²", grade.G * section.J * 1e-9),
    ]


def _place(name: str, at: np.ndarray, size: float) -> list[Property]:
    return [
        Property(f"{name} {axis}", "mm", _clean(float(x), size), scales=False)
        for axis, x in zip("yz", at, strict=True)
    ]


def _clean(value: float, scale: float) -> float:
    return 0.0 if abs(value) < _NOTHING * scale else value


def _angle(radians: float) -> float:
    """Degrees over −90 up to 90: an axis has no direction."""
    degrees = _clean(float(np.degrees(radians)), 90.0)
    return degrees + 180.0 if degrees < -90.0 + 1e-6 else degrees
