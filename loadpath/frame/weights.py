"""Masses with their places, worked out from the model beside the load vectors, to check those by."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.mesh import Mesh
from loadpath.model import STATION_WEIGHTS, TAPER_STATIONS, LoadCase, Model

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Weights:
    """Masses of a model: parts and points (n) that carry them, mass (n,) [t], centre (n, 3) [mm].

    A member segment is carried by its first point.
    """

    parts: tuple[str, ...]
    points: tuple[str, ...]
    mass: Array
    centre: Array

    def forces(self, cases: Sequence[LoadCase]) -> Array:
        """(n, 3, nc) force on each mass in the load cases' fields."""
        fields = np.array([[case.field_of(part) for case in cases] for part in self.parts])
        forces: Array = self.mass[:, None, None] * fields.reshape(-1, len(cases), 3).transpose(0, 2, 1)
        return forces


def weights(model: Model, mesh: Mesh) -> Weights:
    """Every member segment and every lumped mass; a tapered segment by quadrature of its areas."""
    elements = mesh.elements
    segments = [
        (part.name, point, chain, member.material.density)
        for part in model.parts.values()
        for member in part.members
        for point, chain in zip(member.path, member.sections, strict=False)
    ]
    parts, points, mass, centre = [], [], [], []
    for e, (part, point, chain, density) in enumerate(segments):
        areas = np.array([s.weighed_area for s in chain]) * np.ones(len(TAPER_STATIONS))
        whole = float(STATION_WEIGHTS @ areas)
        middle = float(STATION_WEIGHTS @ (areas * TAPER_STATIONS)) / whole
        local = np.array([middle * elements.length[e], *elements.offset[e]])
        parts.append(part)
        points.append(point)
        mass.append(density * whole * elements.length[e])
        centre.append(mesh.positions[elements.ends[e, 0]] + local @ elements.frame[e])
    for lump in model.masses.values():
        parts.append(lump.part)
        points.append(lump.point)
        mass.append(lump.mass)
        centre.append(model.at(lump.part, lump.point))
    return Weights(tuple(parts), tuple(points), np.array(mass), np.array(centre).reshape(-1, 3))
