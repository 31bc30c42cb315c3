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

_COLUMNS = 2_000
_SHEAR_WEIGHT = np.sqrt([1.0, 3.0, 3.0])[:, None, None]


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

    Von Mises stress is a convex function of the section forces, so between stations it can only be larger
    where a line load bends the element.
    """
    elements = solution.system.mesh.elements
    ne, _, _, nc = forces.shape
    value, station = np.full((ne, nc), np.nan), np.zeros((ne, nc))
    point = np.zeros((ne, nc), dtype=np.intp)
    for chain, rows in _by_section(elements.sections):
        own = forces[rows]
        if len(chain) == 1:
            squared = _highest(chain[0], own.transpose(2, 0, 1, 3).reshape(6, -1)).reshape(len(rows), -1, nc)
        else:
            columns = [_highest(s, own[:, k].transpose(1, 0, 2).reshape(6, -1)) for k, s in enumerate(chain)]
            squared = np.stack([c.reshape(len(rows), nc) for c in columns], axis=1)
        best = squared.argmax(axis=1)
        value[rows] = np.sqrt(np.take_along_axis(squared, best[:, None], 1)[:, 0])
        station[rows] = TAPER_STATIONS[best]
        worst = np.take_along_axis(own, best[:, None, None], 1)[:, 0]
        point[rows] = _worst_points(chain, best, worst)
    return Peaks(value, station, point)


def _by_section(sections: Sequence[tuple[Section, ...]]) -> list[tuple[tuple[Section, ...], Ints]]:
    """Each section, or chain of a tapered segment, once with the elements that it serves."""
    found: dict[tuple[int, ...], tuple[tuple[Section, ...], list[int]]] = {}
    for e, chain in enumerate(sections):
        found.setdefault(tuple(map(id, chain)), (chain, []))[1].append(e)
    return [(chain, np.array(rows, dtype=np.intp)) for chain, rows in found.values()]


def _squared(section: Section, forces: Array) -> Array:
    """(n, m) squares of the von Mises stress at the surface points for force columns (6, m)."""
    n = len(section.points)
    weighted = section.stress.transpose(1, 0, 2) * _SHEAR_WEIGHT
    s = (weighted.reshape(3 * n, 6) @ forces).reshape(3, n, -1)
    squared: Array = np.einsum("kpm,kpm->pm", s, s)
    return squared


def _highest(section: Section, forces: Array) -> Array:
    """(m,) largest squared von Mises stress, a block of columns at a time; NaN without surface points."""
    m = forces.shape[1]
    if not len(section.points):
        return np.full(m, np.nan)
    spans = [slice(start, start + _COLUMNS) for start in range(0, m, _COLUMNS)]
    return np.concatenate([_squared(section, forces[:, span]).max(axis=0) for span in spans])


def _worst_points(chain: tuple[Section, ...], best: Ints, forces: Array) -> Ints:
    """(n, nc) surface point of the largest stress for forces (n, 6, nc) at each element's worst station."""
    points = np.zeros(best.shape, dtype=np.intp)
    for k, section in enumerate(chain):
        here = np.ones(best.shape, dtype=bool) if len(chain) == 1 else best == k
        if len(section.points) and here.any():
            points[here] = _squared(section, forces.transpose(1, 0, 2)[:, here]).argmax(axis=0)
    return points
