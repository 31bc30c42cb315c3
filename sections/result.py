"""The one result type of both section engines.

Section axes: y to the right, z up, x along the member towards the viewer (right-handed). A section is
drawn in its own y, z coordinates; forces act on the face whose outward normal is +x:

    N  = ∫ σ dA          Vy = ∫ τxy dA        Vz = ∫ τxz dA        (through the centroid)
    T  = ∫ (y τxz − z τxy) dA                                      (about the centroid)
    My = ∫ σ z dA        Mz = −∫ σ y dA                            (about the centroid)

so that σ = N/A + My z/Iyy − Mz y/Izz on principal axes, y and z measured from the centroid.
Units: mm, N, MPa.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from sections.midline import MIRROR_ACTIONS, Midline
from sections.plastic import PlasticSurface, lines_surface, rings_surface
from sections.plastic.lines import plastic_modulus as plastic_modulus_of_lines
from sections.plastic.rings import plastic_modulus as plastic_modulus_of_rings
from sections.plates import PlatePart, plate_parts

Array = NDArray[np.float64]
ACTIONS = ("N", "Vy", "Vz", "T", "My", "Mz")
"""Order of the six section forces in every array of this package."""

_MIRROR_STRESS = np.array([1.0, -1.0, 1.0])


@dataclass(frozen=True, eq=False)
class Section:
    """Properties of one cross-section and its stress under unit actions.

    Attributes
    ----------
    engine : which theory made it: "walls" (thin-walled mid-line) or "outline" (2-D finite elements).
    area : A [mm²]. Of walls of several materials this and all stiffnesses are those of an equivalent section of the
        section's own material.
    centroid : (2,) y, z in drawing coordinates [mm].
    Iyy, Izz, Iyz : ∫z² dA, ∫y² dA, ∫yz dA about the centroid [mm⁴].
    J : torsion constant [mm⁴].
    Cw : warping constant about the shear centre [mm⁶].
    shear_centre : (2,) y, z in drawing coordinates [mm].
    shear_tensor : (2, 2) [1/mm²]; mean shear strains (γy, γz) = shear_tensor @ (Vy, Vz) / G for forces
        through the shear centre. 1/shear_tensor[0, 0] is the energy shear area for Vy where the tensor is
        diagonal.
    Wpl_y, Wpl_z : plastic moduli [mm³]: Σ|z| dA about the equal-area line parallel to y, and Σ|y| dA about
        the one parallel to z.
    closed : True where Saint-Venant torsion rules, as with a closed cell or a compact shape: a warping restraint
        dies out within one and a half polar radii of gyration. False for open thin walls, whose torsion is ruled
        by warping. (Angles and tees count as True: all their walls meet in the shear centre.)
    box : (2, 2) smallest and largest y, z of the drawn section [mm].
    points : (n, 2) surface points in drawing coordinates [mm].
    stress : (n, 3, 6) unit-action stress matrices: σ, τxy, τxz [MPa] at each surface point for unit
        N, Vy, Vz [N], T, My, Mz [N·mm], all acting at the centroid.
    warping : (n,) ω at each surface point about the shear centre, zero on average [mm²]: the axial displacement
        is θ' ω under a twist rate θ', and a bimoment B [N·mm²] gives σ = B ω/Cw. Empty where not given. Of walls of
        another material it is ω times their ratio of moduli.
    midline : its walls, with the shear flow of every unit action and the warping at every wall where the wall engine
        made it; None where no walls are known.
    rings : (k, 2) each, the rings of its outline, material on the left; empty where the wall engine made it.
    strength : (n,) allowable stress at each surface point over that of the grade, 1 but in heat-affected zones. Empty
        where it is 1 everywhere.
    idle_area : material without stiffness that counts for mass only [mm²].
    """

    engine: Literal["walls", "outline"]
    area: float
    centroid: Array
    Iyy: float
    Izz: float
    Iyz: float
    J: float
    Cw: float
    shear_centre: Array
    shear_tensor: Array
    Wpl_y: float
    Wpl_z: float
    closed: bool
    box: Array
    points: Array
    stress: Array
    warping: Array = field(default_factory=lambda: np.zeros(0))
    midline: Midline | None = None
    rings: tuple[Array, ...] = ()
    strength: Array = field(default_factory=lambda: np.zeros(0))
    idle_area: float = 0.0

    @property
    def weakest(self) -> float:
        """Least strength of the material at any surface point, over that of the grade."""
        return float(self.strength.min(initial=1.0))

    @property
    def weighed_area(self) -> float:
        """Area of all material, that without stiffness included [mm²]."""
        return self.area + self.idle_area

    @property
    def shear_offset(self) -> Array:
        """(2,) shear centre from the centroid, y and z [mm]."""
        return self.shear_centre - self.centroid

    @property
    def principal(self) -> tuple[float, float, float]:
        """I1 ≥ I2 [mm⁴] and the angle [rad] from the y axis, turning towards z, to the axis of I1."""
        mean, half = (self.Iyy + self.Izz) / 2, (self.Iyy - self.Izz) / 2
        radius = float(np.hypot(half, self.Iyz))
        angle = 0.5 * float(np.arctan2(-self.Iyz, half)) if radius > 1e-12 * mean else 0.0
        return mean + radius, mean - radius, angle

    @property
    def elastic_moduli(self) -> dict[str, float]:
        """Moduli [mm³] about y at the top and bottom, about z at the right and left, unsymmetry ignored."""
        (y0, z0), (y1, z1) = self.box - self.centroid
        return {
            "Wy_top": self.Iyy / z1,
            "Wy_bottom": self.Iyy / -z0,
            "Wz_right": self.Izz / y1,
            "Wz_left": self.Izz / -y0,
        }

    def mass_per_metre(self, density: float) -> float:
        """Mass [kg/m] for a density [kg/m³]."""
        return self.weighed_area * density * 1e-6

    @cached_property
    def von_mises_form(self) -> Array:
        """(n, 21) the squared von Mises stress at the surface points as a form of the six forces.

        σ² + 3 τ² = Σ form[:, k] F[a] F[b] over the pairs a ≤ b in the order of numpy.triu_indices(6). Where the
        material is weaker the stress is divided by its strength, so that one allowable serves all points.
        """
        weighted = self.stress * np.array([1.0, 3.0, 3.0])[:, None]
        square = np.swapaxes(self.stress, 1, 2) @ weighted
        a, b = np.triu_indices(6)
        form: Array = square[:, a, b] * np.where(a == b, 1.0, 2.0)
        return form / self.strength[:, None] ** 2 if len(self.strength) else form

    @cached_property
    def unit_peaks(self) -> Array:
        """(6,) largest von Mises stress on the surface under a unit of each force [MPa/N, MPa/(N·mm)]."""
        a, b = np.triu_indices(6)
        peaks: Array = np.sqrt(self.von_mises_form[:, a == b].max(axis=0, initial=0.0))
        return peaks

    @cached_property
    def plastic_surface(self) -> PlasticSurface | None:
        """Axial force and both moments that the fully plastic section carries; None where its geometry is not known.

        Of a section by walls it is that of the mid-lines, which leave out b t²/4 of a wall along the neutral line.
        """
        if self.rings:
            inertia = np.array([[self.Izz, self.Iyz], [self.Iyz, self.Iyy]])
            return rings_surface(self.rings, self.area, inertia, self.centroid)
        if self.midline is None:
            return None
        line = self.midline
        return lines_surface(line.start, line.stop, line.plastic_area, self.centroid)

    def plastic_modulus(self, angle: float) -> float:
        """Σ|distance| dA [mm³] about the equal-area line at an angle [rad] from the y axis, turning towards z.

        Bending about that neutral line; where the section is not symmetric about it the plastic moment it belongs to
        has a component about the line square to it as well, see `plastic_surface`.

        Raises
        ------
        ValueError : where the section's geometry is not known.
        """
        across = np.array([-np.sin(angle), np.cos(angle)])
        if self.rings:
            turn = np.column_stack([[across[1], -across[0]], across])
            return plastic_modulus_of_rings([ring @ turn for ring in self.rings])
        if self.midline is None:
            raise ValueError("the geometry of this section is not known")
        line = self.midline
        return plastic_modulus_of_lines(line.start @ across, line.stop @ across, line.plastic_area)

    @cached_property
    def plates(self) -> tuple[PlatePart, ...]:
        """Its walls as flat and curved parts that may buckle; empty where no walls are known."""
        return () if self.midline is None else plate_parts(self.midline)

    def plate_stress(self, forces: Array, bimoments: Array) -> Array:
        """(p, 2, m) normal stress [MPa] at the start and stop of each of its `plates`, of curved ones the least and
        the largest, on the mid-line, for forces (6, m) at the centroid and bimoments (m,) [N·mm²]."""
        if self.midline is None:
            return np.zeros((0, 2, forces.shape[1]))
        inertia = np.array([[self.Izz, self.Iyz], [self.Iyz, self.Iyy]])
        slope = np.linalg.solve(inertia, np.stack([-forces[5], forces[4]]))
        at_nodes: Array = forces[0] / self.area + (self.midline.nodes - self.centroid) @ slope
        if len(self.midline.omega) and bimoments.any():
            at_nodes += self.midline.omega[:, None] * bimoments / self.Cw
        stress: Array = at_nodes[np.array([part.ends for part in self.plates])]
        for k, part in enumerate(self.plates):
            if part.kind == "curved":
                along = at_nodes[list(part.path)]
                stress[k] = along.min(axis=0), along.max(axis=0)
        stress *= self.midline.E_ratio[[part.walls[0] for part in self.plates]][:, None, None]
        return stress

    def stresses(self, forces: Array) -> Array:
        """Stress at the surface points.

        Parameters
        ----------
        forces : (6, ...) N, Vy, Vz [N], T, My, Mz [N·mm] at the centroid.

        Returns
        -------
        (n, 3, ...) σ, τxy, τxz [MPa].
        """
        return np.tensordot(self.stress, forces, axes=(2, 0))

    def von_mises(self, forces: Array) -> Array:
        """(n, ...) von Mises stress [MPa], sqrt(σ² + 3 τ²), for (6, ...) forces (EN 1993-1-1 6.2.1(5))."""
        s = self.stresses(forces)
        return np.sqrt(s[:, 0] ** 2 + 3 * (s[:, 1] ** 2 + s[:, 2] ** 2))

    def worst(self, forces: Array) -> tuple[float, Array]:
        """Largest von Mises stress [MPa] and its point (2,) in drawing coordinates [mm], for (6,) forces."""
        stress = self.von_mises(forces)
        at = int(stress.argmax())
        return float(stress[at]), self.points[at]

    def mirrored(self) -> Section:
        """The same section reflected in its z axis (y → −y)."""
        flip = np.array([-1.0, 1.0])
        return replace(
            self,
            centroid=self.centroid * flip,
            Iyz=-self.Iyz,
            shear_centre=self.shear_centre * flip,
            shear_tensor=self.shear_tensor * np.outer(flip, flip),
            box=np.array([[-self.box[1, 0], self.box[0, 1]], [-self.box[0, 0], self.box[1, 1]]]),
            points=self.points * flip,
            stress=self.stress * _MIRROR_STRESS[None, :, None] * MIRROR_ACTIONS[None, None, :],
            warping=-self.warping,
            midline=None if self.midline is None else self.midline.mirrored(),
            rings=tuple(ring[::-1] * flip for ring in self.rings),
        )


def warping_dies_out(Cw: float, J: float, polar: float, area: float) -> bool:
    """Whether a warping restraint fades within one and a half polar radii of gyration of the section.

    Along a member it fades as exp(−x/d) with d = sqrt(E Cw/(G J)) (Vlasov, Thin-walled Elastic Beams, 1961);
    E/G = 2.6 here. `polar` is Iyy + Izz.
    """
    return bool(2.6 * Cw / J <= 1.5**2 * polar / area)
