"""The four wheel loads of a vehicle that moves steadily: weight, transfer, side force, braking, driving."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.loads.terms import CORNERS, Corner, Loads, Term, component
from loadpath.loads.transfer import (
    AXLES,
    STANDARD_GRAVITY,
    RollMoments,
    axle_loads,
    lateral_transfer,
    longitudinal_transfer,
)
from loadpath.model import DESIGN, Axes, Vehicle

Array = NDArray[np.float64]

GRIP = 1.2
"""Friction above which a note asks for a second look; peak of a good tyre (common practice, no source)."""


@dataclass(frozen=True)
class Motion:
    """The one acceleration field of a load case.

    Attributes
    ----------
    forward, left : acceleration [mm/s²]; a slope's share of gravity counts as acceleration forward.
    vertical : multiple of standard gravity square to the road, gravity included.
    """

    forward: float = 0.0
    left: float = 0.0
    vertical: float = 1.0

    def field(self, axes: Axes) -> Array:
        """(3,) force per mass [N/t], gravity minus acceleration, in case axes."""
        down = self.vertical * STANDARD_GRAVITY
        pull = down * axes.up + self.forward * axes.forward + self.left * axes.left
        return 0.0 - pull


@dataclass(frozen=True)
class Road:
    """Wheel loads without braking and driving.

    loads : upward and sideways terms of every corner. roll : body roll [rad], None without roll stiffness.
    lifted : corners off the ground.
    """

    loads: Loads
    roll: float | None
    lifted: tuple[Corner, ...]


def road_loads(vehicle: Vehicle, motion: Motion) -> Road:
    """Weight, load transfer and side forces of all four corners.

    The side force of an axle is its share of the mass times the acceleration (no yaw acceleration), shared by
    its wheels as their loads are.

    Raises
    ------
    NoSteadyState : an axle lifts, or the vehicle overturns.
    """
    on_axles = axle_loads(vehicle, motion.forward, motion.vertical)
    lateral = lateral_transfer(vehicle, motion.left, motion.vertical, on_axles)
    loads = {}
    for corner in CORNERS:
        up = (
            *weight_terms(vehicle, corner, motion.vertical),
            _along(vehicle, corner, motion.forward),
            *_across(vehicle, corner, lateral.axles[corner.axle]),
        )
        side = vehicle.axle_mass(corner.axle) * motion.left * component(up, "up") / on_axles[corner.axle]
        loads[corner] = nonzero(*up, Term("cornering", "left", side))
    lifted = tuple(Corner(axle, lateral.axles[axle].total > 0) for axle in lateral.lifted)
    return Road(loads, lateral.roll, lifted)


def weight_terms(vehicle: Vehicle, corner: Corner, factor: float) -> tuple[Term, ...]:
    """Static load of a wheel and what a vertical factor adds to it."""
    static = static_load(vehicle, corner)
    return nonzero(
        Term(static_name(vehicle), "up", static), Term("vertical factor", "up", (factor - 1) * static)
    )


def static_name(vehicle: Vehicle) -> str:
    """What the static load is called: with the loading state where the vehicle has several."""
    alone = vehicle.state == DESIGN and not vehicle.states
    return "static" if alone else f"static in {vehicle.state}"


def static_load(vehicle: Vehicle, corner: Corner) -> float:
    """Load of a wheel at rest on level ground [N]."""
    return vehicle.axle_mass(corner.axle) * STANDARD_GRAVITY / 2


def _along(vehicle: Vehicle, corner: Corner, forward: float) -> Term:
    sign = -1 if corner.axle == "front" else 1
    return Term("longitudinal transfer", "up", sign * longitudinal_transfer(vehicle, forward) / 2)


def _across(vehicle: Vehicle, corner: Corner, moments: RollMoments) -> tuple[Term, ...]:
    arm = (-1 if corner.left else 1) * vehicle.axle(corner.axle).track
    return (
        Term("lateral transfer by roll stiffness", "up", moments.elastic / arm),
        Term("lateral transfer at the roll centre", "up", moments.geometric / arm),
        Term("lateral transfer of unsprung mass", "up", moments.unsprung / arm),
    )


def nonzero(*terms: Term) -> tuple[Term, ...]:
    """Terms without those that are exactly zero."""
    return tuple(t for t in terms if t.value != 0)


def braking_loads(
    loads: Loads, force: float, driven: frozenset[Corner], blend: float, front_share: float | None
) -> Loads:
    """Forward terms of the brakes, and of the drive where it takes part.

    Parameters
    ----------
    force : all wheels together [N], positive forward.
    driven : corners whose drive makes the share `blend` of their own braking force.
    front_share : of the front axle; None for shares as the wheel loads are, all with the same friction.
    """
    up = {c: component(loads[c], "up") for c in CORNERS}
    on_axle = {a: sum(up[c] for c in CORNERS if c.axle == a) for a in AXLES}
    share = {a: on_axle[a] / sum(on_axle.values()) for a in AXLES}
    if front_share is not None:
        share = {"front": front_share, "rear": 1 - front_share}
    found = {}
    for c in CORNERS:
        own = force * share[c.axle] * up[c] / on_axle[c.axle]
        by_drive = blend * own if c in driven else 0.0
        found[c] = nonzero(
            Term("friction brake", "forward", own - by_drive, "brake"),
            Term("braking by the drive", "forward", by_drive, "drive"),
        )
    return found


def driving_loads(loads: Loads, force: float, driven: frozenset[Corner]) -> Loads:
    """Forward terms of the driven wheels: axles in the ratio of their loads, wheels of an axle alike.

    Alike because an open differential, or one torque for both sides, gives both half-shafts the same.
    """
    axles = [c.axle for c in driven]
    on_axle = {a: sum(component(loads[c], "up") for c in CORNERS if c.axle == a) for a in set(axles)}
    total = sum(on_axle.values())
    return {
        c: nonzero(Term("drive", "forward", force * on_axle[c.axle] / total / axles.count(c.axle), "drive"))
        for c in CORNERS
        if c in driven
    }


def grip_notes(loads: Loads, names: Mapping[Corner, str]) -> tuple[str, ...]:
    """Says which wheels need more friction than tyres give, or push along the ground without a load."""
    found: dict[str, list[str]] = {}
    for corner, name in names.items():
        told = _grip(loads[corner])
        if told:
            found.setdefault(told, []).append(name)
    return tuple(f"{', '.join(wheels)} {told}" for told, wheels in found.items())


def _grip(terms: tuple[Term, ...]) -> str:
    """What is to be told of a wheel's friction, or ""."""
    up = component(terms, "up")
    along = float(np.hypot(component(terms, "forward"), component(terms, "left")))
    if along <= 1e-6 * max(abs(t.value) for t in terms):
        return ""
    if up <= 1e-9 * along:
        return f"without a load would have to pass {along / 1e3:.1f} kN along the ground"
    if along <= GRIP * up:
        return ""
    limit = f"tyres seldom give more than {GRIP:g} (common practice, no source)"
    return f"would need a friction of {along / up:.2f}; {limit}"
