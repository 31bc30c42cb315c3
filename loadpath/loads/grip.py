"""What the tyres pass of a drive torque: the smaller of torque over radius and friction times load."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import chain, combinations

from loadpath.loads.errors import NoSteadyState
from loadpath.loads.transfer import AXLES, STANDARD_GRAVITY
from loadpath.model import Vehicle


def gripped(
    vehicle: Vehicle, wanted: Mapping[str, float], friction: float, vertical: float = 1.0
) -> dict[str, float]:
    """Driving force [N] of each axle, forward positive: min(wanted, friction × axle load), by size.

    The axle loads are those under the acceleration that the forces make, W ∓ m a h / L, so that a driven rear
    axle gains grip and a driven front axle loses it (Gillespie, Fundamentals of Vehicle Dynamics, ch. 2, from
    memory). An infinite wanted force asks for the grip limit. vertical : multiple of standard gravity square to
    the road.

    Raises
    ------
    NoSteadyState : grip alone would lift the other axle.
    """
    for slipping in chain.from_iterable(combinations(wanted, n) for n in range(len(wanted) + 1)):
        found = _with_slip(vehicle, wanted, friction, vertical, slipping)
        if found is not None:
            return found
    raise NoSteadyState(
        f"with a friction of {friction:g} the vehicle lifts an axle before its wheels slip",
        "a torque, or a smaller friction",
    )


def _with_slip(
    vehicle: Vehicle,
    wanted: Mapping[str, float],
    friction: float,
    vertical: float,
    slipping: tuple[str, ...],
) -> dict[str, float] | None:
    """Forces where exactly these axles slip; None where that contradicts itself.

    With k = h / L, s the way an axle pushes and c = -1 in front, 1 behind: F_i = s_i mu (W_i + c_i k sum F) of
    the axles that slip, which is one equation for sum F.
    """
    lever = vehicle.cg_height / vehicle.wheelbase
    rest = {a: vehicle.axle_mass(a) * vertical * STANDARD_GRAVITY for a in AXLES}
    way = {a: friction * math.copysign(1, wanted[a]) for a in wanted}
    gain = {"front": -lever, "rear": lever}
    free = sum(force for a, force in wanted.items() if a not in slipping)
    left = 1 - sum(way[a] * gain[a] for a in slipping)
    if left <= 0 or math.isinf(free):
        return None
    total = (free + sum(way[a] * rest[a] for a in slipping)) / left
    load = {a: rest[a] + gain[a] * total for a in wanted}
    if min(load.values(), default=0.0) < 0:
        return None
    limit = {a: way[a] * load[a] for a in wanted}
    held = all(abs(limit[a]) <= abs(wanted[a]) for a in slipping)
    fits = all(abs(wanted[a]) <= abs(limit[a]) for a in wanted if a not in slipping)
    return {a: limit[a] if a in slipping else wanted[a] for a in wanted} if held and fits else None
