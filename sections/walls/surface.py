"""Stress on both faces of thin walls under unit actions; `...` stands for leading batch dimensions."""

from __future__ import annotations

from dataclasses import dataclass
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


@dataclass(frozen=True, eq=False)
class _Faces:
    """The left, then the right faces at k stations.

    points : (..., 2k, 2) [mm]. shear : (..., 2k, 3) along the tangent for unit Vy, Vz, T at the centroid.
    stiff : (..., 2k) modulus over the section's. bending : (..., 2, 2) slope of σ along y and z for unit My and Mz.
    """

    points: Array
    shear: Array
    stiff: Array
    bending: Array


def surface(walls: Numbers, thin: ThinWalls, places: Stations) -> tuple[Array, Array, Array]:
    """Points (..., 2k, 2) on the left, then the right faces, their stress (..., 2k, 3, 6) and warping (..., 2k)."""
    faces, ends = _faces(walls, thin, places), walls.ends[places.wall]
    omega = thin.omega[..., ends[:, 0]] * (1 - places.at) + thin.omega[..., ends[:, 1]] * places.at
    tangent = np.concatenate([places.tangent, places.tangent], axis=-2)
    stress = np.zeros((*faces.points.shape[:-1], 3, 6))
    stress[..., 0, 0] = faces.stiff / thin.area[..., None]
    bent = (faces.points - thin.centroid[..., None, :]) @ faces.bending
    stress[..., 0, 4:] = bent * faces.stiff[..., None]
    stress[..., 1:, 1:4] = tangent[..., None] * faces.shear[..., None, :]
    return faces.points, stress, np.concatenate([omega, omega], axis=-1) * faces.stiff


def surface_peak(walls: Numbers, thin: ThinWalls, places: Stations, forces: Array) -> Array:
    """(..., m) largest von Mises stress over the strength [MPa] for forces (..., 6, m)."""
    faces = _faces(walls, thin, places)
    normal = (faces.points - thin.centroid[..., None, :]) @ (faces.bending @ forces[..., 4:, :])
    normal += (forces[..., 0, :] / thin.area[..., None])[..., None, :]
    normal *= faces.stiff[..., None]
    shear = faces.shear @ forces[..., 1:4, :]
    square = (normal**2 + 3 * shear**2) / surface_strength(walls, places)[..., None] ** 2
    return np.asarray(np.sqrt(square.max(axis=-2)))


def _faces(walls: Numbers, thin: ThinWalls, places: Stations) -> _Faces:
    ends, at = walls.ends[places.wall], places.at[:, None]
    mid = walls.nodes[..., ends[:, 0], :] * (1 - at) + walls.nodes[..., ends[:, 1], :] * at
    thickness = walls.thickness[..., places.wall]
    membrane = _flow_at(thin, places) / thickness[..., None]
    membrane *= _larger(walls.shear_rise, places)[..., None]
    stiff = _larger(walls.E_ratio, places)
    twist = thickness * _larger(walls.G_ratio, places) / thin.J[..., None]
    shear = np.concatenate([membrane, membrane], axis=-2)
    # A twist turns anticlockwise, so on the left of the tangent open-torsion shear runs against it.
    shear[..., 2] += np.concatenate([-twist, twist], axis=-1)
    return _Faces(
        np.concatenate([mid + places.reach, mid - places.reach], axis=-2),
        at_centroid(thin, shear)[..., 1:4],
        np.concatenate([stiff, stiff], axis=-1),
        np.linalg.inv(thin.inertia) @ [[0.0, -1.0], [1.0, 0.0]],
    )


def _flow_at(thin: ThinWalls, places: Stations) -> Array:
    """(..., k, 3) shear flow at the stations for unit Vy and Vz through the shear centre and unit T."""
    first, last = thin.end_loads[..., places.wall]
    flow = thin.mean_flow[..., places.wall].copy()
    # A parabola by its mean and its ends, which are above it by `first` and below it by `last`.
    x = 2 * places.at - 1
    flow[..., :2, :] += (first - last) / 2 * (1.5 * x**2 - 0.5) - (first + last) / 2 * x
    return np.swapaxes(flow, -1, -2)


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
