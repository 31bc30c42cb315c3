"""The one beam routine: section compliance integrated along the member (flexibility method).

Element axes: x from end i to end j along the node line, y and z of the section; r = L − x is the distance to
end j. The section forces about the node line at r follow from the forces (F, M) on the element at end j:

    force = F + ∫ w        moment = M + r ex × F + ∫ ((ξ − x) ex + c) × w dξ

c is the centroid's offset from the node line, on which line loads w act. The displacement of end j relative to
end i carried along rigidly is v = f Q + v_p with f = ∫ Bᵀ C B dx, B = 1 + r A the forces at r from Q, and C the
section's compliance about the node line. As B and the forces of a line load are polynomials in r, all that is
needed of the section are the moments Ck = ∫ C rᵏ dx. Line loads vary linearly and enter by six numbers,
(wx, wy, wz) at end i and at end j. Reference: force-based beam formulation, e.g. McGuire, Gallagher & Ziemian,
Matrix Structural Analysis, 2nd ed., ch. 4 (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.errors import IllConditioned
from loadpath.frame.mesh import Elements
from loadpath.model import STATION_WEIGHTS, TAPER_STATIONS

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

_POWERS = np.arange(5)


@dataclass(frozen=True, eq=False)
class BeamMatrices:
    """What an element answers, in element axes.

    Attributes
    ----------
    rigidity : (ne, 6, 6) forces Q on end j from the relative displacement v.
    from_load : (ne, 6, 6) Q from the line load with both ends clamped.
    resultant : (ne, 6, 6) force and moment of the line load about end i.
    relative : (ne, 6, 12) v from the displacements of both ends.
    """

    rigidity: Array
    from_load: Array
    resultant: Array
    relative: Array

    def stiffness(self) -> Array:
        """(ne, 12, 12) in element axes."""
        return _t(self.relative) @ (self.rigidity @ self.relative)

    def clamped_forces(self) -> Array:
        """(ne, 12, 6) forces that clamps put on both ends, per line-load number."""
        forces = _t(self.relative) @ self.from_load
        forces[:, :6] -= self.resultant
        return forces


def _t(a: Array) -> Array:
    return np.swapaxes(a, -1, -2)


def cross_matrix(v: Array) -> Array:
    """(..., 3, 3) matrices with m @ a = v × a for vectors v (..., 3)."""
    m = np.zeros((*v.shape, 3))
    m[..., 0, 1], m[..., 0, 2] = -v[..., 2], v[..., 1]
    m[..., 1, 0], m[..., 1, 2] = v[..., 2], -v[..., 0]
    m[..., 2, 0], m[..., 2, 1] = -v[..., 1], v[..., 0]
    return m


def beam_matrices(elements: Elements) -> BeamMatrices:
    """Rigidity and clamped-end forces of all elements at once; end fixities condensed."""
    length, offset = elements.length, elements.offset
    c = _compliance_moments(elements)
    flexibility = c[0] + _lever(c[1]) + _t(_lever(c[1])) + _t(_lever(_t(_lever(c[2]))))
    one, two, three = _load_polynomial(length, offset)
    pull = [c[k] + _t(_lever(c[k + 1])) for k in (1, 2, 3)]
    free = pull[0] @ one + pull[1] @ two + pull[2] @ three
    resultant, relative = _load_resultant(length, offset), _relative(length)
    rigid = np.isinf(elements.fixity).all(axis=(1, 2))
    rigidity, from_load = np.zeros_like(flexibility), np.zeros_like(flexibility)
    try:
        if rigid.any():
            rigidity[rigid] = np.linalg.inv(flexibility[rigid])
            from_load[rigid] = -rigidity[rigid] @ free[rigid]
        for e in np.flatnonzero(~rigid):
            rigidity[e], from_load[e] = _with_fixity(
                flexibility[e], free[e], resultant[e], relative[e], elements.fixity[e]
            )
    except np.linalg.LinAlgError:
        worst = int(np.linalg.cond(flexibility).argmax())
        raise IllConditioned(
            f"the stiffness of {elements.part[worst]}.{elements.member[worst]} cannot be worked out: its length, "
            "offset, section and moduli lie too many orders apart"
        ) from None
    return BeamMatrices(rigidity, from_load, resultant, relative)


def _compliance_moments(elements: Elements) -> Array:
    """(5, ne, 6, 6) moments ∫ C rᵏ dx of the compliance about the node line, k = 0..4."""
    length, station = elements.length, elements.section_at
    powers = length ** (_POWERS[:, None] + 1)
    moments = (powers / (_POWERS[:, None] + 1))[..., None, None] * elements.compliances[station[:, 0]]
    tapered = (station != station[:, :1]).any(axis=1)
    if tapered.any():
        weights = STATION_WEIGHTS * (1 - TAPER_STATIONS) ** _POWERS[:, None]
        summed = np.einsum("ks,esij->keij", weights, elements.compliances[station[tapered]])
        moments[:, tapered] = powers[:, tapered, None, None] * summed
    aside = elements.offset.any(axis=1)
    if aside.any():
        to_centroid = np.zeros((int(aside.sum()), 6, 6))
        to_centroid[:, range(6), range(6)] = 1.0
        to_centroid[:, 3:, :3] = -cross_matrix(_arm(elements.offset[aside]))
        moments[:, aside] = _t(to_centroid) @ moments[:, aside] @ to_centroid
    return moments


def _arm(offset: Array) -> Array:
    """(n, 3) offsets (y, z) as vectors."""
    arm = np.zeros((len(offset), 3))
    arm[:, 1:] = offset
    return arm


def _lever(c: Array) -> Array:
    """C A for A that turns a force into the moment ex × F: columns y and z from those of Mz and −My."""
    product = np.zeros_like(c)
    product[..., 1] = c[..., 5]
    product[..., 2] = -c[..., 4]
    return product


def _load_polynomial(length: Array, offset: Array) -> tuple[Array, Array, Array]:
    """(ne, 6, 6) each: section forces about the node line of a line load are r S1 + r² S2 + r³ S3."""
    n = len(length)
    one, two, three = (np.zeros((n, 6, 6)) for _ in range(3))
    half, sixth = 0.5 / length, 1 / 6 / length
    for k in range(3):
        one[:, k, 3 + k] = 1.0
        two[:, k, k], two[:, k, 3 + k] = half, -half
    about = cross_matrix(_arm(offset))
    one[:, 3:, 3:] = about
    two[:, 3:, :3] = half[:, None, None] * about
    two[:, 3:, 3:] = -two[:, 3:, :3]
    two[:, 4, 5] -= 0.5
    two[:, 5, 4] += 0.5
    three[:, 4, 2], three[:, 5, 1] = -sixth, sixth
    three[:, 4, 5], three[:, 5, 4] = sixth, -sixth
    return one, two, three


def _load_resultant(length: Array, offset: Array) -> Array:
    """(ne, 6, 6) force and moment about end i of the line load."""
    p = np.zeros((len(length), 6, 6))
    half = length / 2
    for k in range(3):
        p[:, k, k] = p[:, k, k + 3] = half
    for column, lever in ((0, length**2 / 6), (3, length**2 / 3)):
        arm = _arm(offset * half[:, None])
        arm[:, 0] = lever
        p[:, 3:, column : column + 3] = cross_matrix(arm)
    return p


def _relative(length: Array) -> Array:
    """(ne, 6, 12) displacement of end j relative to end i carried along rigidly."""
    d = np.zeros((len(length), 6, 12))
    d[:, range(6), range(6)] = -1.0
    d[:, range(6), range(6, 12)] = 1.0
    d[:, 1, 5] = -length
    d[:, 2, 4] = length
    return d


def forces_at(elements: Elements, rows: Ints, fractions: Array, end_forces: Array, line: Array) -> Array:
    """Section forces about the centroid at places along elements.

    Parameters
    ----------
    rows : (m,) elements. fractions : (m,) of their lengths from end i.
    end_forces : (ne, 6, nc) on end j. line : (ne, 6, nc) line-load numbers; both in element axes.

    Returns
    -------
    (m, 6, nc) N, Vy, Vz, T, My, Mz.
    """
    found, w = end_forces[rows], line[rows]
    x = fractions[:, None, None]
    r = elements.length[rows][:, None, None] * (1 - x)
    near, far = r / 2 * (1 - x), r / 2 * (1 + x)
    lever = r * found[:, 1:3] + r / 3 * (near * w[:, 1:3] + (far + r / 2) * w[:, 4:6])
    y, z = elements.offset[rows].T[:, :, None]
    found[:, 3] += z * found[:, 1] - y * found[:, 2]
    found[:, 4] -= z * found[:, 0] + lever[:, 1]
    found[:, 5] += y * found[:, 0] + lever[:, 0]
    found[:, :3] += near * w[:, :3] + far * w[:, 3:]
    return found


def _with_fixity(
    flexibility: Array, free: Array, resultant: Array, relative: Array, rates: Array
) -> tuple[Array, Array]:
    """Rigidity and clamped-end force of one element whose ends are semi-rigid or released.

    A rate adds the compliance 1/rate in series. A released freedom (rate 0) takes the force out: Q is kept
    to the space of forces that vanish there, which also condenses the load.
    """
    to_i = relative[:, :6]  # forces on end i are to_iᵀ Q − resultant
    series = [np.where(r > 0, 1.0 / np.where(r > 0, r, 1.0), 0.0) for r in rates]
    f = flexibility + np.diag(series[1]) + to_i @ np.diag(series[0]) @ to_i.T
    v = free - to_i @ np.diag(series[0]) @ resultant
    held = np.vstack([to_i.T[rates[0] == 0], np.eye(6)[rates[1] == 0]])
    value = np.vstack([resultant[rates[0] == 0], np.zeros(((rates[1] == 0).sum(), 6))])
    if not len(held):
        rigidity = np.linalg.inv(f)
        return rigidity, -rigidity @ v
    u, sigma, vt = np.linalg.svd(held)
    rank = int((sigma > 1e-9 * sigma[0]).sum())
    q0 = vt[:rank].T @ ((u[:, :rank].T @ value) / sigma[:rank, None])
    z = vt[rank:].T
    rigidity = z @ np.linalg.solve(z.T @ f @ z, z.T) if rank < 6 else np.zeros((6, 6))
    return rigidity, q0 - rigidity @ (v + f @ q0)
