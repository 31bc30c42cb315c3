"""Stress on both faces of thin walls under unit actions; `...` stands for leading batch dimensions."""

from __future__ import annotations

from typing import Protocol

import numpy as np

from sections.geometry.walls import IntArray
from sections.result import Array
from sections.walls.kernel import ThinWalls
from sections.walls.stations import Stations


class Numbers(Protocol):
    """What the stress depends on: `Walls`, or the numbers of many sets of walls of one topology.

    nodes : (..., n, 2) [mm]. thickness : (..., m) [mm]; strength, shear_rise, E_ratio, G_ratio : (..., m).
    """

    @property
    def nodes(self) -> Array: ...
    @property
    def ends(self) -> IntArray: ...
    @property
    def thickness(self) -> Array: ...
    @property
    def strength(self) -> Array: ...
    @property
    def shear_rise(self) -> Array: ...
    @property
    def E_ratio(self) -> Array: ...
    @property
    def G_ratio(self) -> Array: ...


def surface(walls: Numbers, thin: ThinWalls, places: Stations) -> tuple[Array, Array, Array]:
    """Points (..., 2k, 2) on the left, then the right faces, their stress (..., 2k, 3, 6) and warping (..., 2k)."""
    ends, at = walls.ends[places.wall], places.at[:, None]
    mid = walls.nodes[..., ends[:, 0], :] * (1 - at) + walls.nodes[..., ends[:, 1], :] * at
    omega = thin.omega[..., ends[:, 0]] * (1 - places.at) + thin.omega[..., ends[:, 1]] * places.at
    thickness = walls.thickness[..., places.wall]
    parabola = np.hstack([(1 - at) * (1 - 2 * at), 4 * at * (1 - at), at * (2 * at - 1)])
    membrane = (parabola[:, None, :] @ thin.flow[..., places.wall, :, :])[..., 0, :] / thickness[..., None]
    membrane *= _larger(walls.shear_rise, places)[..., None]
    stiff = _larger(walls.E_ratio, places)
    twist = thickness * _larger(walls.G_ratio, places) / thin.J[..., None]

    points = np.concatenate([mid + places.reach, mid - places.reach], axis=-2)
    shear = np.concatenate([membrane, membrane], axis=-2)
    # A twist turns anticlockwise, so on the left of the tangent open-torsion shear runs against it.
    shear[..., 2] += np.concatenate([-twist, twist], axis=-1)
    tangent = np.concatenate([places.tangent, places.tangent], axis=-2)

    both = np.concatenate([stiff, stiff], axis=-1)
    stress = np.zeros((*points.shape[:-1], 3, 6))
    stress[..., 0, 0] = both / thin.area[..., None]
    bending = np.linalg.inv(thin.inertia) @ [[0.0, -1.0], [1.0, 0.0]]
    stress[..., 0, 4:] = ((points - thin.centroid[..., None, :]) @ bending) * both[..., None]
    stress[..., 1:, 1:4] = tangent[..., None] * at_centroid(thin, shear)[..., None, 1:4]
    return points, stress, np.concatenate([omega, omega], axis=-1) * both


def surface_strength(walls: Numbers, places: Stations) -> Array:
    """(..., 2k) strength at the surface points, of the weaker wall where two meet."""
    at = np.minimum(walls.strength[..., places.wall], walls.strength[..., places.other])
    return np.concatenate([at, at], axis=-1)


def at_centroid(thin: ThinWalls, flow: Array) -> Array:
    """(..., k, 6) flow of the six unit actions at the centroid from that (..., k, 3) of Vy, Vz through the shear
    centre and T: a force through the centroid is one through the shear centre and a torque."""
    offset = thin.shear_centre - thin.centroid
    made = np.zeros((*flow.shape[:-1], 6))
    made[..., 1:4] = flow
    more = flow.ndim - thin.area.ndim - 1
    y, z = (offset[..., k].reshape(*thin.area.shape, *[1] * more) for k in (0, 1))
    made[..., 1] += z * flow[..., 2]
    made[..., 2] -= y * flow[..., 2]
    return made


def _larger(values: Array, places: Stations) -> Array:
    """(..., k) of each station, the larger where two walls meet."""
    return np.maximum(values[..., places.wall], values[..., places.other])
