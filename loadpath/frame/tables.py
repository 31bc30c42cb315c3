"""Bushings whose force is no straight line over movement: Newton on their movements alone.

With k the rate at rest, which stands in the system, and r(e) = g(e) − k e the rest of the law g, the movements
e of the curved freedoms obey e + C r(e) = e0: e0 is what the straight laws alone give, C = B K⁻¹ Bᵀ the
compliance at those freedoms with them in place. As C k < 1, the left side rises wherever g does.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.errors import FrameError
from loadpath.frame.joints import Springs
from loadpath.frame.mesh import Mesh

Array = NDArray[np.float64]

CLOSE = 1e-13
"""Share of a table's reach that a movement may miss."""
_ITERATIONS = 60
_HALVINGS = 30


@dataclass(frozen=True, eq=False)
class Curved:
    """Solved movements of the curved freedoms.

    movement : (n, nc) [mm or rad]. excess : (n, nc) force beyond rate × movement [N or N·mm].
    beyond : (n, nc) how far a movement lies beyond the ends of its table.
    """

    movement: Array
    excess: Array
    beyond: Array


def unit_pairs(springs: Springs, mesh: Mesh) -> Array:
    """(6 nb, n) generalised force on the blocks of a unit of each curved freedom's stretch."""
    pairs = np.zeros((len(mesh.owners), 6, len(springs.curves)))
    for column, (k, i, _) in enumerate(springs.curves):
        first, second = springs.blocks[k]
        pairs[first, :, column] += springs.relative[k, i, :6]
        pairs[second, :, column] += springs.relative[k, i, 6:]
    return pairs.reshape(-1, len(springs.curves))


def solve_curved(springs: Springs, compliance: Array, straight: Array) -> Curved:
    """Movements under the true laws.

    Parameters
    ----------
    compliance : (n, n) C. straight : (n, nc) e0.

    Raises
    ------
    FrameError : where no movement is found.
    """
    rate = np.array([springs.rates[k, i] for k, i, _ in springs.curves])
    found = [_one(springs, compliance, rate, straight[:, c]) for c in range(straight.shape[1])]
    movement = np.stack(found, axis=1)
    each = [curve for _, _, curve in springs.curves]
    force = np.array([curve.value(e) for curve, e in zip(each, movement, strict=True)])
    beyond = np.array([curve.beyond(e) for curve, e in zip(each, movement, strict=True)])
    return Curved(movement, force - rate[:, None] * movement, beyond)


def _one(springs: Springs, compliance: Array, rate: Array, straight: Array) -> Array:
    """(n,) movements of one load case."""
    e = straight.copy()
    missed, change = _missed(springs, compliance, rate, straight, e)
    reach = np.array([np.ptp(curve.x) for _, _, curve in springs.curves])
    for _ in range(_ITERATIONS):
        if np.abs(missed / reach).max(initial=0.0) <= CLOSE:
            return e
        step = np.linalg.solve(change, -missed)
        for _ in range(_HALVINGS):
            tried, its_change = _missed(springs, compliance, rate, straight, e + step)
            if np.abs(tried / reach).max() < np.abs(missed / reach).max():
                break
            step = step / 2
        else:
            return e if np.abs(missed / reach).max() <= 1e3 * CLOSE else _refuse(springs)
        e, missed, change = e + step, tried, its_change
    return _refuse(springs)


def _missed(
    springs: Springs, compliance: Array, rate: Array, straight: Array, e: Array
) -> tuple[Array, Array]:
    """What e + C r(e) lacks of e0, and its derivative (n, n)."""
    each = [curve for _, _, curve in springs.curves]
    force = np.array([float(curve.value(x)) for curve, x in zip(each, e, strict=True)])
    slope = np.array([float(curve.slope(x)) for curve, x in zip(each, e, strict=True)])
    missed = e + compliance @ (force - rate * e) - straight
    return missed, np.eye(len(e)) + compliance * (slope - rate)


def _refuse(springs: Springs) -> Array:
    names = ", ".join(dict.fromkeys(springs.names[k] for k, _, _ in springs.curves))
    raise FrameError(
        f"no movement was found that fits the force-deflection tables of {names}: do they rise throughout?"
    )
