"""The one beam routine: section compliance integrated along the member (flexibility method).

Element axes: x from end i to end j along the node line, y and z of the section. With r = L − x the section
forces about the centroid at station x follow from the forces (F, M) on the element at end j:

    force = F + ∫ w        moment = M + (r ex − c) × F + ∫ (ξ − x) ex × w dξ

c is the centroid's offset from the node line. The displacement of end j relative to end i carried along
rigidly is v = f Q + v_p, f = ∫ Bᵀ C B dx. Everything else follows from equilibrium. Line loads w vary
linearly and act at the centroid; they enter by six numbers, (wx, wy, wz) at end i and at end j.
Reference: force-based beam formulation, e.g. McGuire, Gallagher & Ziemian, Matrix Structural Analysis,
2nd ed., ch. 4 (from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.mesh import Elements
from loadpath.model import TAPER_STATIONS

Array = NDArray[np.float64]

# Gauss-Lobatto weights on [0, 1]: 1 / (n (n − 1) P_{n−1}(x)²) with n = 7.
STATION_WEIGHTS = 1.0 / (42.0 * np.polynomial.Legendre.basis(6)(2 * TAPER_STATIONS - 1) ** 2)


@dataclass(frozen=True, eq=False)
class BeamMatrices:
    """What an element answers, in element axes.

    Attributes
    ----------
    from_end : (ne, 7, 6, 6) section forces at the stations from the forces Q on end j.
    from_line : (ne, 7, 6, 6) section forces at the stations from the line load's six numbers.
    rigidity : (ne, 6, 6) Q from the relative displacement v.
    from_load : (ne, 6, 6) Q from the line load with both ends clamped.
    resultant : (ne, 6, 6) force and moment of the line load about end i.
    relative : (ne, 6, 12) v from the displacements of both ends.
    """

    from_end: Array
    from_line: Array
    rigidity: Array
    from_load: Array
    resultant: Array
    relative: Array

    def stiffness(self) -> Array:
        """(ne, 12, 12) in element axes."""
        return _t(self.relative) @ self.rigidity @ self.relative

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


def from_end(length: Array, offset: Array, fractions: Array) -> Array:
    """(ne, ns, 6, 6) section forces about the centroid at fractions (ns,) of the length, from Q at end j."""
    b = np.zeros((len(length), len(fractions), 6, 6))
    b[..., range(6), range(6)] = 1.0
    arm = np.zeros((len(length), len(fractions), 3))
    arm[..., 0] = length[:, None] * (1 - fractions)
    arm[..., 1:] = -offset[:, None, :]
    b[..., 3:, :3] = cross_matrix(arm)
    return b


def from_line(length: Array, fractions: Array) -> Array:
    """(ne, ns, 6, 6) section forces at fractions of the length, from a linear line load with end j free."""
    s = np.zeros((len(length), len(fractions), 6, 6))
    x = fractions
    rest = length[:, None] * (1 - x)
    near, far = (1 - x) / 2 * rest, (1 + x) / 2 * rest
    for k in range(3):
        s[..., k, k], s[..., k, k + 3] = near, far
    near, far = rest**2 * (1 - x) / 6, rest**2 * (2 + x) / 6
    s[..., 4, 2], s[..., 4, 5] = -near, -far
    s[..., 5, 1], s[..., 5, 4] = near, far
    return s


def _load_resultant(length: Array, offset: Array) -> Array:
    """(ne, 6, 6) force and moment about end i of the line load."""
    p = np.zeros((len(length), 6, 6))
    half = length / 2
    for k in range(3):
        p[:, k, k] = p[:, k, k + 3] = half
    for column, lever in ((0, length**2 / 6), (3, length**2 / 3)):
        arm = np.zeros((len(length), 3))
        arm[:, 0] = lever
        arm[:, 1:] = offset * half[:, None]
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


def beam_matrices(elements: Elements) -> BeamMatrices:
    """Flexibility, clamped-end forces and recovery of all elements at once; end fixities condensed."""
    length, offset = elements.length, elements.offset
    b = from_end(length, offset, TAPER_STATIONS)
    s = from_line(length, TAPER_STATIONS)
    weighted = elements.compliance * (length[:, None] * STATION_WEIGHTS)[..., None, None]
    cb = weighted @ b
    flexibility = np.einsum("esik,esij->ekj", b, cb, optimize=True)
    free = np.einsum("esik,esij->ekj", cb, s, optimize=True)
    resultant, relative = _load_resultant(length, offset), _relative(length)
    rigid = np.isinf(elements.fixity).all(axis=(1, 2))
    rigidity, from_load = np.zeros_like(flexibility), np.zeros_like(flexibility)
    if rigid.any():
        rigidity[rigid] = np.linalg.inv(flexibility[rigid])
        from_load[rigid] = -rigidity[rigid] @ free[rigid]
    for e in np.flatnonzero(~rigid):
        rigidity[e], from_load[e] = _with_fixity(
            flexibility[e], free[e], resultant[e], relative[e], elements.fixity[e]
        )
    return BeamMatrices(b, s, rigidity, from_load, resultant, relative)


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
