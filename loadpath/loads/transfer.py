"""Load transfer of a rigid body on four wheels: plain formulas.

Everything in mm, N, t, rad. Accelerations [mm/s²] are positive forward and to the left; `vertical` is the
multiple of standard gravity square to the road, gravity included (1 at rest).

Sources: T. D. Gillespie, Fundamentals of Vehicle Dynamics, ch. 1 (dynamic axle loads), ch. 2 (traction
limit), ch. 6 (roll moments); W. F. and D. L. Milliken, Race Car Vehicle Dynamics, ch. 18 (lateral transfer).
Chapters from memory; the equations follow from the balance of moments.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from loadpath.loads.errors import NoSteadyState
from loadpath.model import Vehicle

STANDARD_GRAVITY = 9806.65
"""[mm/s²], exact by definition (3rd CGPM, 1901)."""

AXLES = ("front", "rear")


def longitudinal_transfer(vehicle: Vehicle, forward: float) -> float:
    """Load [N] that moves from the front to the rear axle: m a h / L (Gillespie ch. 1).

    Suspension anti-features change the forces in arms and springs, not this one.
    """
    return vehicle.mass * forward * vehicle.cg_height / vehicle.wheelbase


def axle_loads(vehicle: Vehicle, forward: float = 0.0, vertical: float = 1.0) -> dict[str, float]:
    """Load of each axle [N] under an acceleration forward [mm/s²] (Gillespie ch. 1).

    A road that rises by an angle s forward is put in as `forward` + g sin s and `vertical` = cos s.

    Raises
    ------
    NoSteadyState : an axle would lift.
    """
    moved = longitudinal_transfer(vehicle, forward)
    rest = {axle: vehicle.axle_mass(axle) * vertical * STANDARD_GRAVITY for axle in AXLES}
    loads = {"front": rest["front"] - moved, "rear": rest["rear"] + moved}
    for axle, load in loads.items():
        if not load > 0:
            limit = abs(forward * rest[axle] / moved) / STANDARD_GRAVITY if moved else 0.0
            raise NoSteadyState(
                f"the {axle} axle lifts at {abs(forward) / STANDARD_GRAVITY:.2f} g along the vehicle",
                f"less than {limit:.2f} g, where its load is zero",
            )
    return loads


def traction_limit(vehicle: Vehicle, axle: str, friction: float) -> float:
    """Largest acceleration forward [mm/s²] that one driven axle's grip gives (Gillespie ch. 2).

    a = mu g s / (1 + mu h/L) driven at the front, mu g s / (1 - mu h/L) at the rear, s the axle's share of
    the mass; infinite where the denominator is not positive. Drag and rolling resistance are left out.
    """
    lever = friction * vehicle.cg_height / vehicle.wheelbase
    share = vehicle.axle_mass(axle) / vehicle.mass
    denominator = 1 + lever if axle == "front" else 1 - lever
    return friction * STANDARD_GRAVITY * share / denominator if denominator > 0 else math.inf


@dataclass(frozen=True)
class RollMoments:
    """Overturning moments [N·mm] that an axle takes, by their way to the ground; positive loads the right.

    Attributes
    ----------
    elastic : through springs and anti-roll bar. geometric : sprung mass at the roll centre, through the arms.
    unsprung : the axle's own unsprung mass.
    """

    elastic: float
    geometric: float
    unsprung: float

    @property
    def total(self) -> float:
        """All three together."""
        return self.elastic + self.geometric + self.unsprung


@dataclass(frozen=True)
class Lateral:
    """Lateral load transfer of both axles.

    Attributes
    ----------
    axles : roll moments of each axle; over the track they give the load that goes from left to right.
    roll : body roll [rad], right-hand about forward, so positive leans right; None without roll stiffness.
    lifted : axles whose inner wheel is off the ground.
    """

    axles: Mapping[str, RollMoments]
    roll: float | None
    lifted: tuple[str, ...]


def sprung_mass(vehicle: Vehicle) -> float:
    """Sprung mass of the whole vehicle [t]."""
    return vehicle.mass - vehicle.front.unsprung_mass - vehicle.rear.unsprung_mass


def roll_arm(vehicle: Vehicle) -> float:
    """Height [mm] of the sprung mass's centre above the roll axis (the line through both roll centres)."""
    moment = vehicle.mass * vehicle.cg_height
    for axle in AXLES:
        data = vehicle.axle(axle)
        moment -= data.unsprung_mass * data.unsprung_height
        moment -= (vehicle.axle_mass(axle) - data.unsprung_mass) * data.roll_centre
    return moment / sprung_mass(vehicle)


def lateral_transfer(
    vehicle: Vehicle, left: float, vertical: float = 1.0, loads: Mapping[str, float] | None = None
) -> Lateral:
    """Lateral load transfer under an acceleration to the left [mm/s²] (Milliken ch. 18, Gillespie ch. 6).

    Axle i moves (K_i phi + m_si a h_rc,i + m_ui a h_ui) / t_i with phi = m_s a d / (K - m_s g d): the gravity
    term m_s g d phi of the leaning body is in it. Without a roll stiffness K the elastic part is the axle's
    roll share of m_s a d, without the gravity term.

    An axle takes no more than the moment that lifts its inner wheel, load × track / 2; what is over goes
    through the stiff body to the other axle, and the roll angle follows from that axle alone.

    loads : axle loads [N] where they differ from those at rest.

    Raises
    ------
    NoSteadyState : the vehicle overturns.
    """
    loads = loads or axle_loads(vehicle, vertical=vertical)
    most = {a: loads[a] * vehicle.axle(a).track / 2 for a in AXLES}
    driving = sprung_mass(vehicle) * left * roll_arm(vehicle)
    falling = sprung_mass(vehicle) * vertical * STANDARD_GRAVITY * roll_arm(vehicle)
    total, roll = _elastic(vehicle.roll_stiffness, driving, falling)
    axles = {a: _moments(vehicle, a, vehicle.axle(a).roll_share * total, left) for a in AXLES}
    lifted = _beyond(axles, most)
    if len(lifted) == 1:
        light, other = lifted[0], AXLES[1 - AXLES.index(lifted[0])]
        own = axles[light]
        held = math.copysign(most[light], own.total) - own.geometric - own.unsprung
        stiffness = vehicle.roll_stiffness and vehicle.roll_stiffness * vehicle.axle(other).roll_share
        rest, roll = _elastic(stiffness, driving - held, falling)
        axles = {light: _moments(vehicle, light, held, left), other: _moments(vehicle, other, rest, left)}
    if len(lifted) == 2 or any(a not in lifted for a in _beyond(axles, most)):
        limit = sum(most.values()) / (vehicle.mass * vehicle.cg_height) / STANDARD_GRAVITY
        leans = ", the limit of a body that does not lean: this one does" if vehicle.roll_stiffness else ""
        raise NoSteadyState(
            f"the vehicle overturns at {abs(left) / STANDARD_GRAVITY:.2f} g sideways: both inner wheels lift",
            f"{'well below' if leans else 'less than'} {limit:.2f} g{leans}",
        )
    return Lateral(axles, roll, lifted)


def _beyond(axles: Mapping[str, RollMoments], most: Mapping[str, float]) -> tuple[str, ...]:
    """Axles whose inner wheel would pull."""
    return tuple(a for a in AXLES if abs(axles[a].total) > most[a])


def _elastic(stiffness: float | None, driving: float, falling: float) -> tuple[float, float | None]:
    """Moment in the springs [N·mm] and roll angle [rad] of a body that leans under its own weight as well."""
    if stiffness is None:
        return driving, None
    if not stiffness > falling:
        raise NoSteadyState(
            "the body falls over: its weight turns it more than the springs that carry it hold",
            f"a roll stiffness above {falling * math.pi / 180e3:.0f} N·m/deg on the axles whose wheels both "
            "stand on the ground",
        )
    angle = driving / (stiffness - falling)
    return stiffness * angle, angle


def _moments(vehicle: Vehicle, axle: str, elastic: float, left: float) -> RollMoments:
    data = vehicle.axle(axle)
    sprung = vehicle.axle_mass(axle) - data.unsprung_mass
    return RollMoments(
        elastic=elastic,
        geometric=sprung * left * data.roll_centre,
        unsprung=data.unsprung_mass * left * data.unsprung_height,
    )
