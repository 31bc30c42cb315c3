"""A model taken rigid: bodies, joint equations and drivers, ready to be posed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from loadpath.model import BODY, Model, Wheel
from loadpath.pose.bodies import Bodies, make_bodies
from loadpath.pose.equations import Equations
from loadpath.pose.freedoms import check_freedoms, design_jacobian, independent
from loadpath.pose.halves import Twist, hinges_of, twists_of
from loadpath.pose.ties import Piece, Tie, ties_of

Array = NDArray[np.float64]
Ints = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Mechanism:
    """The linkage of a model at design height.

    What moves in one is a carrier: first the bodies, 0 being the ground, then the rods, then the points on the
    stretch of a part that twists.

    Attributes
    ----------
    origin : (3,) [mm] about which the equations are written.
    wheels, racks : names of the drivers: wheels with a suspension, then slider joints that the steering moves.
    twisting : (half carriers first and second, twist, point) of each carrier of the third kind.
    number : carrier by (part, point) where that decides, else by (part, "").
    side : sign of the determinant of the solved equations at design height.
    """

    model: Model
    origin: Array
    bodies: Bodies
    equations: Equations
    wheels: tuple[str, ...]
    racks: tuple[str, ...]
    twists: tuple[Twist, ...]
    twisting: tuple[tuple[int, int, Twist, str], ...]
    number: Mapping[tuple[str, str], int]
    side: float

    @property
    def drivers(self) -> tuple[str, ...]:
        """Names of all drivers in the order of the targets."""
        return self.wheels + self.racks

    def carrier(self, part: str, point: str = "") -> int:
        """Number of the carrier of a point of a part."""
        return _of(self.number, part, point)

    def targets(self, travel: Mapping[str, float], rack: float | Mapping[str, float] = 0.0) -> Array:
        """(nd,) driver values of given jounces by wheel [mm] and rack travel; 0 where none is given."""
        racks = rack if isinstance(rack, Mapping) else dict.fromkeys(self.racks, rack)
        return np.array([travel.get(w, 0.0) for w in self.wheels] + [racks.get(r, 0.0) for r in self.racks])


def make_mechanism(model: Model) -> Mechanism:
    """The linkage of a model.

    Raises
    ------
    Loose : parts that move though nothing drives them.
    OverConstrained : wheels that cannot travel on their own.
    PoseError : a split that cannot be.
    """
    twists = twists_of(model)
    halves = {(t.part, p): half for t in twists for p, half in t.halves.items()}
    pieces = [Piece(p, h) for p in model.parts for h in ((0, 1) if p in {t.part for t in twists} else (0,))]
    ties = [*ties_of(model, halves), *hinges_of(model, twists)]
    places = np.array([t.at for t in ties] or [np.zeros(3)])
    origin = places.mean(axis=0)
    length = max(float(np.ptp(places, axis=0).max()) / 4, 1.0)
    bodies = make_bodies(model, ties, pieces, origin, length)
    number = _numbers(bodies, halves, twists)
    wheels = tuple(w for w, wheel in model.wheels.items() if _of(number, wheel.part, wheel.centre) > 0)
    racks = tuple(t for t in ties if t.rack)
    equations = _equations(model, bodies, origin, length, number, [model.wheels[w] for w in wheels], racks)
    change = design_jacobian(equations, len(bodies.groups))
    drivers = len(wheels) + len(racks)
    check_freedoms(bodies, equations, change, drivers)
    solved = independent(change, drivers)
    equations, side = replace(equations, solved=solved), float(np.linalg.slogdet(change[solved])[0])
    count = len(bodies.groups) + len(bodies.rods)
    twisting = tuple(
        (number[t.part, t.run[0]], number[t.part, t.run[-1]], t, p) for t in twists for p in t.shares
    )
    more = {(t.part, p): count + k for k, (_, _, t, p) in enumerate(twisting)}
    names = tuple(t.name for t in racks)
    return Mechanism(
        model, origin, bodies, equations, wheels, names, twists, twisting, {**number, **more}, side
    )


def _numbers(
    bodies: Bodies, halves: Mapping[tuple[str, str], int], twists: Sequence[Twist]
) -> dict[tuple[str, str], int]:
    """Carrier of each part, and of each point of a split part."""
    found: dict[tuple[str, str], int] = {(BODY, ""): 0}
    for k, group in enumerate(bodies.groups):
        found |= {(p.part, ""): k for p in group if p.half == 0}
    rods = len(bodies.groups)
    found |= {(r.piece.part, ""): rods + k for k, r in enumerate(bodies.rods)}
    for (part, point), half in halves.items():
        found[part, point] = bodies.body_of(Piece(part, half))
    return found


def _of(number: Mapping[tuple[str, str], int], part: str, point: str) -> int:
    found = number.get((part, point))
    return number[part, ""] if found is None else found


def _equations(
    model: Model,
    bodies: Bodies,
    origin: Array,
    length: float,
    number: Mapping[tuple[str, str], int],
    wheels: Sequence[Wheel],
    racks: Sequence[Tie],
) -> Equations:
    """All equations of a linkage; `solved` is left empty."""
    pairs = {id(t): tuple(bodies.body_of(p) for p in t.pieces) for t in (*bodies.ties, *racks)}
    meet = [t for t in bodies.ties if t.kind in ("ball", "hinge")]
    slides = [(t, k) for t in bodies.ties if t.kind in ("slider", "sliding ball") for k in (1, 2)]
    turns = [
        (t, pair)
        for t in bodies.ties
        for pair in {"hinge": ((0, 1), (0, 2)), "slider": ((0, 1), (0, 2), (1, 2))}.get(t.kind, ())
    ]
    rods = [r for r in bodies.rods if len({bodies.body_of(p) for p in r.pieces}) > 1]
    centres = [_of(number, w.part, w.centre) for w in wheels]
    along = [(pairs[id(t)], t.at, t.axes[k], t.name, -1) for t, k in slides]
    along += [
        ((0, c), model.points[w.centre], model.axes.up, w.name, k)
        for k, (w, c) in enumerate(zip(wheels, centres, strict=True))
    ]
    along += [
        (_held_first(pairs[id(t)]), t.at, _to_left(model, t.axes[0]), t.name, len(wheels) + k)
        for k, t in enumerate(racks)
    ]
    owner = [t.name for t in meet for _ in range(3)] + [t.name for t, _ in turns]
    owner += [r.piece.part for r in rods] + [a[3] for a in along]
    two = np.array([pairs[id(t)] for t in meet], dtype=np.intp).reshape(-1, 2)
    ends = np.array([[bodies.body_of(p) for p in r.pieces] for r in rods], dtype=np.intp).reshape(-1, 2)
    rod_at = np.array([[model.points[p] for p in r.points] for r in rods]).reshape(-1, 2, 3) - origin
    turned = np.array([pairs[id(t)] for t, _ in turns], dtype=np.intp).reshape(-1, 2)
    slid = np.array([a[0] for a in along], dtype=np.intp).reshape(-1, 2)
    rows = np.concatenate([np.repeat(two, 3, axis=0), turned, ends, slid])
    freedom = np.concatenate([_weighed(f, length) for f in bodies.freedom], axis=1)
    body = np.repeat(np.arange(len(bodies.groups)), [f.shape[1] for f in bodies.freedom])
    return Equations(
        meet=two,
        meet_at=np.array([t.at for t in meet]).reshape(-1, 3) - origin,
        along=slid,
        along_at=np.array([a[1] for a in along]).reshape(-1, 3) - origin,
        along_axis=np.array([a[2] for a in along]).reshape(-1, 3),
        driver=np.array([a[4] for a in along], dtype=np.intp),
        square=turned,
        square_axes=np.array([[t.axes[i], t.axes[j]] for t, (i, j) in turns]).reshape(-1, 2, 3),
        square_first=np.zeros(len(turns)),
        rod=ends,
        rod_at=rod_at,
        rod_length=np.linalg.norm(rod_at[:, 1] - rod_at[:, 0], axis=1),
        freedom=freedom,
        body=body,
        sign=(rows[:, 1:] == body).astype(float) - (rows[:, :1] == body),
        owner=tuple(owner),
        length=length,
        solved=np.zeros(0, dtype=np.intp),
    )


def _held_first(pair: tuple[int, ...]) -> tuple[int, ...]:
    """The two bodies of a rack's slider, the one that it slides in first: the ground, or else the second named."""
    return pair if pair[0] == 0 else pair[::-1]


def _to_left(model: Model, axis: Array) -> Array:
    """A slider's axis the way round that points left, so that rack travel is positive to the left."""
    return axis if axis @ model.axes.left >= 0 else -axis


def _weighed(freedom: Array, length: float) -> Array:
    """Twists whose turns are counted in lengths."""
    if freedom.shape[1] == 6:
        return np.diag([1.0, 1, 1, 1 / length, 1 / length, 1 / length])
    return freedom / length if freedom[3:].any() else freedom
