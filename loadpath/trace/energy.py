"""Strain energy: where a load case deforms the structure, member by member and joint by joint.

U = ½ ∫ Sᵀ C S dx along each element, S the section forces about the centroid and C the compliance of the section
that the element was made of, at the same seven stations; exact for prismatic elements under linear line
loads. The four shares add up: axial by N, bending by My and Mz, torsion by the torque about the shear centre, shear
by Vy and Vz. Clapeyron's theorem: without force tables all energies add up to half the work of the forces from
outside; e.g. Timoshenko, Strength of Materials, part I, ch. 11 (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.frame import Solution, section_forces
from loadpath.model import STATION_WEIGHTS, Curve
from loadpath.trace.beneath import bushing_movement

Array = NDArray[np.float64]

SPLIT = ("axial", "bending", "torsion", "shear")


@dataclass(frozen=True, eq=False)
class Energies:
    """Strain energies [N·mm] in nc load cases.

    elements : (ne, 4, nc) by SPLIT. ends : (ne, nc) in the semi-rigid ends of members.
    joints : (nj, nc) in bushings, by their force tables where they have any; 0 in ideal joints.
    body : (nc,) in the body behind its points.
    """

    elements: Array
    ends: Array
    joints: Array
    body: Array

    @property
    def total(self) -> Array:
        """(nc,) of everything."""
        members: Array = self.elements.sum(axis=(0, 1)) + self.ends.sum(axis=0)
        whole: Array = members + self.joints.sum(axis=0) + self.body
        return whole


def strain_energies(solution: Solution) -> Energies:
    """Energies of all elements, member ends, bushings and body points."""
    return Energies(
        elements=_element_energies(solution),
        ends=_end_energies(solution),
        joints=_joint_energies(solution),
        body=_body_energies(solution),
    )


def _element_energies(solution: Solution) -> Array:
    elements = solution.system.mesh.elements
    s = section_forces(solution)
    c = elements.compliances[elements.section_at]
    weight = 0.5 * STATION_WEIGHTS * elements.length[:, None]
    twist = c[..., 3, 3]
    about = c[..., 1:4, 3] / twist[..., None]  # turns Vy, Vz, T into the torque about the shear centre
    torque = np.einsum("esi,esic->esc", about, s[:, :, 1:4])
    shear = c[..., 1:4, 1:4] - twist[..., None, None] * about[..., :, None] * about[..., None, :]
    split = [
        np.einsum("es,es,esc->ec", weight, c[..., 0, 0], s[:, :, 0] ** 2),
        _quadratic(weight, c[..., 4:, 4:], s[:, :, 4:]),
        np.einsum("es,es,esc->ec", weight, twist, torque**2),
        _quadratic(weight, shear, s[:, :, 1:4]),
    ]
    return np.stack(split, axis=1)


def _quadratic(weight: Array, compliance: Array, forces: Array) -> Array:
    """(ne, nc) Σ weight forcesᵀ compliance forces over the stations."""
    found: Array = np.einsum("es,esic,esij,esjc->ec", weight, forces, compliance, forces, optimize=True)
    return found


def _end_energies(solution: Solution) -> Array:
    """In semi-rigid ends, from the forces on both ends of each element in element axes."""
    system = solution.system
    at_j = solution.end_forces
    at_i = np.swapaxes(system.beams.relative[:, :, :6], 1, 2) @ at_j - system.beams.resultant @ solution.line
    rates = system.mesh.elements.fixity
    soft = np.isfinite(rates) & (rates > 0)
    give = np.where(soft, 1.0 / np.where(soft, rates, 1.0), 0.0)
    found: Array = 0.5 * np.einsum("eki,ekic->ec", give, np.stack([at_i, at_j], axis=1) ** 2)
    return found


def _joint_energies(solution: Solution) -> Array:
    """F²/2k where the force is rate × movement, else the area under the force table up to the movement."""
    model, springs = solution.system.model, solution.system.springs
    energies = np.zeros((len(solution.joint_names), len(solution.cases)))
    for k, name in enumerate(solution.joint_names):
        joint = model.joints[name]
        if joint.rates is not None:
            own = np.concatenate([joint.axes @ half for half in np.split(solution.joint_forces[k], 2)])
            rates = joint.rates.diagonal()
            straight = (rates > 0) & np.array([curve is None for curve in joint.rates.curves])
            energies[k] = 0.5 * (own[straight] ** 2 / rates[straight, None]).sum(axis=0)
    for k, i, curve in springs.curves:
        moved = bushing_movement(solution, k)[i]
        energies[solution.joint_names.index(springs.names[k])] += [_area(curve, float(e)) for e in moved]
    return energies


def _area(curve: Curve, end: float) -> float:
    """Area under a force table from 0 to a movement; two points of Gauss in each interval meet a cubic exactly."""
    low, high = sorted((0.0, end))
    knots = np.unique(np.clip(np.append(curve.x, [low, high]), low, high))
    middle, half = (knots[1:] + knots[:-1]) / 2, np.diff(knots) / 2
    forces = [curve.value(middle + sign * half / np.sqrt(3.0)) for sign in (-1.0, 1.0)]
    return float(np.sign(end) * (half * (forces[0] + forces[1])).sum())


def _body_energies(solution: Solution) -> Array:
    energy = np.zeros(len(solution.cases))
    for block, rates in solution.system.ground.items():
        force = solution.ground_forces[block, :3]
        energy += 0.5 * (force * np.linalg.solve(rates, force)).sum(axis=0)
    return energy
