"""The poses that a wheel goes through, as cells of travel and steer that can be halved."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import FULL_TRAVEL
from loadpath.pose import Mechanism, PoseError, Poses, pose_many

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

MODES = ("all wheels together", "the other wheels the other way")
COARSE = 25.0
"""[mm] largest travel across a cell to begin with."""


@dataclass(frozen=True, eq=False)
class Range:
    """Full travel of one wheel, of the others, and of the racks.

    Attributes
    ----------
    wheel : index among the drivers. low, high : (nd,) [mm] least and most of each. racks : (nd,) True of racks.
    """

    mechanism: Mechanism
    wheel: int
    low: Array
    high: Array
    racks: NDArray[np.bool_]

    @property
    def steered(self) -> bool:
        """True where a rack moves."""
        return bool(self.racks.any())

    def targets(self, at: Array, mode: Ints) -> Array:
        """(p, nd) driver values for travel and steer at (p, 2): jounce [mm], share of the racks' travel -1 to 1."""
        jounce, steer = at[:, :1], at[:, 1:]
        others = np.where(mode[:, None] == 0, jounce, -jounce)
        values = np.clip(others, self.low, self.high)
        values[:, self.wheel] = at[:, 0]
        racks: Array = np.where(self.racks, steer * self.high, values)
        return racks

    def size(self, half: Array) -> Array:
        """(n, 2) [mm] of travel and of rack travel for half sizes (n, 2) of cells."""
        sizes: Array = half * [1.0, self.high[self.racks].max(initial=0.0)]
        return sizes

    def mix(self, mode: Ints) -> Array:
        """(p, 2, nd) velocity of each driver for a unit of travel, and of steer."""
        travel = np.where(mode[:, None] == 0, 1.0, -1.0) * ~self.racks
        travel[:, self.wheel] = 1.0
        steer = np.broadcast_to(np.where(self.racks, self.high, 0.0), travel.shape)
        return np.stack([travel, steer], axis=1)


def range_of(mechanism: Mechanism, wheel: str, steered: bool = True) -> Range:
    """Full travel and full steer around one wheel; without steer the racks stand in the middle.

    Raises
    ------
    PoseError : a wheel that does not travel.
    """
    model = mechanism.model
    if wheel not in mechanism.wheels:
        raise PoseError(f"{wheel} does not travel: nothing lets {model.wheels[wheel].part} move on the body")
    low, high = np.zeros(len(mechanism.drivers)), np.zeros(len(mechanism.drivers))
    racks = np.array([d in mechanism.racks for d in mechanism.drivers])
    for k, name in enumerate(mechanism.drivers):
        if racks[k]:
            travel = model.joints[name].travel or FULL_TRAVEL
            low[k], high[k] = (-travel, travel) if steered else (0.0, 0.0)
        else:
            low[k], high[k] = model.wheels[name].travel()
    return Range(mechanism, mechanism.drivers.index(wheel), low, high, racks & (high > 0))


@dataclass(frozen=True, eq=False)
class Cells:
    """n cells: middle (n, 2) and half (n, 2) size in travel [mm] and steer [share]; mode (n,) of MODES."""

    middle: Array
    half: Array
    mode: Ints

    def __len__(self) -> int:
        return len(self.middle)

    def split(self, which: Ints, along: Ints) -> Cells:
        """Two halves of each of some cells, along travel (0) or steer (1): all first halves, then all second ones."""
        half = self.half[which].copy()
        half[range(len(which)), along] /= 2
        shift = np.zeros_like(half)
        shift[range(len(which)), along] = half[range(len(which)), along]
        middle, mode = self.middle[which], self.mode[which]
        return Cells(
            np.concatenate([middle - shift, middle + shift]),
            np.tile(half, (2, 1)),
            np.concatenate([mode, mode]),
        )

    def pick(self, which: Ints) -> Cells:
        """Some of them."""
        return Cells(self.middle[which], self.half[which], self.mode[which])

    def joined(self, other: Cells) -> Cells:
        """These and then others."""
        return Cells(
            np.concatenate([self.middle, other.middle]),
            np.concatenate([self.half, other.half]),
            np.concatenate([self.mode, other.mode]),
        )


def first_cells(span: Range) -> Cells:
    """Cells that fill the range, in both modes where there are other wheels.

    The edges of the range, where clearances are mostly least, are cells of no size of their own.
    """
    low, high = span.low[span.wheel], span.high[span.wheel]
    travel = _pieces(low, high, COARSE)
    steer = _pieces(-1.0, 1.0, 2 * COARSE / span.high[span.racks].max()) if span.steered else [(0.0, 0.0)]
    modes = range(2 if (~span.racks).sum() > 1 else 1)
    rows = [(t, s, m) for t in travel for s in steer for m in modes]
    return Cells(
        np.array([[t[0], s[0]] for t, s, _ in rows]),
        np.array([[t[1], s[1]] for t, s, _ in rows]),
        np.array([m for _, _, m in rows], dtype=np.intp),
    )


def _pieces(low: float, high: float, most: float) -> list[tuple[float, float]]:
    """Middle and half size of equal pieces of at most a size, and the two ends by themselves."""
    count = max(int(np.ceil((high - low) / most)), 1)
    half = (high - low) / count / 2
    inner = [(low + (2 * k + 1) * half, half) for k in range(count)]
    return [(low, 0.0), *inner, (high, 0.0)]


def poses_of(span: Range, cells: Cells) -> Poses:
    """The poses in the middle of cells.

    Raises
    ------
    OutOfReach : a travel or steer of the range that the suspension does not reach.
    """
    return pose_many(span.mechanism, span.targets(cells.middle, cells.mode))
