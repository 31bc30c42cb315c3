"""Classes of cross-sections, and the stress up to which a wall is effective as a whole.

Steel: EN 1993-1-1:2005 table 5.2 and clause 5.5.2, ε² = 235/fy · E/210000. Aluminium: EN 1999-1-1:2007 table 6.2,
ε² = 250/fo, the smallest limits of its two buckling classes with welds, so that they hold for every temper and joint.
Both from memory.

A curved wall is judged as a part of a tube of its radius, or as a flat of its width where that is better: curvature
only stiffens it.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import numpy as np

from sections.midline import Array, IntArray
from sections.plates.buckling import buckling_factor
from sections.plates.parts import PlatePart

Rules = Literal["steel", "aluminium"]

_TUBE = np.array([50.0, 70.0, 90.0])
_ALLOY_INTERNAL = np.array([9.0, 13.0, 15.0])
_ALLOY_OUTSTAND = np.array([2.5, 3.5, 4.0])


def section_class(
    parts: Sequence[PlatePart],
    elastic: Array,
    plastic: Array,
    yield_stress: float,
    E: float = 210000.0,
    rules: Rules = "steel",
) -> IntArray:
    """Class 1 to 4 of each part under each stress distribution; a section has that of its worst part.

    Parameters
    ----------
    elastic : (p, 2, m) elastic stress at the start and stop of each part, of a curved one the least and the largest,
        in any unit, tension positive.
    plastic : (p, 2, m) the same of any linear function that is negative where the fully plastic section is
        compressed; steel's limits of class 1 and 2 depend on the part of the width that is.
    yield_stress, E : [MPa].

    Returns
    -------
    (p, m) classes; 1 for parts in tension.
    """
    eps = np.sqrt(_reference(E, rules) / yield_stress)
    found = np.ones((len(parts), elastic.shape[-1]), dtype=np.intp)
    for k, part in enumerate(parts):
        limits = _steel(part, elastic[k], plastic[k]) if rules == "steel" else _alloy(part, elastic[k])
        found[k] = _class(part.slender, limits * eps)
        if part.kind == "curved":
            around = _TUBE if rules == "steel" else (_ALLOY_INTERNAL / 3) ** 2
            found[k] = np.minimum(found[k], _class(part.round_slender, around[:, None] * eps**2))
        found[k, (elastic[k] >= 0).all(axis=0)] = 1
    return found


def _class(slender: float, limits: Array) -> IntArray:
    """(m,) class by limits (3, m); a later class never asks for less than an earlier one."""
    return np.asarray(1 + (slender > np.maximum.accumulate(limits, axis=0) * (1 + 1e-9)).sum(axis=0))


def wall_limits(
    parts: Sequence[PlatePart], elastic: Array, E: float = 210000.0, rules: Rules = "steel"
) -> Array:
    """(p, m) utilisation of each part: compressive stress over that up to which it is effective as a whole.

    That stress follows from the class 3 limit with ε of the acting stress in place of the yield stress
    (EN 1993-1-1 5.5.2 (9)); it grows in proportion to the loads.

    Parameters
    ----------
    elastic : (p, 2, m) stress at the start and stop of each part, of a curved one the least and the largest [MPa],
        tension positive.
    """
    found = np.zeros((len(parts), elastic.shape[-1]))
    for k, part in enumerate(parts):
        limit = _largest(part, elastic[k]) if rules == "steel" else _alloy(part, elastic[k])[2]
        # Limits of flats go with ε, that is with the root of the stress; those of tubes with ε².
        share = (part.slender / limit) ** 2
        if part.kind == "curved":
            around = _TUBE[2] if rules == "steel" else (_ALLOY_INTERNAL[2] / 3) ** 2
            share = np.minimum(share, part.round_slender / around)
        found[k] = np.maximum(-elastic[k].min(axis=0), 0.0) / _reference(E, rules) * share
    return found


def _reference(E: float, rules: Rules) -> float:
    """Stress at which ε is 1 [MPa]."""
    return 235.0 * E / 210000.0 if rules == "steel" else 250.0


def _steel(part: PlatePart, elastic: Array, plastic: Array) -> Array:
    """(3, m) largest c/(t ε) of classes 1 to 3."""
    return np.vstack([_plastic_limits(part, plastic), _largest(part, elastic)])


def _alloy(part: PlatePart, elastic: Array) -> Array:
    """(3, m) largest c/(t ε) of classes 1 to 3; outstands as if evenly compressed."""
    if part.kind == "outstand":
        return np.repeat(_ALLOY_OUTSTAND[:, None], elastic.shape[1], axis=1)
    psi = _psi(elastic)[0]
    gradient = np.where(psi > -1, 0.7 + 0.3 * np.maximum(psi, -1.0), 0.8 / (1 - np.minimum(psi, -1.0)))
    return np.asarray(_ALLOY_INTERNAL[:, None] / gradient)


def _plastic_limits(part: PlatePart, field: Array) -> Array:
    """(2, m) limits c/(t ε) of class 1 and 2 for a field (2, m) that is negative in compression."""
    start, stop = field
    difference = np.where(start == stop, 1.0, start - stop)
    change = np.clip(start / difference, 0.0, 1.0)
    mixed = np.where(start < stop, change, 1 - change)
    share = np.where((start < 0) == (stop < 0), (start < 0) * 1.0, mixed)
    with np.errstate(divide="ignore"):
        if part.kind == "outstand":
            weighted = np.where(stop < 0, share, share * np.sqrt(share))
            return np.asarray(np.outer([9.0, 10.0], 1 / weighted))
        mostly = np.outer([396.0, 456.0], 1 / (13 * np.maximum(share, 0.5) - 1))
        return np.where(share > 0.5, mostly, np.outer([36.0, 41.5], 1 / share))


def _largest(part: PlatePart, stress: Array) -> Array:
    """(m,) limit c/(t ε) of class 3 for stress (2, m) at start and stop, tension positive."""
    psi, at_stop = _psi(stress)
    if part.kind == "outstand":
        factor = np.where(at_stop, buckling_factor(psi, "tip"), buckling_factor(psi, "root"))
        return np.asarray(21 * np.sqrt(factor))
    across = np.minimum(psi, -1.0)
    return np.where(
        psi > -1, 42 / (0.67 + 0.33 * np.maximum(psi, -1.0)), 62 * (1 - across) * np.sqrt(-across)
    )


def _psi(stress: Array) -> tuple[Array, Array]:
    """(m,) stress at the less compressed end over that at the more compressed one, and whether that is the stop; 1
    where nothing is compressed."""
    first, last = -stress
    high, low = np.maximum(first, last), np.minimum(first, last)
    return np.where(high > 0, low / np.where(high > 0, high, 1.0), 1.0), last >= first
