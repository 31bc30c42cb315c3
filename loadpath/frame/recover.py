"""Section forces at any station of a member, and where the stress peaks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.beam import forces_at
from loadpath.frame.mesh import Elements
from loadpath.frame.solution import Solution
from loadpath.frame.warping import bimoment_share, decay, held_ends, warping_section
from loadpath.model import TAPER_STATIONS
from sections import Section

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

NEGLIGIBLE = 1e-3
NO_STRESS = 0.1
"""Rise of stress between the ends of an element that is not looked for: share of its stress, or MPa."""

FINE = np.linspace(0.0, 1.0, 17)[1:-1]
"""Places looked at between the ends of an element that a line load bends."""

_COLUMNS = 1_000
_PAIRS = np.triu_indices(6)


def section_forces(solution: Solution, fractions: Array = TAPER_STATIONS) -> Array:
    """(ne, ns, 6, nc) N, Vy, Vz, T, My, Mz about the centroid, element axes, at fractions of the length."""
    elements = solution.system.mesh.elements
    ne, ns = len(elements.length), len(fractions)
    rows, at = np.repeat(np.arange(ne), ns), np.tile(fractions, ne)
    forces = forces_at(elements, rows, at, solution.end_forces, solution.line)
    return forces.reshape(ne, ns, 6, forces.shape[-1])


@dataclass(frozen=True, eq=False)
class Looks:
    """Places along the elements at which stress may peak, with the section forces there.

    rows : (m,) elements. stations : (m,) indices into TAPER_STATIONS of the section that holds there.
    fractions : (m,) of the element's length. forces : (m, 6, nc). bimoments : (m, nc) [N·mm²] of open members
    with held warping, 0 elsewhere.
    """

    rows: Ints
    stations: Ints
    fractions: Array
    forces: Array
    bimoments: Array

    def by_section(self, elements: Elements) -> Iterator[tuple[Section, Ints]]:
        """Each section with the places (indices of `rows`) that it serves."""
        number = elements.section_at[self.rows, self.stations]
        order = np.argsort(number, kind="stable")
        bounds = np.searchsorted(number[order], np.arange(len(elements.different) + 1))
        for k, section in enumerate(elements.different):
            at = order[bounds[k] : bounds[k + 1]]
            if len(at):
                yield section, at


def look_along(solution: Solution) -> Looks:
    """Where stress may peak: the ends of every element, and where it could be larger between them.

    Von Mises stress is a convex function of the section forces, so between the ends of a prismatic element it
    can be larger only where a line load bends the element: by no more than the load's own bending moment
    w L²/8 makes. Where that is not NEGLIGIBLE beside what the largest single force makes at the ends, FINE
    places are looked at. Of a tapered element all seven stations are, where its sections are known.
    """
    elements = solution.system.mesh.elements
    ne = len(elements.length)
    rows, stations = np.tile(np.arange(ne), 2), np.repeat([0, len(TAPER_STATIONS) - 1], ne)
    ends = TAPER_STATIONS[stations]
    forces = forces_at(elements, rows, ends, solution.end_forces, solution.line)
    tapered = _tapered(elements)
    bent = np.flatnonzero(_bent(elements, solution.line, forces) & ~tapered)
    inner = np.arange(1, len(TAPER_STATIONS) - 1)
    between = [
        (bent, np.zeros(len(FINE), dtype=np.intp), FINE),
        (np.flatnonzero(tapered), inner, TAPER_STATIONS[inner]),
    ]
    parts = [(rows, stations, ends, forces)]
    for elements_there, station, fraction in between:
        if len(elements_there):
            more = np.repeat(elements_there, len(fraction))
            at = np.tile(fraction, len(elements_there))
            added = forces_at(elements, more, at, solution.end_forces, solution.line)
            parts.append((more, np.tile(station, len(elements_there)), at, added))
    rows, stations, fractions, forces = (np.concatenate(column) for column in zip(*parts, strict=True))
    return Looks(rows, stations, fractions, forces, _bimoments(solution, rows, fractions, forces))


def _bimoments(solution: Solution, rows: Ints, fractions: Array, forces: Array) -> Array:
    """(m, nc) bimoments at places of open members, from the torque about the shear centre there."""
    system = solution.system
    elements = system.mesh.elements
    found = np.zeros((len(rows), forces.shape[-1]))
    first = 0
    for part in system.model.parts.values():
        for member in part.members:
            span = np.arange(first, first + len(member.path) - 1)
            first += len(span)
            section = warping_section(member)
            if section is None or not any(held_ends(member)):
                continue
            at = np.flatnonzero(np.isin(rows, span))
            x = elements.start[rows[at]] + fractions[at] * elements.length[rows[at]]
            length = float(elements.length[span].sum())
            share = bimoment_share(x, length, decay(member, section), held_ends(member))
            found[at] = share[:, None] * torque_about_shear_centre(section, forces[at])
    return found


def torque_about_shear_centre(section: Section, forces: Array) -> Array:
    """(m, nc) torque about the shear centre from section forces (m, 6, nc) about the centroid."""
    y, z = section.shear_offset
    torque: Array = forces[:, 3] - (y * forces[:, 2] - z * forces[:, 1])
    return torque


def _tapered(elements: Elements) -> NDArray[np.bool_]:
    tapered: NDArray[np.bool_] = np.any(elements.section_at != elements.section_at[:, :1], axis=1)
    return tapered


def _bent(elements: Elements, line: Array, ends: Array) -> NDArray[np.bool_]:
    """(ne,) elements in which a line load (ne, 6, nc) could raise the stress between the ends (2 ne, 6, nc)."""
    ne = len(elements.length)
    peaks = np.array([s.unit_peaks for s in elements.different]).reshape(-1, 6)
    unit = peaks[elements.section_at[:, 0]][:, :, None]
    largest = np.maximum(np.abs(line[:, 1:3]), np.abs(line[:, 4:6]))
    moment = elements.length[:, None] ** 2 / 8
    rise = moment * (unit[:, 4] * largest[:, 1] + unit[:, 5] * largest[:, 0])
    at_ends = (unit * np.maximum(np.abs(ends[:ne]), np.abs(ends[ne:]))).max(axis=1)
    bent: NDArray[np.bool_] = np.any(rise > np.maximum(NEGLIGIBLE * at_ends, NO_STRESS), axis=1)
    return bent


@dataclass(frozen=True, eq=False)
class Peaks:
    """Von Mises stress in each element and load case where it is largest over the strength of the material there.

    Attributes
    ----------
    von_mises : (ne, nc) [MPa], NaN where the section has no surface points.
    strength : (ne, nc) of the material there over that of the grade, 1 but in heat-affected zones.
    fraction : (ne, nc) of the element's length. station : (ne, nc) index into TAPER_STATIONS of the section.
    point : (ne, nc) index of the surface point.
    """

    von_mises: Array
    fraction: Array
    station: Ints
    point: Ints
    strength: Array

    @property
    def referred(self) -> Array:
        """(ne, nc) von Mises stress over the strength there: what the grade's allowable is compared with [MPa]."""
        return self.von_mises / self.strength


def stress_peaks(solution: Solution, looks: Looks) -> Peaks:
    """Peaks of von Mises stress over the places that were looked at.

    Between the stations of a tapered element its stress is interpolated, see `stress_between`.
    """
    elements = solution.system.mesh.elements
    squared = np.zeros((len(looks.rows), looks.forces.shape[-1]))
    served = list(looks.by_section(elements))
    server = np.zeros(len(looks.rows), dtype=np.intp)
    for k, (section, at) in enumerate(served):
        squared[at] = _highest(section, looks.forces[at], looks.bimoments[at])
        server[at] = k
    best = largest_of(looks.rows, squared, len(elements.length))
    case = np.arange(squared.shape[1])
    point = np.zeros(best.shape, dtype=np.intp)
    serves = server[best]
    for k, (section, _) in enumerate(served):
        element, column = np.nonzero(serves == k)
        if len(section.points) and len(element):
            place = best[element, column]
            chosen, warped = looks.forces[place, :, column].T, looks.bimoments[place, column]
            point[element, column] = squared_von_mises(section, chosen, warped).argmax(axis=0)
    value: Array = np.sqrt(squared[best, case])
    fraction = looks.fractions[best]
    station = looks.stations[best]
    for e in map(int, np.flatnonzero(_tapered(elements))):
        counts = {len(elements.different[k].points) for k in elements.section_at[e]}
        if len(counts) > 1 or 0 in counts:
            continue
        peak, x, where = _between_stations(solution, e)
        higher = peak > value[e]
        value[e, higher], fraction[e, higher], point[e, higher] = peak[higher], x[higher], where[higher]
        station[e, higher] = np.abs(TAPER_STATIONS - x[higher][:, None]).argmin(axis=1)
    strength = _strength_there(elements, station, point)
    return Peaks(value * strength, fraction, station, point, strength)


def _strength_there(elements: Elements, station: Ints, point: Ints) -> Array:
    """(ne, nc) strength of the material at the surface points (ne, nc) of the sections at stations (ne, nc)."""
    strength = np.ones(point.shape)
    for k, section in enumerate(elements.different):
        if len(section.strength):
            here = elements.section_at[np.arange(len(station))[:, None], station] == k
            strength[here] = section.strength[point[here]]
    return strength


def largest_of(rows: Ints, values: Array, ne: int) -> Ints:
    """(ne, nc) index of the place with the largest of values (m, nc) among the places of each element."""
    order = np.argsort(rows, kind="stable")
    starts = np.searchsorted(rows[order], np.arange(ne))
    counts = np.diff(np.append(starts, len(rows)))
    found = np.zeros((ne, values.shape[1]), dtype=np.intp)
    for count in np.unique(counts):
        elements = np.flatnonzero(counts == count)
        places = order[starts[elements][:, None] + np.arange(count)]
        at = np.nan_to_num(values[places], nan=-1.0).argmax(axis=1)
        found[elements] = np.take_along_axis(places, at, axis=1)
    return found


def _between_stations(solution: Solution, e: int) -> tuple[Array, Array, Ints]:
    """Peak (nc,) of von Mises stress between the stations of a tapered element, its fraction and point."""
    elements = solution.system.mesh.elements
    rows = np.full(len(FINE), e, dtype=np.intp)
    forces = forces_at(elements, rows, FINE, solution.end_forces, solution.line)
    stress = stress_between([elements.different[k] for k in elements.section_at[e]], FINE)
    s = np.einsum("xpka,xac->xpkc", stress, forces)
    weak = elements.different[elements.section_at[e, 0]].strength
    squared = np.einsum("xpkc,k->xpc", s**2, [1.0, 3.0, 3.0]) / (weak[:, None] ** 2 if len(weak) else 1.0)
    points, nc = squared.shape[1:]
    best = squared.reshape(-1, nc).argmax(axis=0)
    at, point = np.divmod(best, points)
    return np.sqrt(squared[at, point, np.arange(nc)]), FINE[at], point


def stress_between(chain: Sequence[Section], fractions: Array) -> Array:
    """(k, n, 3, 6) unit-action stress matrices of a taper between its seven stations.

    Stress under a unit force goes with a power of about -2 to -3 of the section's size, so its power of -1/3
    is nearly straight along a taper: that is what the polynomial through the stations interpolates. Entries that
    vanish or change their sign are interpolated straight from station to station.
    """
    known = np.array([section.stress for section in chain])
    largest = np.abs(known).max(axis=(0, 1, 2))
    smooth = (np.abs(known) > 1e-6 * largest).all(axis=0) & (np.ptp(np.sign(known), axis=0) == 0)
    root = np.where(smooth, np.abs(known), 1.0) ** (-1 / 3)
    between = np.tensordot(_polynomial(fractions), root, axes=1)
    between = np.maximum(between, root.min(axis=0) / 2)
    straight = np.tensordot(_straight(fractions), known, axes=1)
    return np.where(smooth, np.sign(known[0]) * between**-3, straight)


def _polynomial(x: Array) -> Array:
    """(k, 7) values at x of the polynomials that are 1 at one station and 0 at the others."""
    basis = np.vander(TAPER_STATIONS, increasing=True)
    values: Array = np.vander(x, len(TAPER_STATIONS), increasing=True) @ np.linalg.inv(basis)
    return values


def _straight(x: Array) -> Array:
    """(k, 7) the same, straight from station to station."""
    return np.stack([np.interp(x, TAPER_STATIONS, one) for one in np.eye(len(TAPER_STATIONS))], axis=1)


def squared_von_mises(section: Section, forces: Array, bimoments: Array) -> Array:
    """(n, m) squares of the von Mises stress over the strength at the surface points, for force columns (6, m) and
    bimoments (m,)."""
    a, b = _PAIRS
    squared: Array = section.von_mises_form @ (forces[a] * forces[b])
    if bimoments.any():
        normal = section.stress[:, 0] @ forces
        warped = np.outer(section.warping / section.Cw, bimoments)
        added = warped**2 + 2 * normal * warped
        squared += added / section.strength[:, None] ** 2 if len(section.strength) else added
    return squared


def _highest(section: Section, forces: Array, bimoments: Array) -> Array:
    """(m, nc) largest squared von Mises stress for forces (m, 6, nc); NaN without surface points."""
    m, _, nc = forces.shape
    if not len(section.points):
        return np.full((m, nc), np.nan)
    columns, warped = forces.transpose(1, 0, 2).reshape(6, -1), bimoments.ravel()
    spans = [slice(start, start + _COLUMNS) for start in range(0, columns.shape[1], _COLUMNS)]
    found = [squared_von_mises(section, columns[:, s], warped[s]).max(axis=0) for s in spans]
    return np.concatenate(found).reshape(m, nc)
