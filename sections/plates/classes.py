"""Classes of cross-sections, and the stress up to which a wall is effective as a whole.

EN 1993-1-1:2005 table 5.2 and clause 5.5.2 (from memory), with ε² = 235/fy · E/210000. For aluminium these are limits
of elastic plate buckling too, but EN 1999-1-1 table 6.2 has stricter ones of its own for classes 1 to 3, by temper
and welds: use `section_class` for steel only.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from sections.midline import Array, IntArray
from sections.plates.buckling import buckling_factor
from sections.plates.parts import PlatePart

_FY, _E = 235.0, 210000.0
_TUBE = np.array([50.0, 70.0, 90.0])


def epsilon(stress: float, E: float = _E) -> float:
    """ε for a yield stress, or for the stress that acts [MPa]."""
    return float(np.sqrt(_FY / stress * E / _E))


def section_class(
    parts: Sequence[PlatePart], elastic: Array, plastic: Array, yield_stress: float, E: float = _E
) -> IntArray:
    """Class 1 to 4 of each part under each stress distribution; a section has that of its worst part.

    Parameters
    ----------
    elastic : (p, 2, m) elastic stress at the start and stop of each part, in any unit, tension positive.
    plastic : (p, 2, m) the same of any linear function that is negative where the fully plastic section is
        compressed; the class 1 and 2 limits depend on the part of the width that is.
    yield_stress, E : [MPa].

    Returns
    -------
    (p, m) classes; 1 for parts in tension.
    """
    eps = epsilon(yield_stress, E)
    found = np.ones((len(parts), elastic.shape[-1]), dtype=np.intp)
    for k, part in enumerate(parts):
        low, high = elastic[k].min(axis=0), elastic[k].max(axis=0)
        if part.kind == "curved":
            limits = np.repeat(_TUBE[:, None] * eps**2, len(low), axis=1)
            limits[:, low >= 0] = np.inf
        else:
            limits = np.vstack(
                [_plastic_limits(part, plastic[k]) * eps, _elastic_limit(part, elastic[k]) * eps]
            )
            limits[2, (low >= 0) & (high >= 0)] = np.inf
        # A later class never asks for less than an earlier one.
        found[k] = 1 + (part.slender > np.maximum.accumulate(limits, axis=0) * (1 + 1e-9)).sum(axis=0)
    return found


def wall_limits(parts: Sequence[PlatePart], elastic: Array, E: float = _E) -> Array:
    """(p, m) utilisation of each part: compressive stress over that up to which it is effective as a whole.

    That stress follows from the class 3 limit with ε of the acting stress in place of the yield stress
    (EN 1993-1-1 5.5.2 (9)); it grows in proportion to the loads and holds for any elastic material.

    Parameters
    ----------
    elastic : (p, 2, m) stress at the start and stop of each part [MPa], tension positive.
    """
    found = np.zeros((len(parts), elastic.shape[-1]))
    for k, part in enumerate(parts):
        compressed = np.maximum(-elastic[k].min(axis=0), 0.0)
        if part.kind == "curved":
            largest = np.full(compressed.shape, _TUBE[2] / part.slender)
        else:
            largest = (_elastic_limit(part, elastic[k]) / part.slender) ** 2
        found[k] = compressed / (largest * _FY * E / _E)
    return found


def _plastic_limits(part: PlatePart, field: Array) -> Array:
    """(2, m) limits c/(t ε) of class 1 and 2 for a field (2, m) that is negative in compression."""
    a, b = field
    difference = np.where(a == b, 1.0, a - b)
    change = np.clip(a / difference, 0.0, 1.0)
    first = np.where(a == b, (a < 0) * 1.0, np.where(a < b, change, 1 - change))
    share = np.where((a < 0) == (b < 0), (a < 0) * 1.0, first)
    with np.errstate(divide="ignore"):
        if part.kind == "outstand":
            tip = np.where(share >= 1, 1.0, np.where(b < 0, share, share * np.sqrt(share)))
            return np.outer([9.0, 10.0], 1 / tip)
        mostly = 13 * np.maximum(share, 0.5) - 1
        return np.where(share > 0.5, np.outer([396.0, 456.0], 1 / mostly), np.outer([36.0, 41.5], 1 / share))


def _elastic_limit(part: PlatePart, stress: Array) -> Array:
    """(m,) limit c/(t ε) of class 3 for stress (2, m) at start and stop, tension positive; inf in tension."""
    first, last = -stress
    high, low = np.maximum(first, last), np.minimum(first, last)
    pressed = high > 0
    psi = np.where(pressed, low / np.where(pressed, high, 1.0), 1.0)
    if part.kind == "outstand":
        factor = np.where(last >= first, buckling_factor(psi, "tip"), buckling_factor(psi, "root"))
        limit = 21 * np.sqrt(factor)
    else:
        across = np.minimum(psi, -1.0)
        limit = np.where(
            psi > -1, 42 / (0.67 + 0.33 * np.maximum(psi, -1.0)), 62 * (1 - across) * np.sqrt(-across)
        )
    return np.asarray(np.where(pressed, limit, np.inf))
