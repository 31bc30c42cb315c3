"""Section forces at any station of a member, and where the stress peaks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.beam import from_end, from_line
from loadpath.frame.solve import Solution
from loadpath.model import TAPER_STATIONS
from sections import Section

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

_COLUMNS = 20_000


def section_forces(solution: Solution, fractions: Array = TAPER_STATIONS) -> Array:
    """(ne, ns, 6, nc) N, Vy, Vz, T, My, Mz about the centroid, element axes, at fractions of the length."""
    beams, elements = solution.system.beams, solution.system.mesh.elements
    if fractions is TAPER_STATIONS:
        b, s = beams.from_end, beams.from_line
    else:
        b = from_end(elements.length, elements.offset, fractions)
        s = from_line(elements.length, fractions)
    forces: Array = b @ solution.end_forces[:, None] + s @ solution.line[:, None]
    return forces


@dataclass(frozen=True, eq=False)
class Peaks:
    """Largest von Mises stress in each element and load case.

    Attributes
    ----------
    von_mises : (ne, nc) [MPa], NaN where the section has no surface points.
    station : (ne, nc) fraction of the element's length. point : (ne, nc) index of the surface point.
    """

    von_mises: Array
    station: Array
    point: Ints


def stress_peaks(solution: Solution, forces: Array) -> Peaks:
    """Peaks of von Mises stress over the stations (ne, 7, 6, nc) of every element.

    Between the stations stress can only be larger where a line load bends the element; `finer_peaks` looks
    there.
    """
    elements = solution.system.mesh.elements
    ne, ns, _, nc = forces.shape
    highest = np.full((ne, ns, nc), np.nan)
    where = np.zeros((ne, ns, nc), dtype=np.intp)
    for section, rows, stations in _by_section(elements.sections, ns):
        columns = forces[rows, stations].transpose(1, 0, 2)
        value, point = _worst(section, columns.reshape(6, -1))
        highest[rows, stations] = value.reshape(-1, nc)
        where[rows, stations] = point.reshape(-1, nc)
    best = np.where(np.isnan(highest), -1.0, highest).argmax(axis=1)[:, None]
    return Peaks(
        von_mises=np.take_along_axis(highest, best, 1)[:, 0],
        station=TAPER_STATIONS[best[:, 0]],
        point=np.take_along_axis(where, best, 1)[:, 0],
    )


def _by_section(sections: Sequence[tuple[Section, ...]], stations: int) -> list[tuple[Section, Ints, Ints]]:
    """Each section once, with the (element, station) pairs that it serves."""
    found: dict[int, tuple[Section, list[tuple[int, int]]]] = {}
    for e, chain in enumerate(sections):
        for k in range(stations):
            section = chain[k] if len(chain) > 1 else chain[0]
            found.setdefault(id(section), (section, []))[1].append((e, k))
    result = []
    for section, pairs in found.values():
        rows, at = np.array(pairs, dtype=np.intp).T
        result.append((section, rows, at))
    return result


def _worst(section: Section, forces: Array) -> tuple[Array, Ints]:
    """Largest von Mises stress and its surface point for force columns (6, m), a block at a time."""
    m = forces.shape[1]
    if not len(section.points):
        return np.full(m, np.nan), np.zeros(m, dtype=np.intp)
    n = len(section.points)
    weighted = (section.stress * np.sqrt([1.0, 3.0, 3.0])[:, None]).transpose(1, 0, 2).reshape(3 * n, 6)
    value, point = np.empty(m), np.empty(m, dtype=np.intp)
    for start in range(0, m, _COLUMNS):
        span = slice(start, start + _COLUMNS)
        s = (weighted @ forces[:, span]).reshape(3, n, -1)
        squared = np.einsum("kpm,kpm->pm", s, s)
        point[span] = squared.argmax(axis=0)
        value[span] = np.sqrt(squared.max(axis=0))
    return value, point
