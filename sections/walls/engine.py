"""From walls to a section: properties, and stress on both faces."""

from __future__ import annotations

import numpy as np

from sections.errors import Fault, ShapeError
from sections.geometry.walls import Walls
from sections.midline import Midline
from sections.plastic.lines import plastic_modulus
from sections.result import Array, Section, warping_dies_out
from sections.walls.kernel import ThinWalls, solve_walls
from sections.walls.stations import Stations, stations


def walls_section(walls: Walls) -> Section:
    """Properties and stresses of thin walls.

    Stiffnesses and plastic moduli are those of the mid-line, without any wall's own second moment, so that shear
    flows balance the forces exactly. Bending stress is taken at the true surfaces, half a thickness from the
    mid-line; shear is that of closed flow q/t plus ∓ T t/J of open torsion on the two faces.

    The plastic moduli of the true outline differ where the equal-area line runs inside a wall along its length
    (a tee, a wide hat): a wall of length b then adds up to b t²/4, which mid-line theory leaves out. There the
    outline is right.

    Shear is nominal: at the inside of a bend the true one peaks. Measured on the outline of a 78 x 70 x 2.5 tube in
    torsion: 1.54, 1.26, 1.08 and 1.02 times the largest value here for inside radii of 0.5, 1, 2 and 3 gauges; in an
    open 80 x 40 x 3 channel 1.33, 1.18, 1.10 and 1.07 times.

    Raises
    ------
    ShapeError : all walls on one straight line; thin-wall theory has no bending stiffness across it.
    """
    extent = np.linalg.svd(walls.nodes - walls.nodes.mean(axis=0), compute_uv=False)
    if extent[1] <= 1e-9 * extent[0]:
        raise ShapeError(
            "walls", [Fault("", "", "all lie on one straight line; give this section as an outline")]
        )
    thin = solve_walls(
        walls.nodes,
        walls.ends,
        walls.thickness,
        walls.seams,
        walls.seam_conductance,
        walls.E_ratio,
        walls.G_ratio,
    )
    places = stations(walls)
    points, stress, warping = _surface(walls, thin, places)
    start, stop = walls.nodes[walls.ends[:, 0]], walls.nodes[walls.ends[:, 1]]
    wall_area = np.linalg.norm(stop - start, axis=1) * walls.thickness
    box = np.array([points.min(axis=0), points.max(axis=0)])
    (Izz, Iyz), (_, Iyy) = thin.inertia
    return Section(
        engine="walls",
        area=float(thin.area),
        centroid=thin.centroid,
        Iyy=float(Iyy),
        Izz=float(Izz),
        Iyz=float(Iyz),
        J=float(thin.J),
        Cw=float(thin.Cw),
        shear_centre=thin.shear_centre,
        shear_tensor=thin.shear_tensor,
        Wpl_y=plastic_modulus(start[:, 1], stop[:, 1], wall_area),
        Wpl_z=plastic_modulus(start[:, 0], stop[:, 0], wall_area),
        closed=warping_dies_out(float(thin.Cw), float(thin.J), float(Iyy + Izz), float(thin.area)),
        box=box,
        points=points,
        stress=stress,
        warping=warping,
        midline=_midline(walls, thin),
        strength=_strength(walls, places),
        idle_area=walls.idle_area + float(wall_area @ (walls.density_ratio - walls.E_ratio)),
    )


def _midline(walls: Walls, thin: ThinWalls) -> Midline:
    flow, seam_flow = (_at_centroid(thin, each) for each in (thin.flow, thin.seam_flow))
    return Midline(
        walls.nodes,
        walls.ends,
        walls.thickness,
        walls.strength,
        walls.E_ratio,
        walls.seams,
        flow,
        seam_flow,
        thin.omega,
    )


def _at_centroid(thin: ThinWalls, flow: Array) -> Array:
    """(..., 6) flow of the six unit actions at the centroid from that (..., 3) of Vy, Vz through the shear centre
    and T: a force through the centroid is one through the shear centre and a torque."""
    y, z = thin.shear_centre - thin.centroid
    made = np.zeros((*flow.shape[:-1], 6))
    made[..., 1:4] = flow @ np.array([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [z, -y, 1.0]])
    return made


def _strength(walls: Walls, places: Stations) -> Array:
    """(2k,) strength at the surface points, of the weaker wall where two meet; empty where all is 1."""
    if np.all(walls.strength == 1):
        return np.zeros(0)
    at = np.minimum(walls.strength[places.wall], walls.strength[places.other])
    return np.concatenate([at, at])


def _surface(walls: Walls, thin: ThinWalls, places: Stations) -> tuple[Array, Array, Array]:
    """Points (2k, 2) on the left, then the right faces, their stress (2k, 3, 6) and warping (2k,)."""
    ends = walls.ends[places.wall]
    at = places.at[:, None]
    mid = walls.nodes[ends[:, 0]] * (1 - at) + walls.nodes[ends[:, 1]] * at
    omega = thin.omega[ends[:, 0]] * (1 - places.at) + thin.omega[ends[:, 1]] * places.at
    thickness = walls.thickness[places.wall][:, None]
    parabola = np.hstack([(1 - at) * (1 - 2 * at), 4 * at * (1 - at), at * (2 * at - 1)])
    membrane = (parabola[:, None, :] @ thin.flow[places.wall])[:, 0] / thickness
    membrane *= np.maximum(walls.shear_rise[places.wall], walls.shear_rise[places.other])[:, None]

    stiff = np.maximum(walls.E_ratio[places.wall], walls.E_ratio[places.other])
    twisted = thickness[:, 0] * np.maximum(walls.G_ratio[places.wall], walls.G_ratio[places.other])
    faces = [_face(thin, places, mid, membrane, twisted, stiff, side) for side in (1.0, -1.0)]
    points, stress = (np.concatenate(pair) for pair in zip(*faces, strict=True))
    return points, stress, np.concatenate([omega * stiff, omega * stiff])


def _face(
    thin: ThinWalls, places: Stations, mid: Array, membrane: Array, twisted: Array, stiff: Array, side: float
) -> tuple[Array, Array]:
    """Points and unit-action stress of one face: side 1 is the left of the tangent, −1 the right.

    twisted : (k,) thickness times the ratio of shear moduli. stiff : (k,) ratio of moduli.
    """
    points = mid + side * places.reach
    shear = membrane.copy()
    # A twist turns anticlockwise, so on the left of the tangent open-torsion shear runs against it.
    shear[:, 2] -= side * twisted / thin.J
    shear = _at_centroid(thin, shear)[:, 1:4]

    stress = np.zeros((len(points), 3, 6))
    stress[:, 0, 0] = 1 / thin.area
    stress[:, 0, 4:] = (points - thin.centroid) @ np.linalg.inv(thin.inertia) @ [[0.0, -1.0], [1.0, 0.0]]
    stress[:, 0] *= stiff[:, None]
    stress[:, 1:, 1:4] = places.tangent[:, :, None] * shear[:, None, :]
    return points, stress
