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

from loadpath.frame.compliance import section_compliances
from loadpath.frame.warping import decay, held_ends, twist_share, warping_section
from loadpath.model import BODY, STATION_WEIGHTS, TAPER_STATIONS, Material, Member, Model, Part, segment_axes
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
    different : the different sections (nd), each with one material and ease of twist.
    compliances : (nd, 6, 6) about their centroids. section_at : (ne, 7) which of them holds at each station.
    line_mass : (ne, 2) mass per length at both ends [t/mm].
    fixity : (ne, 2, 6) rates of both ends in element axes; inf where rigid.
    twist : (ne, 6) movement of end j against end i carried along rigidly, element axes, that the pose has put in.
    """

    part: tuple[str, ...]
    member: tuple[str, ...]
    ends: Ints
    length: Array
    start: Array
    frame: Array
    offset: Array
    different: tuple[Section, ...]
    compliances: Array
    section_at: Ints
    line_mass: Array
    fixity: Array
    twist: Array


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
            reference = np.mean([model.at(part.name, p) for p in points], axis=0)
            block = add_block(part.name, "", reference)
            places[part.name, ""] = Place(block, no_lever)
            for p in points:
                places[part.name, p] = Place(block, model.at(part.name, p) - reference)
            continue
        for p in _member_points(part):
            places[part.name, p] = Place(add_block(part.name, p, model.at(part.name, p)), no_lever)
        for bracket in part.brackets:
            carrier = places[part.name, bracket.carried_by].block
            lever = model.at(part.name, bracket.point) - positions[carrier]
            places[part.name, bracket.point] = Place(carrier, lever)
    for p in used.get(BODY, ()):
        places[BODY, p] = Place(add_block(BODY, p, model.at(BODY, p)), no_lever)
    where = np.array(positions).reshape(-1, 3)
    return Mesh(tuple(owners), tuple(names), where, places, _elements(model, places, where))


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


_RIGID = (np.inf,) * 6


def _elements(model: Model, places: Mapping[tuple[str, str], Place], positions: Array) -> Elements:
    rows: list[tuple[str, Member, int]] = [
        (part.name, member, k)
        for part in model.parts.values()
        for member in part.members
        for k in range(len(member.path) - 1)
    ]
    ends = np.array(
        [(places[part, m.path[k]].block, places[part, m.path[k + 1]].block) for part, m, k in rows],
        dtype=np.intp,
    ).reshape(-1, 2)
    up = np.array([m.up_of(k) for _, m, k in rows]).reshape(-1, 3)
    frame, length = segment_axes(positions[ends[:, 0]], positions[ends[:, 1]], up)
    different, section_at = _sections(rows, length)
    mass = np.array([s.weighed_area * m.density for s, m, _ in different])
    return Elements(
        part=tuple(part for part, _, _ in rows),
        member=tuple(m.name for _, m, _ in rows),
        ends=ends,
        length=length,
        start=_starts(length, np.array([k for _, _, k in rows], dtype=np.intp)),
        frame=frame,
        offset=np.array([m.offset for _, m, _ in rows]).reshape(-1, 2),
        different=tuple(section for section, _, _ in different),
        compliances=section_compliances(different),
        section_at=section_at,
        line_mass=_best_line(mass[section_at]),
        fixity=_fixity(rows),
        twist=_twist(model, rows, frame),
    )


def _twist(model: Model, rows: list[tuple[str, Member, int]], frame: Array) -> Array:
    twist = np.zeros((len(rows), 2, 3))
    given = {} if model.pose is None else model.pose.twist
    for e, (part, member, k) in enumerate(rows):
        if (part, member.name) in given:
            twist[e] = given[part, member.name][k].reshape(2, 3) @ frame[e].T
    return twist.reshape(-1, 6)


def _fixity(rows: list[tuple[str, Member, int]]) -> Array:
    fixity = np.full((len(rows), 2, 6), np.inf)
    for e, (_, member, k) in enumerate(rows):
        first, last = member.ends
        if k == 0 and first.rates != _RIGID:
            fixity[e, 0] = first.rates
        if k == len(member.path) - 2 and last.rates != _RIGID:
            fixity[e, 1] = last.rates
    return fixity


def _starts(length: Array, segment: Ints) -> Array:
    """(ne,) distance of each element from its member's first point; `segment` counts from 0 in a member."""
    before = np.concatenate([[0.0], np.cumsum(length)[:-1]]) if len(length) else length
    first = np.arange(len(length)) - segment
    starts: Array = before - before[first]
    return starts


def _sections(
    rows: list[tuple[str, Member, int]], length: Array
) -> tuple[list[tuple[Section, Material, float]], Ints]:
    """Different sections with material and ease of twist, and which of them holds at each station (ne, 7)."""
    different: dict[tuple[int, int, float], tuple[Section, Material, float]] = {}
    numbers: dict[tuple[int, int, float], int] = {}
    eases = _eases(rows, length)
    chains = []
    for e, (_, member, k) in enumerate(rows):
        material = member.material
        chain = []
        for section in member.sections[k]:
            key = id(section), id(material), eases.get(e, 1.0)
            chain.append(numbers.setdefault(key, len(numbers)))
            different.setdefault(key, (section, material, key[2]))
        chains.append(chain if len(chain) > 1 else chain * len(TAPER_STATIONS))
    return list(different.values()), np.array(chains, dtype=np.intp).reshape(-1, len(TAPER_STATIONS))


def _eases(rows: list[tuple[str, Member, int]], length: Array) -> dict[int, float]:
    """Twist of the elements of open members with stated warping, over Saint-Venant's, by element."""
    eases: dict[int, float] = {}
    for e, (_, member, k) in enumerate(rows):
        section = warping_section(member) if k == 0 else None
        if section is None:
            continue
        own = length[e : e + len(member.path) - 1]
        x = np.concatenate([[0.0], np.cumsum(own)])
        share = twist_share(x, float(x[-1]), decay(member, section), held_ends(member))
        eases |= {e + n: float(ease) for n, ease in enumerate(np.diff(share) / own)}
    return eases


def _best_line(mass: Array) -> Array:
    """(ne, 2) ends of the straight line that has the mass and the first moment of (ne, 7) values."""
    basis = np.stack([1 - TAPER_STATIONS, TAPER_STATIONS], axis=1)
    weighted = basis * STATION_WEIGHTS[:, None]
    line: Array = mass @ weighted @ np.linalg.inv(basis.T @ weighted)
    return line
