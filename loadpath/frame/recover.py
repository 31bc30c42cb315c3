"""Section forces at any station of a member, and where the stress peaks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.beam import forces_at
from loadpath.frame.mesh import Elements
from loadpath.frame.solve import Solution
from loadpath.model import TAPER_STATIONS
from sections import Section

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

NEGLIGIBLE = 1e-3
NO_STRESS = 0.02
"""Rise of stress between the ends of an element that is not looked for: share of its stress, or MPa."""

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

    rows, stations : (m,) elements and indices into TAPER_STATIONS. forces : (m, 6, nc).
    """

    rows: Ints
    stations: Ints
    forces: Array

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
    """Where stress may peak: all stations of tapered elements, the ends of prismatic ones.

    Von Mises stress is a convex function of the section forces, so between the ends of a prismatic element it
    can be larger only where a line load bends the element: by no more than the load's own bending moment
    w L²/8 makes. Where that is not NEGLIGIBLE beside what the largest single force makes at the ends, the
    inner stations are looked at too.
    """
    elements = solution.system.mesh.elements
    rows, stations = _ends(len(elements.length))
    forces = forces_at(elements, rows, TAPER_STATIONS[stations], solution.end_forces, solution.line)
    whole = np.flatnonzero(_tapered(elements) | _bent(elements, solution.line, forces))
    if not len(whole):
        return Looks(rows, stations, forces)
    inner = np.arange(1, len(TAPER_STATIONS) - 1)
    more, between = np.repeat(whole, len(inner)), np.tile(inner, len(whole))
    added = forces_at(elements, more, TAPER_STATIONS[between], solution.end_forces, solution.line)
    return Looks(
        np.concatenate([rows, more]), np.concatenate([stations, between]), np.concatenate([forces, added])
    )


def _ends(ne: int) -> tuple[Ints, Ints]:
    return np.tile(np.arange(ne), 2), np.repeat(np.array([0, len(TAPER_STATIONS) - 1]), ne)


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
    """Largest von Mises stress in each element and load case.

    Attributes
    ----------
    von_mises : (ne, nc) [MPa], NaN where the section has no surface points.
    station : (ne, nc) index into TAPER_STATIONS. point : (ne, nc) index of the surface point.
    """

    von_mises: Array
    station: Ints
    point: Ints


def stress_peaks(solution: Solution, looks: Looks) -> Peaks:
    """Peaks of von Mises stress over the places that were looked at."""
    elements = solution.system.mesh.elements
    ne, nc = len(elements.length), looks.forces.shape[-1]
    squared = np.zeros((ne, len(TAPER_STATIONS), nc))
    point = np.zeros((ne, nc), dtype=np.intp)
    served = list(looks.by_section(elements))
    for section, at in served:
        squared[looks.rows[at], looks.stations[at]] = _highest(section, looks.forces[at])
    best = squared.argmax(axis=1)
    for section, at in served:
        which, case = np.nonzero(best[looks.rows[at]] == looks.stations[at][:, None])
        if len(section.points) and len(which):
            columns = looks.forces[at[which], :, case].T
            point[looks.rows[at[which]], case] = _squared(section, columns).argmax(axis=0)
    value = np.sqrt(np.take_along_axis(squared, best[:, None], 1)[:, 0])
    return Peaks(value, best, point)


def _squared(section: Section, forces: Array) -> Array:
    """(n, m) squares of the von Mises stress at the surface points for force columns (6, m)."""
    a, b = _PAIRS
    squared: Array = section.von_mises_form @ (forces[a] * forces[b])
    return squared


def _highest(section: Section, forces: Array) -> Array:
    """(m, nc) largest squared von Mises stress for forces (m, 6, nc); NaN without surface points."""
    m, _, nc = forces.shape
    if not len(section.points):
        return np.full((m, nc), np.nan)
    columns = forces.transpose(1, 0, 2).reshape(6, -1)
    spans = [slice(start, start + _COLUMNS) for start in range(0, columns.shape[1], _COLUMNS)]
    return np.concatenate([_squared(section, columns[:, s]).max(axis=0) for s in spans]).reshape(m, nc)
