"""Vlasov torsion of an open member in closed form: what holding its warping at the ends does.

With k = sqrt(G J / (E Cw)) and a torque T that is constant along the length L the twist rate is

    both ends free   φ' = T/(G J)
    first end held   φ' = T/(G J) (1 − cosh k(L − x)/cosh kL)          (last end: mirrored)
    both ends held   φ' = T/(G J) (1 − cosh k(x − L/2)/cosh(kL/2))

the bimoment B = E Cw φ'', and the warping stress σ = B ω/Cw with the axial displacement ω φ'. Vlasov, Thin-walled
elastic beams; Timoshenko & Gere, Theory of Elastic Stability, ch. 5 (from memory). Shear stress of restrained
warping is left out; Saint-Venant's is taken with the whole torque instead, which is on the safe side.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Member
from sections import Section

Array = NDArray[np.float64]

STRAIGHT = 0.9962
"""Cosine of the largest kink (5 degrees) in a member whose warping can be followed."""


def warping_section(member: Member) -> Section | None:
    """The one open section of a member whose warping is stated; None where there is none to follow."""
    sections = {id(s): s for chain in member.sections for s in chain}
    if member.warping is None or len(sections) != 1:
        return None
    section = next(iter(sections.values()))
    return None if section.closed or not section.Cw > 0 else section


def decay(member: Member, section: Section) -> float:
    """k [1/mm] of an open section."""
    return float(np.sqrt(member.material.G * section.J / (member.material.E * section.Cw)))


def held_ends(member: Member) -> tuple[bool, bool]:
    """Whether warping is held at the first and at the last end."""
    first, last = member.warping or ("free", "free")
    return first == "held", last == "held"


def twist_share(x: Array, length: float, k: float, held: tuple[bool, bool]) -> Array:
    """(n,) twist between the first end and x under a constant torque, in units of T/(G J) [mm].

    x : (n,) [mm] from the first end. k : [1/mm]. held : warping held at the first and at the last end.
    """
    first, last = held
    if first and last:
        half = length / 2
        lost = (_sinh_over_cosh(k * (x - half), k * half) + np.tanh(k * half)) / k
    elif first:
        lost = (np.tanh(k * length) - _sinh_over_cosh(k * (length - x), k * length)) / k
    elif last:
        lost = _sinh_over_cosh(k * x, k * length) / k
    else:
        lost = np.zeros_like(x)
    share: Array = x - lost
    return share


def bimoment_share(x: Array, length: float, k: float, held: tuple[bool, bool]) -> Array:
    """(n,) bimoment at x per unit of torque [mm]: B = T × share."""
    first, last = held
    if first and last:
        return -_sinh_over_cosh(k * (x - length / 2), k * length / 2) / k
    if first:
        return _sinh_over_cosh(k * (length - x), k * length) / k
    if last:
        return -_sinh_over_cosh(k * x, k * length) / k
    return np.zeros_like(x)


def _sinh_over_cosh(a: Array, b: float) -> Array:
    """sinh a / cosh b for |a| <= b, without overflow."""
    ratio: Array = (np.exp(a - b) - np.exp(-a - b)) / (1 + np.exp(-2 * b))
    return ratio
