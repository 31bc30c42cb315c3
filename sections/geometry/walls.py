"""Thin walls: a graph of mid-lines."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sections.columns import hypot, numbers
from sections.errors import FaultList
from sections.result import Array

IntArray = NDArray[np.intp]

RATIOS = ("E_ratio", "G_ratio", "density_ratio")
PER_WALL = ("thickness", "strength", "shear_rise", *RATIOS)
"""What `Walls` holds for each wall, beside its ends."""


@dataclass(frozen=True, eq=False)
class Walls:
    """Mid-line graph of a thin-walled section in section axes.

    Straight walls run between nodes; a bend is a chain of short ones. A seam ties two nodes of neighbouring
    layers, as a spot, stitch or fillet weld does: it carries shear flow and has no area. Numbers may be columns of
    many sets of dimensions, see `sections.columns`; then the arrays hold objects.

    Attributes
    ----------
    nodes : (n, 2) y, z [mm].
    ends : (m, 2) node indices of each wall.
    thickness : (m,) [mm]; one number stands for all walls.
    seams : (s, 2) node indices of each seam.
    seam_conductance : (s,) shear flow for a unit axial slip, over G [-]; that of a wall is t/L. A weld of
        stiffness rate [N/mm] at a pitch has rate/(pitch · G).
    strength : (m,) allowable stress of each wall over that of the grade, above 0 and at most 1; less than 1 in
        heat-affected zones.
    shear_rise : (m,) shear stress over the nominal q/t, 1 or more, as in what a hole leaves of a wall.
    E_ratio, G_ratio, density_ratio : (m,) of each wall's material over the section's own, above 0. All stiffnesses
        are then those of an equivalent section of the section's material.
    idle_area : material without stiffness, as between the holes of a wall, which counts for mass only [mm²].

    Raises
    ------
    ShapeError : wrong indices, thickness or conductance not above zero, a strength or rise out of range, a wall of
        no length, or more than one connected piece.
    """

    nodes: Array
    ends: IntArray
    thickness: Array
    seams: IntArray = field(default_factory=lambda: np.zeros((0, 2), dtype=np.intp))
    seam_conductance: Array = field(default_factory=lambda: np.zeros(0))
    strength: Array = field(default_factory=lambda: np.ones(1))
    shear_rise: Array = field(default_factory=lambda: np.ones(1))
    idle_area: float = 0.0
    E_ratio: Array = field(default_factory=lambda: np.ones(1))
    G_ratio: Array = field(default_factory=lambda: np.ones(1))
    density_ratio: Array = field(default_factory=lambda: np.ones(1))

    def __post_init__(self) -> None:
        ends = _pairs(self.ends)
        seams = _pairs(self.seams)
        object.__setattr__(self, "nodes", numbers(self.nodes).reshape(-1, 2))
        object.__setattr__(self, "ends", ends)
        object.__setattr__(self, "thickness", _each(self.thickness, len(ends)))
        object.__setattr__(self, "seams", seams)
        object.__setattr__(self, "seam_conductance", _each(self.seam_conductance, len(seams)))
        object.__setattr__(self, "strength", _each(self.strength, len(ends)))
        for name in ("shear_rise", *RATIOS):
            object.__setattr__(self, name, _each(getattr(self, name), len(ends)))
        self._check()

    def _check(self) -> None:
        faults = FaultList("walls")
        if not np.all(np.abs(self.nodes) < np.inf):
            faults.add("nodes", "", "every coordinate must be a finite number")
        edges = np.vstack([self.ends, self.seams])
        if len(self.ends) == 0:
            faults.add("walls", "", "at least one wall is needed")
        elif edges.min() < 0 or edges.max() >= len(self.nodes):
            faults.add("ends", str(edges.max()), f"node indices must be 0 to {len(self.nodes) - 1}")
        faults.raise_any()
        for at in np.flatnonzero(~_positive(self.thickness)):
            place = self.nodes[self.ends[at]].mean(axis=0)
            faults.add("thickness", f"{self.thickness[at]:.6g} mm", f"must be above 0 mm, at {_point(place)}")
        for at in np.flatnonzero(~_positive(self.seam_conductance)):
            faults.add("seam conductance", f"{self.seam_conductance[at]:.6g}", "must be above 0")
        for at in np.flatnonzero(~(self.strength > 0) | ~(self.strength <= 1)):
            faults.add("strength", f"{self.strength[at]:.6g}", "must be above 0 and at most 1")
        for name in RATIOS:
            for value in getattr(self, name)[~_positive(getattr(self, name))]:
                faults.add(name, f"{value:.6g}", "must be above 0")
        for at in np.flatnonzero(~((self.shear_rise >= 1) & _positive(self.shear_rise))):
            faults.add("shear rise", f"{self.shear_rise[at]:.6g}", "must be at least 1")
        if not 0 <= self.idle_area < np.inf:
            faults.add("idle area", f"{self.idle_area:.6g} mm²", "must be at least 0 mm²")
        run = self.nodes[self.ends[:, 1]] - self.nodes[self.ends[:, 0]]
        length = hypot(run[:, 0], run[:, 1])
        for at in np.flatnonzero(length <= 1e-12 * length.sum()):
            faults.add("wall", "", f"has no length at {_point(self.nodes[self.ends[at, 0]])}")
        pieces = connected_pieces(len(self.nodes), edges)
        if len(pieces) > 1:
            places = ", ".join(_point(self.nodes[nodes[0]]) for nodes in pieces)
            faults.add("", "", f"walls fall into {len(pieces)} unconnected pieces, with points at {places}")
        faults.raise_any()


def on_one_line(points: Array) -> bool:
    """Whether places (n, 2) all lie on one straight line."""
    extent = np.linalg.svd(points - points.mean(axis=0), compute_uv=False)
    return bool(extent[1] <= 1e-9 * extent[0])


def connected_pieces(count: int, edges: IntArray) -> list[list[int]]:
    """Nodes of each connected piece of a graph of `count` nodes."""
    root = list(range(count))

    def find(node: int) -> int:
        while root[node] != node:
            root[node] = root[root[node]]
            node = root[node]
        return node

    for a, b in edges.tolist():
        root[find(a)] = find(b)
    pieces: dict[int, list[int]] = {}
    for node in range(count):
        pieces.setdefault(find(node), []).append(node)
    return list(pieces.values())


def _pairs(values: ArrayLike) -> IntArray:
    return np.array(values, dtype=np.intp).reshape(-1, 2)


def _each(values: ArrayLike, count: int) -> Array:
    return np.array(np.broadcast_to(numbers(values), count))


def _positive(values: Array) -> NDArray[np.bool_]:
    return np.asarray((values > 0) & (values < np.inf), dtype=bool)


def _point(place: Array) -> str:
    return f"(y {place[0]:.4g}, z {place[1]:.4g})"
