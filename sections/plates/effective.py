"""Effective section of thin walls that buckle locally: EN 1993-1-5:2006 4.3 and 4.4 (from memory)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from sections.midline import Array, IntArray, Midline
from sections.plates.buckling import (
    Edge,
    buckling_factor,
    buckling_stress,
    effective_ends,
    reduction,
    slenderness,
)
from sections.plates.parts import PlatePart, plate_parts

_ROUNDS = 100
_CLOSE = 1e-10


@dataclass(frozen=True, eq=False)
class EffectiveSection:
    """What is left of a section under forces that bring it to its yield stress.

    Attributes
    ----------
    area : [mm²]. centroid : (2,) [mm]. inertia : (2, 2) [[Izz, Iyz], [Iyz, Iyy]] about it [mm⁴].
    shift : (2,) of the centroid from that of the whole section [mm].
    factor : on the given forces, at which the most stressed mid-line point yields by the stress on the effective
        section; tips that are lost count too, which is on the safe side.
    parts : the plate parts. rho : (p,) effective part of each one's compressed width, 1 where nothing is lost.
    lost : (k, 2, 2) ends of the stretches of wall that do not count [mm].
    """

    area: float
    centroid: Array
    inertia: Array
    shift: Array
    factor: float
    parts: tuple[PlatePart, ...]
    rho: Array
    lost: Array


@dataclass(frozen=True, eq=False)
class _Pieces:
    """Straight pieces of wall: (k, 2) ends and (k,) thickness."""

    start: Array
    stop: Array
    thickness: Array

    def some(self, numbers: Sequence[int]) -> _Pieces:
        chosen = list(numbers)
        return _Pieces(self.start[chosen], self.stop[chosen], self.thickness[chosen])

    def beside(self, other: _Pieces) -> _Pieces:
        return _Pieces(
            np.vstack([self.start, other.start]),
            np.vstack([self.stop, other.stop]),
            np.concatenate([self.thickness, other.thickness]),
        )

    def integrals(self) -> tuple[float, Array, Array]:
        """Area, centroid and [[Izz, Iyz], [Iyz, Iyy]] about it."""
        weight = np.linalg.norm(self.stop - self.start, axis=1) * self.thickness
        area = float(weight.sum())
        centroid = weight @ (self.start + self.stop) / (2 * area)
        a, b = self.start - centroid, self.stop - centroid
        moments = (a.T * weight) @ (2 * a + b) + (b.T * weight) @ (a + 2 * b)
        return area, centroid, moments / 6


def effective_section(
    midline: Midline, forces: Sequence[float], yield_stress: float, E: float = 210000.0, nu: float = 0.3
) -> EffectiveSection:
    """Effective section for one proportion of axial force and bending moments about its own centroid.

    Widths are those of the flats, net of bend radii, which stay whole. ψ comes from the stress on the effective
    section, in rounds until nothing moves; the slenderness is that at the yield stress. Compression alone gives A_eff
    and one moment alone the modulus about its axis, as 4.3 (3) and (4) have it: a force that acts at the centroid of
    the whole section then comes with a moment, force times shift, that is to be added. Distortional buckling, shear
    lag, shear buckling and curved walls are out.

    Parameters
    ----------
    midline : of one material.
    forces : N [N], My, Mz [N·mm] about the centroid of the effective section; only their proportion counts.
    yield_stress, E : [MPa].

    Raises
    ------
    ValueError : no forces, a yield stress or modulus not above zero, walls of different strength or modulus, or
        rounds that do not settle.
    """
    normal, my, mz = (float(force) for force in forces)
    if not np.any([normal, my, mz]):
        raise ValueError("forces: give N, My or Mz; all are 0")
    if not (yield_stress > 0 and E > 0):
        raise ValueError(f"yield_stress = {yield_stress:g}, E = {E:g}: both must be above 0 MPa")
    if np.any(midline.strength != 1) or np.any(midline.E_ratio != 1):
        raise ValueError("the effective section is not worked out for walls of different strength or modulus")
    parts = plate_parts(midline)
    flats = [part for part in parts if part.kind != "curved"]
    walls = _Pieces(midline.start, midline.stop, midline.thickness)
    origin = walls.integrals()[1]
    rest = walls.some([wall for part in parts if part.kind == "curved" for wall in part.walls])
    cut = _Cut.of(midline, flats)

    holes = np.zeros((len(flats), 2))
    for turn in range(_ROUNDS):
        area, centroid, inertia = cut.left(holes).beside(rest).integrals()
        bending = np.linalg.solve(inertia, [-mz, my])
        places = np.array([[part.start, part.stop] for part in flats]).reshape(-1, 2, 2)
        stress = normal / area + (places - centroid) @ bending
        every = normal / area + (midline.nodes - centroid) @ bending
        factor = yield_stress / float(np.abs(every).max())
        before = holes
        found = [_hole(p, s, yield_stress, E, nu) for p, s in zip(flats, stress, strict=True)]
        holes = np.array([hole for hole, _ in found]).reshape(-1, 2)
        if np.abs(holes - before).max(initial=0.0) < _CLOSE:
            break
        holes = (holes + before) / 2 if turn > _ROUNDS // 2 else holes
    else:
        raise ValueError("the effective widths do not settle")
    reduced = iter([rho for _, rho in found])
    rho = np.array([1.0 if part.kind == "curved" else next(reduced) for part in parts])
    gone = [
        part.start + np.outer(hole, part.stop - part.start)
        for part, hole in zip(flats, holes, strict=True)
        if hole[1] > hole[0]
    ]
    return EffectiveSection(
        area, centroid, inertia, centroid - origin, factor, parts, rho, np.array(gone).reshape(-1, 2, 2)
    )


@dataclass(frozen=True, eq=False)
class _Cut:
    """The walls of flats (k,): ends in the flat's direction, where along the flat they lie, from 0 to 1, and in which
    flat."""

    pieces: _Pieces
    first: Array
    last: Array
    flat: IntArray

    @staticmethod
    def of(midline: Midline, flats: Sequence[PlatePart]) -> _Cut:
        nodes = [[midline.nodes[list(part.path[:-1])], midline.nodes[list(part.path[1:])]] for part in flats]
        walls = [list(part.walls) for part in flats]
        gone = [
            np.concatenate([[0.0], np.cumsum(midline.length[w])]) / midline.length[w].sum() for w in walls
        ]
        start, stop = (np.vstack([pair[k] for pair in nodes] or [np.zeros((0, 2))]) for k in (0, 1))
        return _Cut(
            _Pieces(start, stop, midline.thickness[[wall for w in walls for wall in w]]),
            np.concatenate([g[:-1] for g in gone] or [np.zeros(0)]),
            np.concatenate([g[1:] for g in gone] or [np.zeros(0)]),
            np.repeat(np.arange(len(flats)), [len(w) for w in walls]),
        )

    def left(self, holes: Array) -> _Pieces:
        """What is left before and after the hole (f, 2) of each flat."""
        share = (holes[self.flat] - self.first[:, None]) / (self.last - self.first)[:, None]
        at = np.clip(share, 0.0, 1.0)[:, :, None]
        start, run = self.pieces.start, self.pieces.stop - self.pieces.start
        before = _Pieces(start, start + at[:, 0] * run, self.pieces.thickness)
        return before.beside(_Pieces(start + at[:, 1] * run, start + run, self.pieces.thickness))


def _hole(
    part: PlatePart, stress: Array, yield_stress: float, E: float, nu: float
) -> tuple[tuple[float, float], float]:
    """What a flat loses, as parts of its width from its start, and ρ."""
    first, last = (float(-s) for s in stress)
    if max(first, last) <= 0:
        return (0.0, 0.0), 1.0
    psi = min(first, last) / max(first, last)
    edge: Edge = "none"
    if part.kind == "outstand":
        edge = "tip" if last >= first else "root"
    critical = buckling_stress(buckling_factor(psi, edge), part.slender, E, nu)
    rho = float(reduction(slenderness(yield_stress, critical), psi, edge))
    low, high = effective_ends(rho, psi, edge)
    if rho >= 1:
        return (0.0, 0.0), 1.0
    # An outstand's stop is its tip, which is the more compressed edge under even compression too.
    return ((1 - high, 1 - low) if last > first or edge == "tip" else (low, high)), rho
