"""From the model to blocks of six freedoms and straight elements, as arrays.

A block is a pair (part, point) of a frame or link, a whole rigid part, or a point of the body. Its freedoms
are displacement and rotation (ux, uy, uz, rx, ry, rz) in case axes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.compliance import section_compliance
from loadpath.model import BODY, TAPER_STATIONS, Material, Member, Model, Part
from sections import Section

Array = NDArray[np.float64]
Ints = NDArray[np.intp]


class Place(NamedTuple):
    """Where a point of a part sits: its block and the rigid lever (3,) [mm] from the block to the point."""

    block: int
    lever: Array


@dataclass(frozen=True, eq=False)
class Elements:
    """Straight elements between two blocks, one for each member segment.

    Attributes
    ----------
    part, member : names, (ne,) each.
    ends : (ne, 2) blocks. length : (ne,) [mm]. start : (ne,) distance from the member's first point [mm].
    frame : (ne, 3, 3) rows are the element axes x, y, z in case axes.
    offset : (ne, 2) y, z of the centroid from the node line [mm].
    compliance : (ne, 7, 6, 6) of the section about its centroid, at the stations.
    line_mass : (ne, 2) mass per length at both ends [t/mm].
    sections : for each element one section, or the seven of a tapered one.
    fixity : (ne, 2, 6) rates of both ends in element axes; inf where rigid.
    """

    part: tuple[str, ...]
    member: tuple[str, ...]
    ends: Ints
    length: Array
    start: Array
    frame: Array
    offset: Array
    compliance: Array
    line_mass: Array
    sections: tuple[tuple[Section, ...], ...]
    fixity: Array


@dataclass(frozen=True, eq=False)
class Mesh:
    """Blocks and elements.

    Attributes
    ----------
    owners : part of each block. names : point of each block, "" for a rigid part.
    positions : (nb, 3) [mm]. places : of every used (part, point), and of (part, "") for a rigid part itself.
    """

    owners: tuple[str, ...]
    names: tuple[str, ...]
    positions: Array
    places: Mapping[tuple[str, str], Place]
    elements: Elements


def build_mesh(model: Model) -> Mesh:
    """Blocks, places and elements of a model."""
    owners: list[str] = []
    names: list[str] = []
    positions: list[Array] = []
    places: dict[tuple[str, str], Place] = {}
    no_lever = np.zeros(3)

    def add_block(part: str, point: str, position: Array) -> int:
        owners.append(part)
        names.append(point)
        positions.append(position)
        return len(owners) - 1

    used = _used_points(model)
    for part in model.parts.values():
        if part.kind == "rigid":
            points = used.get(part.name, ())
            if not points:
                continue
            reference = np.mean([model.points[p] for p in points], axis=0)
            block = add_block(part.name, "", reference)
            places[part.name, ""] = Place(block, no_lever)
            for p in points:
                places[part.name, p] = Place(block, model.points[p] - reference)
            continue
        for p in _member_points(part):
            places[part.name, p] = Place(add_block(part.name, p, model.points[p]), no_lever)
        for bracket in part.brackets:
            carrier = places[part.name, bracket.carried_by].block
            lever = model.points[bracket.point] - positions[carrier]
            places[part.name, bracket.point] = Place(carrier, lever)
    for p in used.get(BODY, ()):
        places[BODY, p] = Place(add_block(BODY, p, model.points[p]), no_lever)
    return Mesh(
        owners=tuple(owners),
        names=tuple(names),
        positions=np.array(positions).reshape(-1, 3),
        places=places,
        elements=_elements(model, places),
    )


def _member_points(part: Part) -> dict[str, None]:
    return dict.fromkeys(p for member in part.members for p in member.path)


def _used_points(model: Model) -> dict[str, tuple[str, ...]]:
    """Points at which each part is joined, loaded or carries something, in order of first use."""
    used: dict[str, dict[str, None]] = {}

    def add(part: str, point: str) -> None:
        used.setdefault(part, {})[point] = None

    for joint in model.joints.values():
        for part in joint.between:
            add(part, joint.point)
    for element in model.force_elements.values():
        for part, point in zip(element.between, element.ends, strict=True):
            add(part, point)
    for wheel in model.wheels.values():
        add(wheel.part, wheel.centre)
    for mass in model.masses.values():
        add(mass.part, mass.point)
    return {part: tuple(points) for part, points in used.items()}


def element_frame(start: Array, end: Array, up: Array) -> Array:
    """(3, 3) rows x, y, z of a straight element: z is the part of `up` square to x, y = z × x."""
    x = (end - start) / np.linalg.norm(end - start)
    z = up - (up @ x) * x
    z = z / np.linalg.norm(z)
    return np.array([x, _cross(z, x), z])


def _cross(a: Array, b: Array) -> Array:
    return np.array([a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]])


_RIGID = np.full(6, np.inf)


def _elements(model: Model, places: Mapping[tuple[str, str], Place]) -> Elements:
    rows: list[tuple[str, Member, int]] = [
        (part.name, member, k)
        for part in model.parts.values()
        for member in part.members
        for k in range(len(member.path) - 1)
    ]
    n, ns = len(rows), len(TAPER_STATIONS)
    ends = np.zeros((n, 2), dtype=np.intp)
    frame, length, start = np.zeros((n, 3, 3)), np.zeros(n), np.zeros(n)
    offset, compliance, line_mass = np.zeros((n, 2)), np.zeros((n, ns, 6, 6)), np.zeros((n, 2))
    fixity = np.full((n, 2, 6), np.inf)
    known: dict[tuple[int, int], Array] = {}
    for e, (part, member, k) in enumerate(rows):
        p, q = member.path[k], member.path[k + 1]
        a, b = model.points[p], model.points[q]
        ends[e] = places[part, p].block, places[part, q].block
        frame[e] = element_frame(a, b, member.up)
        length[e] = np.linalg.norm(b - a)
        start[e] = start[e - 1] + length[e - 1] if k else 0.0
        offset[e] = member.offset
        compliance[e] = _compliances(member.sections[k], member.material, known)
        line_mass[e] = _line_mass(member.sections[k], member.material)
        fixity[e, 0] = member.ends[0].rates if k == 0 else _RIGID
        fixity[e, 1] = member.ends[1].rates if k == len(member.path) - 2 else _RIGID
    return Elements(
        part=tuple(part for part, _, _ in rows),
        member=tuple(member.name for _, member, _ in rows),
        ends=ends,
        length=length,
        start=start,
        frame=frame,
        offset=offset,
        compliance=compliance,
        line_mass=line_mass,
        sections=tuple(member.sections[k] for _, member, k in rows),
        fixity=fixity,
    )


def _compliances(
    sections: tuple[Section, ...], material: Material, known: dict[tuple[int, int], Array]
) -> Array:
    """(1 or 7, 6, 6) compliances at the stations, worked out once for each section and material."""
    found = []
    for section in sections:
        key = id(section), id(material)
        if key not in known:
            known[key] = section_compliance(section, material)
        found.append(known[key])
    return np.array(found)


def _line_mass(sections: tuple[Section, ...], material: Material) -> Array:
    """(2,) mass per length at both ends; of a tapered segment the best straight line through its areas."""
    areas = np.array([s.area for s in sections])
    if len(areas) > 1:
        slope, intercept = np.polyfit(TAPER_STATIONS, areas, 1)
        areas = np.array([intercept, intercept + slope])
    else:
        areas = np.repeat(areas, 2)
    return areas * material.density
