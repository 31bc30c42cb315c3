"""How every wheel answers unit loads at every wheel.

Signs, for both sides alike: toe positive with the front pointing inward, camber positive with the top leaning
outward, wind-up positive where the carrying part turns as a wheel rolls forward (its top forward); movements
rearward, inward and upward positive, of the wheel centre and of the contact patch as a point of the wheel.
The tyre is rigid.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from loadpath.compliance.loads import LOADS, UnitLoad, inward
from loadpath.frame import FrameError, Solution, self_checks, solve
from loadpath.model import LoadCase, Model, Wheel, contact_patch, spin_axis

Array = NDArray[np.float64]

Loaded = Literal["together", "alone", "opposite"]
TOGETHER: dict[Loaded, str] = {
    "together": "both wheels of the axle, as the vehicle loads them",
    "alone": "this wheel only",
    "opposite": "both wheels of the axle, against each other",
}


@dataclass(frozen=True)
class Answer:
    """One thing that a wheel does: its name, the unit in which it is shown, and how many of it one rad or mm is."""

    name: str
    unit: str
    scale: float


DEGREE = 180.0 / np.pi
ANSWERS = (
    Answer("toe", "deg", DEGREE),
    Answer("camber", "deg", DEGREE),
    Answer("wind-up", "deg", DEGREE),
    Answer("centre rearward", "mm", 1.0),
    Answer("centre inward", "mm", 1.0),
    Answer("centre upward", "mm", 1.0),
    Answer("patch rearward", "mm", 1.0),
    Answer("patch inward", "mm", 1.0),
)
"""All answers, in the order of every answer axis."""


@dataclass(frozen=True, eq=False)
class Answers:
    """Answers of all wheels to unit loads at all wheels.

    Attributes
    ----------
    wheels : names (nw). loads : kinds of load (nl).
    found : (nw, na, nw, nl) answer [rad or mm] of a wheel to 1 N or 1 N·mm at another; NaN where that wheel
        cannot have the load.
    partner : index of the other wheel of the axle, -1 where the case has none.
    """

    wheels: tuple[str, ...]
    loads: tuple[UnitLoad, ...]
    found: Array
    partner: tuple[int, ...]

    def loaded(self, how: Loaded) -> Array:
        """(nw, na, nl) answer of each wheel with its axle's wheels loaded together, alone or against each other.

        The sign is that of the load on the wheel itself. A wheel without a partner in the case is alone.
        """
        nw = len(self.wheels)
        total = self.found[range(nw), :, range(nw)].copy()
        way = {"together": 1.0, "alone": 0.0, "opposite": -1.0}[how]
        sign = np.array([-way if load.turns else way for load in self.loads])
        for i, other in enumerate(self.partner):
            if other >= 0 and way:
                total[i] += sign * self.found[i, :, other]
        return total

    def shown(self, how: Loaded) -> Array:
        """(nw, na, nl) the same in the units of the answers for each unit of the loads."""
        scale = np.outer([a.scale for a in ANSWERS], [load.scale for load in self.loads])
        shown: Array = self.loaded(how) * scale
        return shown


def answers_of(model: Model, loads: Sequence[UnitLoad] = LOADS) -> Answers:
    """Solve a model for unit loads at its wheels.

    model : as `standing_wheels` gives it, at design height or in a pose.

    Raises
    ------
    FrameError : where the model cannot be solved, has no wheels, or fails its self-checks.
    """
    if not model.wheels:
        raise FrameError("the case has no wheels to load")
    wheels = tuple(model.wheels.values())
    cases: list[LoadCase] = []
    at: list[tuple[int, int]] = []
    for j, wheel in enumerate(wheels):
        for k, load in enumerate(loads):
            case = load.case(model, wheel)
            if case is not None:
                cases.append(case)
                at.append((j, k))
    solution = solve(model, cases)
    refusals = dict.fromkeys(r for check in self_checks(solution) for r in check.refusals)
    if refusals:
        raise FrameError("; ".join(refusals))
    found = np.full((len(wheels), len(ANSWERS), len(wheels), len(loads)), np.nan)
    js, ks = np.array(at, dtype=np.intp).reshape(-1, 2).T
    for i, wheel in enumerate(wheels):
        found[i][:, js, ks] = _answer(solution, wheel)
        for c, (j, k) in enumerate(at):
            if i == j:
                found[i, :, j, k] += _of_movement(model, wheel, *_tilt(model, wheel, cases[c]))
    return Answers(tuple(model.wheels), tuple(loads), found, partners(model))


_PAIRS = (("lateral", "patch inward"), ("braking", "patch rearward"), ("impact", "centre rearward"))
"""Loads with the movement of their own point along them, where the load is nothing but a force there."""


def reciprocity(model: Model, answers: Answers) -> float:
    """Largest difference between the movement at one load for another and the reverse, over the largest movement.

    Both are equal by Maxwell's theorem: a self-check of the whole solution.
    """
    names, moves = [load.name for load in answers.loads], [a.name for a in ANSWERS]
    at = [
        (w, moves.index(m), names.index(n))
        for n, m in _PAIRS
        if n in names
        for w, wheel in enumerate(model.wheels.values())
        if n != "braking" or wheel.brake == "outboard"
    ]
    if not at:
        return 0.0
    w, a, k = np.array(at).T
    square = answers.found[w[:, None], a[:, None], w, k]
    return float(np.abs(square - square.T).max() / np.abs(square).max())


def partners(model: Model) -> tuple[int, ...]:
    """Index of the other wheel of each wheel's axle, -1 where the case has none."""
    wheels = list(model.wheels.values())
    return tuple(
        next((k for k, v in enumerate(wheels) if v.axle == w.axle and v.left != w.left), -1) for w in wheels
    )


def _answer(solution: Solution, wheel: Wheel) -> Array:
    """(na, nc) answers of the carrying part at a wheel."""
    model = solution.system.model
    block, lever = solution.system.mesh.places[wheel.part, wheel.centre]
    moved, turned = solution.movement[block, :3], solution.movement[block, 3:]
    centre = moved + np.cross(turned, lever, axisa=0, axisc=0)
    return _of_movement(model, wheel, centre, turned)


def _of_movement(model: Model, wheel: Wheel, centre: Array, turned: Array) -> Array:
    """(na, ...) answers from the movement (3, ...) of the wheel centre and the small rotation (3, ...)."""
    axes, spin = model.axes, spin_axis(model.axes, wheel)
    out = -inward(model, wheel)
    leaned = np.cross(turned, spin, axisa=0, axisc=0)
    ahead, aside = spin @ axes.forward, spin @ out
    toe = (aside * (axes.forward @ leaned) - ahead * (out @ leaned)) / (ahead**2 + aside**2)
    camber = -(axes.up @ leaned) / np.sqrt(1 - (spin @ axes.up) ** 2)
    arm = contact_patch(model, wheel) - model.at(wheel.part, wheel.centre)
    patch = centre + np.cross(turned, arm, axisa=0, axisc=0)
    back, mid, up = -axes.forward, -out, axes.up
    found = [toe, camber, axes.left @ turned]
    found += [back @ centre, mid @ centre, up @ centre, back @ patch, mid @ patch]
    return np.array(found)


def _tilt(model: Model, wheel: Wheel, case: LoadCase) -> tuple[Array, Array]:
    """Movement (3,) of the centre and rotation (3,) of a wheel on its hub bearing, whose centre is the wheel's."""
    still = np.zeros(3)
    if wheel.hub_tilt is None:
        return still, still
    spin, centre = spin_axis(model.axes, wheel), model.at(wheel.part, wheel.centre)
    own = [load for load in case.loads if load.part == wheel.part and load.point == wheel.centre]
    moment = sum((load.moment + np.cross(load.position - centre, load.force) for load in own), still)
    return still, (moment - (moment @ spin) * spin) / wheel.hub_tilt
