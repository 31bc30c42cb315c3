"""Weld groups as lines: properties per throat, and the stress that joint forces make in each weld.

Each weld is a straight line with a throat, all in the plane of the joint; the group carries force and moment as a
beam section of those lines would (any handbook; O. W. Blodgett, Design of Welded Structures, has the table). With
the default throat of 1 mm every property is per millimetre of throat and every stress a force per length of weld
[N/mm].

Axes and signs are those of a section: y to the right, z up, x out of the joint's plane towards the viewer;
N, Vy, Vz [N], T, My, Mz [N·mm] act on the face whose outward normal is +x.

Left out: which part of the joint is stiff and which gives way. The lines deform as one rigid plate against a rigid
one; where a thin wall meets an open edge, its weld carries less than this and its neighbours more.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from sections.errors import FaultList
from sections.midline import Array, Midline


@dataclass(frozen=True, eq=False)
class WeldLines:
    """Straight welds; a curved one is a chain of short ones.

    Attributes
    ----------
    start, stop : (k, 2) y, z of the ends of each weld [mm].
    throat : (k,) throat thickness [mm]; one number stands for all, 1 gives everything per throat.

    Raises
    ------
    ShapeError : no welds, a weld of no length, a throat not above zero, coordinates that are not numbers.
    """

    start: Array
    stop: Array
    throat: Array | float = 1.0

    def __post_init__(self) -> None:
        object.__setattr__(self, "start", _places(self.start))
        object.__setattr__(self, "stop", _places(self.stop))
        throat = np.array(np.broadcast_to(np.asarray(self.throat, dtype=float), len(self.start)))
        object.__setattr__(self, "throat", throat)
        faults = FaultList("weld lines")
        if not len(self.start) or len(self.start) != len(self.stop):
            faults.add("start, stop", f"{len(self.start)}, {len(self.stop)}", "as many of each, at least one")
        elif not (np.all(np.isfinite(self.start)) and np.all(np.isfinite(self.stop))):
            faults.add("start, stop", "", "every coordinate must be a finite number")
        faults.raise_any()
        for k in np.flatnonzero(self.length <= 0):
            faults.add(f"weld {k + 1}", "0 mm", "has no length")
        for k in np.flatnonzero(~(throat > 0) | ~np.isfinite(throat)):
            faults.add(f"throat of weld {k + 1}", f"{throat[k]:.6g} mm", "must be above 0 mm")
        faults.raise_any()

    @property
    def length(self) -> Array:
        """(k,) [mm]."""
        return np.asarray(np.linalg.norm(self.stop - self.start, axis=1))

    @property
    def along(self) -> Array:
        """(k, 2) unit vectors from start to stop."""
        return np.asarray((self.stop - self.start) / self.length[:, None])

    @property
    def area(self) -> float:
        """Throat area [mm²]; the length [mm] for a throat of 1."""
        return float((self.length * self.throat).sum())

    @property
    def centroid(self) -> Array:
        """(2,) y, z [mm]."""
        weight = self.length * self.throat
        return np.asarray(weight @ (self.start + self.stop) / (2 * weight.sum()))

    @property
    def inertia(self) -> Array:
        """(2, 2) [[Izz, Iyz], [Iyz, Iyy]] about the centroid [mm⁴]; [mm³] for a throat of 1."""
        weight, centre = (self.length * self.throat)[:, None], self.centroid
        a, b = self.start - centre, self.stop - centre
        return np.asarray(((weight * a).T @ (2 * a + b) + (weight * b).T @ (a + 2 * b)) / 6)

    @property
    def J(self) -> float:
        """Polar second moment Iyy + Izz about the centroid [mm⁴]; [mm³] for a throat of 1."""
        return float(np.trace(self.inertia))

    @property
    def moduli(self) -> dict[str, float]:
        """Moduli about y at the top and bottom, about z at the right and left [mm³]; [mm²] for a throat of 1.

        Oblique principal axes are left out of account, as handbook tables do. An axis that all welds lie on has none:
        0 there.
        """
        ends = np.vstack([self.start, self.stop]) - self.centroid
        (Izz, _), (_, Iyy) = self.inertia
        (left, bottom), (right, top) = ends.min(axis=0), ends.max(axis=0)
        places = {"top": (Iyy, top), "bottom": (Iyy, -bottom), "right": (Izz, right), "left": (Izz, -left)}
        return {name: float(second / far) if far > 0 else 0.0 for name, (second, far) in places.items()}

    def stress(self, forces: ArrayLike, at: ArrayLike | None = None) -> Array:
        """Stress at both ends of every weld, between which it is linear.

        Parameters
        ----------
        forces : (6, ...) N, Vy, Vz [N], T, My, Mz [N·mm].
        at : (2,) y, z of the point that they act at [mm]; default the centroid of the welds.

        Returns
        -------
        (k, 2, 3, ...) for each weld, at its start and stop [MPa], or [N/mm] for a throat of 1: along the weld from
        start to stop; across it in the joint's plane, positive to the left of that direction; square to the plane.

        Raises
        ------
        ShapeError : bending about an axis that all welds lie on; a line cannot carry it.
        """
        given = np.asarray(forces, dtype=float)
        normal, vy, vz, torque, my, mz = given
        centre = self.centroid
        y, z = np.zeros(2) if at is None else np.asarray(at, dtype=float) - centre
        bending = np.stack([-(mz - normal * y), my + normal * z])
        slope = self._slopes(bending)
        twist = (torque + y * vz - z * vy) / self.J
        place = np.stack([self.start, self.stop], axis=1) - centre
        out = normal / self.area + np.tensordot(place, slope, axes=(2, 0))
        arm = np.stack([-place[..., 1], place[..., 0]], axis=-1)
        shear = np.stack([vy, vz]) / self.area
        in_plane = np.multiply.outer(arm, twist) + shear
        left = np.stack([-self.along[:, 1], self.along[:, 0]], axis=1)
        along, across = (
            np.einsum("kei...,ki->ke...", in_plane, direction) for direction in (self.along, left)
        )
        return np.stack([along, across, out], axis=2)

    def _slopes(self, bending: Array) -> Array:
        """(2, ...) slope of the normal stress along y and z."""
        values, axes = np.linalg.eigh(self.inertia)
        parts = np.tensordot(axes.T, bending, axes=1)
        flat = values <= 1e-12 * values.max()
        if np.any(np.abs(parts[flat]) > 1e-9 * np.abs(bending).max(initial=1e-300)):
            faults = FaultList("weld lines")
            faults.add("", "", "all welds lie on one line, which cannot carry a moment about itself")
            faults.raise_any()
        slopes = np.where(flat, 0.0, 1 / np.where(flat, 1.0, values))
        return np.asarray(np.tensordot(axes, (slopes * parts.T).T, axes=1))


def weld_along(midline: Midline, throat: ArrayLike = 1.0) -> WeldLines:
    """Welds all along the walls of a section, as where a member is welded on with its whole end."""
    return WeldLines(midline.start, midline.stop, np.asarray(throat, dtype=float))


def weld_round(
    diameter: float, throat: float = 1.0, count: int = 72, centre: ArrayLike = (0.0, 0.0)
) -> WeldLines:
    """A weld round a circle, as chords that have its length."""
    from sections.geometry import circle

    ring = circle(diameter / 2, count, "length") + np.asarray(centre, dtype=float)
    return WeldLines(ring, np.roll(ring, -1, axis=0), throat)


def fillet_throat(stress: Array, side: int) -> Array:
    """σ⊥, τ⊥, τ∥ [MPa] on the throat of fillets at 45° (EN 1993-1-8 4.5.3.2) from stress by `WeldLines.stress`.

    Parameters
    ----------
    stress : (k, 2, 3, ...) along, across, square to the plane.
    side : 1 where the fillet lies to the left of its direction, −1 to the right; it decides the throat plane.

    Returns
    -------
    (k, 2, 3, ...) in the same order of axes. sqrt(σ⊥² + 3 (τ⊥² + τ∥²)) is the standard's comparison stress.
    """
    along, across, out = stress[:, :, 0], side * stress[:, :, 1], stress[:, :, 2]
    return np.stack([(out + across) / np.sqrt(2), (out - across) / np.sqrt(2), along], axis=2)


def _places(values: ArrayLike) -> Array:
    return np.array(values, dtype=float).reshape(-1, 2)
