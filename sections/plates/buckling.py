"""Plates under direct stress: elastic buckling and what is effective beyond it.

EN 1993-1-5:2006, 4.4 and tables 4.1 and 4.2 (from memory; the figures were reproduced by finite strips and from
published examples). A plate of width b has the stress s1 at its more compressed edge and s2 at the other, compression
positive; ψ = s2/s1.

    edge        which edge is free                         as in
    "none"      both edges held                            table 4.1, internal
    "tip"       one free, and that is the more compressed  table 4.2, upper half
    "root"      one free, and that is the less compressed  table 4.2, lower half
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from sections.midline import Array

Edge = Literal["none", "tip", "root"]

WHOLE = 0.748
"""Slenderness up to which an outstand is effective as a whole."""
_LEAST_PSI = -3.0


def buckling_factor(psi: Array | float, edge: Edge = "none") -> Array:
    """k of the elastic buckling stress, for ψ from 1 down to −3; below that as at −3.

    Raises
    ------
    ValueError : an edge of another name.
    """
    p = np.clip(np.asarray(psi, dtype=float), _LEAST_PSI, 1.0)
    q = np.maximum(p, -1.0)
    if edge == "none":
        compressed = np.where(p < 1, 8.2 / (1.05 + np.maximum(p, 0.0)), 4.0)
        across = np.where(p > -1, 7.81 - 6.29 * q + 9.78 * q**2, 5.98 * (1 - p) ** 2)
        return np.asarray(np.where(p > 0, compressed, across))
    if edge == "tip":
        return np.asarray(np.where(p < 1, 0.57 - 0.21 * p + 0.07 * p**2, 0.43))
    if edge == "root":
        return np.asarray(np.where(p > 0, 0.578 / (0.34 + np.maximum(p, 0.0)), 1.7 - 5 * q + 17.1 * q**2))
    raise ValueError(f'edge = {edge!r}: must be "none", "tip" or "root"')


def buckling_stress(k: Array | float, slender: Array | float, E: float, nu: float = 0.3) -> Array:
    """Elastic buckling stress k π² E/(12 (1 − ν²)) (t/b)² [MPa] of a plate of slender = b/t (Bryan 1891)."""
    return np.asarray(k * np.pi**2 * E / (12 * (1 - nu**2)) / np.square(slender))


def slenderness(stress: Array | float, critical: Array | float) -> Array:
    """λp = sqrt(stress/critical). The standard's (b/t)/(28.4 ε sqrt(k)) is the same with 28.42 rounded."""
    return np.asarray(np.sqrt(stress / np.asarray(critical)))


def reduction(slender: Array | float, psi: Array | float, edge: Edge = "none") -> Array:
    """ρ, the effective part of the compressed width, for λp = slender (EN 1993-1-5 equations 4.2 and 4.3)."""
    relative = np.maximum(np.asarray(slender, dtype=float), 1e-9)
    if edge != "none":
        return np.asarray(np.where(relative > WHOLE, (relative - 0.188) / relative**2, 1.0))
    p = np.clip(np.asarray(psi, dtype=float), _LEAST_PSI, 1.0)
    whole = 0.5 + np.sqrt(0.085 - 0.055 * p)
    reduced = (relative - 0.055 * (3 + p)) / relative**2
    return np.asarray(np.minimum(np.where(relative > whole, reduced, 1.0), 1.0))


def effective_ends(rho: float, psi: float, edge: Edge = "none") -> tuple[float, float]:
    """The stretch that buckling takes away, as two parts of the width from the more compressed edge.

    The rest is effective: at both edges of an internal plate, with the share 2/(5 − ψ) or 0.4 at the more
    compressed one; from the held edge of an outstand. Both figures are equal where nothing is lost.
    """
    compressed = 1.0 if psi >= 0 else 1 / (1 - psi)
    kept, lost = rho * compressed, (1 - rho) * compressed
    if edge == "tip":
        return 0.0, lost
    if edge == "root":
        return kept, 1.0 if psi >= 0 else compressed
    near = kept * (2 / (5 - psi) if psi >= 0 else 0.4)
    return near, near + lost
