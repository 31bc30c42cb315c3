"""Whether the drivers are just what a linkage leaves free, at design height; said in words where they are not."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import qr

from loadpath.pose.bodies import Bodies
from loadpath.pose.equations import Equations, at_design
from loadpath.pose.errors import Loose, OverConstrained
from loadpath.pose.ties import RANK

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

FORCED = 10.0
"""[mm] of travel that is forced on an over-constrained axle to tell by how much it misses."""
_MOVES = 1e-6


def design_jacobian(equations: Equations, bodies: int) -> Array:
    """(m, n) change of the misses at design height; the drivers' rows are the last."""
    drivers = int(equations.driver.max(initial=-1)) + 1
    _, wrenches = equations.misses(at_design(1, bodies), np.zeros((1, drivers)))
    at_rest: Array = equations.jacobian(wrenches)[0]
    return at_rest


def check_freedoms(bodies: Bodies, equations: Equations, change: Array, drivers: int) -> None:
    """Freedoms that the joints leave must equal the drivers.

    change : the design Jacobian.

    Raises
    ------
    Loose : more are left; each motion is told.
    OverConstrained : fewer are left; told by how much a travel misses.
    """
    loose = _apart(_null(change))
    if loose.shape[1]:
        moving = dict.fromkeys(_moving(bodies, equations, loose[:, k]) for k in range(loose.shape[1]))
        raise Loose(tuple(moving))
    joints = change[: len(change) - drivers]
    left = change.shape[1] - _rank(joints)
    if left < drivers:
        raise OverConstrained(_held_words(bodies, equations, drivers, left))


def independent(change: Array, drivers: int) -> Ints:
    """(n,) rows of the design Jacobian that are independent, all drivers among them."""
    m, n = change.shape
    if m == n:
        return np.arange(n)
    last = np.arange(m - drivers, m)
    base, _ = np.linalg.qr(change[last].T)
    rest = change[: m - drivers]
    _, _, order = qr((rest - (rest @ base) @ base.T).T, mode="economic", pivoting=True)
    chosen: Ints = np.sort(np.concatenate([order[: n - drivers], last]))
    return chosen


def _rank(matrix: Array) -> int:
    if not matrix.size:
        return 0
    sigma = np.linalg.svd(matrix, compute_uv=False)
    return int((sigma > RANK * sigma[0]).sum())


def _null(matrix: Array) -> Array:
    """(n, k) basis of what a matrix does not see."""
    if not matrix.size:
        return np.eye(matrix.shape[1])
    _, sigma, vt = np.linalg.svd(matrix)
    rank = int((sigma > RANK * sigma[0]).sum())
    return vt[rank:].T


def _apart(basis: Array) -> Array:
    """(n, k) the same motions, each with as few freedoms as elimination leaves it."""
    rows = basis.T.copy()
    for k in range(len(rows)):
        column = int(np.abs(rows[k]).argmax())
        rows[k] /= rows[k, column]
        for other in range(len(rows)):
            if other != k:
                rows[other] -= rows[other, column] * rows[k]
    return rows.T


def _moving(bodies: Bodies, equations: Equations, motion: Array) -> str:
    """Names of the parts that move in a loose motion."""
    largest = np.abs(motion).max()
    moving = np.unique(equations.body[np.abs(motion) > _MOVES * largest])
    return ", ".join(dict.fromkeys(p.part for b in moving for p in sorted(bodies.groups[b])))


def _held_words(bodies: Bodies, equations: Equations, drivers: int, left: int) -> str:
    """What holds the wheels, with what the joints miss when the first stuck travel is forced."""
    names = equations.owner[len(equations.owner) - drivers :]
    tried = [(name, *_forced(bodies, equations, drivers, k)) for k, name in enumerate(names)]
    name, joint, gap, angle = max(tried, key=lambda t: t[2])
    return (
        f"over-constrained: the joints leave {left} of {drivers} travels ({', '.join(names)}). With {FORCED:g} mm of "
        f"travel forced on {name} alone, {joint} misses by {gap:.3g} mm, or {np.degrees(angle):.2g} degrees on a "
        f"lever of {equations.length:.0f} mm. Where a "
        'part between the wheels twists, say split = "POINT"; bushings count as balls at their centres, moves_as '
        "says otherwise"
    )


def _forced(bodies: Bodies, equations: Equations, drivers: int, k: int) -> tuple[str, float, float]:
    """The joint that misses most under a forced travel, the gap [mm], and the angle [rad] it makes on `length`."""
    target = np.zeros((1, drivers))
    target[0, k] = FORCED
    state = at_design(1, len(bodies.groups))
    weight = np.ones(len(equations.owner))
    weight[len(weight) - drivers :] = 1e3
    for _ in range(8):
        missed, wrenches = equations.misses(state, target)
        change = equations.jacobian(wrenches)[0]
        amounts = np.linalg.lstsq(weight[:, None] * change, -weight * missed[0], rcond=1e-9)[0]
        state = equations.step(state, amounts[None])
    gaps = np.abs(equations.misses(state, target)[0][0, : len(weight) - drivers])
    worst = int(gaps.argmax())
    return equations.owner[worst], float(gaps[worst]), float(gaps[worst]) / equations.length
