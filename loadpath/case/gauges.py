"""Warnings where a section is thicker or thinner than the strength figures of its grade hold for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from loadpath.materials import UnknownGrade, grade
from loadpath.model import Model
from sections import Shape
from sections.fields import parameters_of


def thickness_warnings(shapes: Mapping[str, Shape], model: Model) -> Iterator[str]:
    """One warning for each section and built-in grade that do not go together."""
    pairs = {
        (name, member.material.name): None
        for part in model.parts.values()
        for member in part.members
        for name in member.section_names
    }
    for section, material in pairs:
        try:
            known = grade(material)
        except UnknownGrade:
            continue
        least, most = known.thickness
        for key, value in _thicknesses(shapes[section]).items():
            if (least is not None and value < least) or (most is not None and value > most):
                limits = f"{least or 0:g} to {most:g} mm" if most is not None else f"{least:g} mm and more"
                yield (
                    f"sections.{section}.{key}: {value:g} mm, but strength and elongation of {material} are those "
                    f"for {limits} ({known.standard})"
                )


def _thicknesses(shape: Shape) -> dict[str, float]:
    """The thicknesses that a shape declares, by key."""
    found = {}
    for declared in parameters_of(shape):
        value = getattr(shape, declared.name)
        if declared.metadata.get("thickness") and value is not None:
            found[declared.name] = float(value)
    return found
