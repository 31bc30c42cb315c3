"""Masses with their places, worked out from the model beside the load vectors, to check those by."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model.axes import segment_axes
from loadpath.model.entities import STATION_WEIGHTS, TAPER_STATIONS, Member, Model
from loadpath.model.loadcase import LoadCase

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


def weights(model: Model) -> Weights:
    """Every member segment and every lumped mass; a tapered segment by quadrature of its areas."""
    segments = [
        (p.name, m, k) for p in model.parts.values() for m in p.members for k in range(len(m.path) - 1)
    ]
    ends = np.array([[model.at(p, m.path[k + i]) for i in (0, 1)] for p, m, k in segments]).reshape(-1, 2, 3)
    ups = np.array([m.up_of(k) for _, m, k in segments]).reshape(-1, 3)
    axes, length = segment_axes(ends[:, 0], ends[:, 1], ups)
    whole, middle = _line_masses([(m, k) for _, m, k in segments])
    offset = np.array([m.offset for _, m, _ in segments]).reshape(-1, 2)
    local = np.concatenate([(middle * length)[:, None], offset], axis=1)
    centre = ends[:, 0] + np.einsum("nij,ni->nj", axes, local)
    lumps = list(model.masses.values())
    return Weights(
        parts=(*(p for p, _, _ in segments), *(lump.part for lump in lumps)),
        points=(*(m.path[k] for _, m, k in segments), *(lump.point for lump in lumps)),
        mass=np.concatenate([whole * length, [lump.mass for lump in lumps]]),
        centre=np.concatenate([centre, [model.at(lump.part, lump.point) for lump in lumps]])
        if lumps
        else centre,
    )


def _line_masses(segments: Sequence[tuple[Member, int]]) -> tuple[Array, Array]:
    """Mass per length [t/mm] of segments, and where its centre is as a fraction of the length."""
    areas = np.array(
        [
            [s.weighed_area for s in m.sections[k]] * (1 if len(m.sections[k]) > 1 else len(TAPER_STATIONS))
            for m, k in segments
        ]
    ).reshape(-1, len(TAPER_STATIONS))
    mean = areas @ STATION_WEIGHTS
    density = np.array([m.material.density for m, _ in segments])
    return density * mean, areas @ (STATION_WEIGHTS * TAPER_STATIONS) / mean
