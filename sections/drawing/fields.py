"""What is coloured: stress or shear flow over triangles that fill the drawn section."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sections.acting import Acting, Colour, flowing, quantity
from sections.drawing.bands import ACROSS, ALONG, Bands
from sections.geometry import Outline
from sections.geometry.walls import IntArray
from sections.result import Array, Section
from sections.solid import stress_inside

_PARABOLA = np.column_stack([(1 - ALONG) * (1 - 2 * ALONG), 4 * ALONG * (1 - ALONG), ALONG * (2 * ALONG - 1)])


@dataclass(frozen=True, eq=False)
class Field:
    """Values at points of a picture.

    Attributes
    ----------
    points : (n, 2) [mm]. triangles : (k, 3). values : (n,) in the unit of the quantity.
    known : (n,) False where theory has no finite value.
    """

    points: Array
    triangles: IntArray
    values: Array
    known: NDArray[np.bool_]


def field_in_walls(drawn: Bands, made: Section, acting: Acting, colour: Colour) -> Field:
    """The quantity in thin walls drawn as bands, as the wall engine has it: linear across each wall."""
    flow = _PARABOLA @ flowing(made).shear_flow(acting.forces)[..., None]
    if colour == "flow":
        values = np.broadcast_to(np.abs(flow), drawn.grid.shape[:3])
    else:
        values = quantity(colour, *_wall_stress(drawn, made, acting, flow))
    return Field(
        drawn.grid.reshape(-1, 2),
        _cells(drawn.grid.shape[:3]),
        values.reshape(-1),
        np.ones(values.size, bool),
    )


def _wall_stress(drawn: Bands, made: Section, acting: Acting, flow: Array) -> tuple[Array, Array]:
    """σ and τ (m, along, across): bending by place, closed flow q/t, raised beside holes, and open torsion
    ∓ T t/J on the faces; both in their material."""
    N, Vy, Vz, T, My, Mz = acting.forces
    inertia = np.array([[made.Izz, made.Iyz], [made.Iyz, made.Iyy]])
    slope = np.linalg.solve(inertia, [-Mz, My])
    normal = N / made.area + (drawn.grid - made.centroid) @ slope
    line = flowing(made)
    if acting.bimoment:
        omega = line.omega[line.ends]
        along = omega[:, :1] * (1 - ALONG) + omega[:, 1:] * ALONG
        normal = normal + acting.bimoment / made.Cw * along[:, :, None]
    normal = normal * drawn.E_ratio[:, None, None]
    y, z = made.shear_offset
    torque = T - (y * Vz - z * Vy)
    thickness = line.thickness[:, None, None]
    closed = flow / thickness * drawn.shear_rise[:, None, None]
    twist = thickness * drawn.G_ratio[:, None, None] * torque / made.J
    return normal, closed - ACROSS * twist


def field_in_outline(outline: Outline, made: Section, acting: Acting, colour: Colour, nu: float) -> Field:
    """The quantity inside an outline, by its finite elements.

    Raises
    ------
    ShapeError : for shear flow, which only thin walls have.
    """
    if colour == "flow":
        flowing(made)
    inside = stress_inside(outline, nu)
    stress = inside.stress @ acting.forces
    normal = stress[:, 0]
    if acting.bimoment:
        normal = normal + acting.bimoment / made.Cw * inside.warping
    values = quantity(colour, normal, np.hypot(stress[:, 1], stress[:, 2]))
    return Field(inside.points, inside.triangles, values, ~inside.near_notch)


def _cells(shape: tuple[int, ...]) -> IntArray:
    """(k, 3) triangles of the grid of every band."""
    number = np.arange(int(np.prod(shape))).reshape(shape)
    a, b = number[:, :-1, :-1], number[:, 1:, :-1]
    c, d = number[:, 1:, 1:], number[:, :-1, 1:]
    both = [np.stack(t, axis=-1).reshape(-1, 3) for t in ((a, b, c), (a, c, d))]
    return np.concatenate(both)
