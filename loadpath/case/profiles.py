"""Sections of members: each distinct shape is worked out once and shared as one object."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Any

from loadpath.case.declare import items
from loadpath.case.errors import Log
from loadpath.case.words import join, tell_faults
from loadpath.model import TAPER_STATIONS, Material
from sections import Section, Shape, ShapeError, notes_of, of_material, section

Segments = tuple[tuple[Section, ...], ...]


@dataclass(eq=False)
class Profiles:
    """Makes sections of the shapes of a case.

    Attributes
    ----------
    shapes : by name. twins : names of generated twins, whose sections are reflected.
    """

    shapes: Mapping[str, Shape]
    twins: frozenset[str]
    log: Log
    _made: dict[Hashable, Section | None] = field(default_factory=dict)
    _reflected: dict[int, Section] = field(default_factory=dict)

    def segments(
        self, names: tuple[str, ...], count: int, material: Material, reflect: bool, path: str
    ) -> Segments | None:
        """Sections of each of `count` segments: one where it is prismatic, one a station where it tapers.

        Parameters
        ----------
        names : one, or one for each point of the path.
        material : of the member; some shapes depend on its Poisson's ratio or shear modulus.
        reflect : for the member of a generated twin, whose y axis runs the other way (see `reflect`).
        path : key path of the names.

        Returns
        -------
        None where a shape is faulty; the log has been told why.
        """
        if any(n not in self.shapes for n in names):
            return None
        reflect = reflect or any(n in self.twins for n in names)
        ends = list(pairwise(names)) if len(names) > 1 else [(names[0], names[0])] * count
        for name in dict.fromkeys(names):
            self._tell_notes(name, material)
        found = [self._segment(first, last, material, reflect, path) for first, last in ends]
        good = tuple(one for one in found if one is not None)
        return good if len(good) == count else None

    def _tell_notes(self, name: str, material: Material) -> None:
        if name in self.twins:
            return
        for note in notes_of(of_material(self.shapes[name], material.nu, material.G)):
            told = f"{join('sections', name)}: {note}"
            if told not in self.log.warnings:
                self.log.warnings.append(told)

    def _segment(
        self, first: str, last: str, material: Material, reflect: bool, path: str
    ) -> tuple[Section, ...] | None:
        a, b = self.shapes[first], self.shapes[last]
        shapes = [(a, join("sections", first)), (b, join("sections", last))]
        if _key(a) == _key(b):
            shapes = shapes[:1]
        else:
            inner = self._between(a, b, f"{first} and {last}", path)
            if not inner:
                return None
            shapes[1:1] = [(s, path) for s in inner]
        found = [self._section(shape, material, reflect, place) for shape, place in shapes]
        good = tuple(s for s in found if s is not None)
        return good if len(good) == len(shapes) else None

    def _between(self, a: Any, b: Any, names: str, path: str) -> list[Shape]:
        """Shapes at the inner stations of a taper: lengths in proportion, all else the same.

        Empty, and a mistake, where the shapes do not fit together.
        """
        if type(a) is not type(b):
            self.log.mistake(path, f"{names} are of different shapes", "one shape all along a tapered member")
            return []
        pairs = {i.name: (getattr(a, i.name), getattr(b, i.name)) for i in items(type(a))}
        changing = {n: (x, y) for n, (x, y) in pairs.items() if x != y}
        fixed = [n for n, (x, y) in changing.items() if not isinstance(x, float) or not isinstance(y, float)]
        if fixed:
            expected = "lengths that differ, all else the same"
            self.log.mistake(path, f"{names} differ in {fixed[0]}, which cannot taper", expected)
            return []
        try:
            return [
                replace(a, **{n: round(x + (y - x) * t, 9) for n, (x, y) in changing.items()})
                for t in TAPER_STATIONS[1:-1].tolist()
            ]
        except ShapeError as error:
            tell_faults(error, path, type(a), self.log)
            return []

    def _section(self, shape: Shape, material: Material, reflect: bool, path: str) -> Section | None:
        shape = of_material(shape, material.nu, material.G)
        key = (_key(shape), material.nu if shape.serves == "outline" else None)
        if key not in self._made:
            self._made[key] = self._work_out(shape, material.nu, path)
        made = self._made[key]
        if made is None or not reflect:
            return made
        if id(made) not in self._reflected:
            self._reflected[id(made)] = made.mirrored()
        return self._reflected[id(made)]

    def _work_out(self, shape: Shape, nu: float, path: str) -> Section | None:
        try:
            return section(shape, nu)
        except ShapeError as error:
            tell_faults(error, path, type(shape), self.log)
            return None


def _key(shape: object) -> Hashable:
    """What makes a shape: equal keys, equal sections."""
    return (type(shape), *(getattr(shape, i.name) for i in items(type(shape))))
