"""What load cases need of the vehicle data, as faults where it is missing."""

from __future__ import annotations

from collections.abc import Iterator

from loadpath.loads.errors import Fault
from loadpath.loads.needs import finite_above
from loadpath.loads.transfer import AXLES
from loadpath.model import DESIGN, Vehicle


def vehicle_faults(vehicle: Vehicle) -> Iterator[Fault]:
    """What the load cases cannot use in the vehicle data, in any loading state; the same thing once."""
    own = list(_faults(vehicle))
    yield from own
    told = {(fault.place.rpartition(".")[2], fault.what) for fault in own}
    for state in vehicle.states.values():
        yield from (f for f in _faults(state) if (f.place.rpartition(".")[2], f.what) not in told)


def _faults(vehicle: Vehicle) -> Iterator[Fault]:
    for key in ("mass", "wheelbase", "cg_height"):
        if not finite_above(getattr(vehicle, key), 0):
            yield _fault(vehicle, key, getattr(vehicle, key), "a number above 0")
    if not 0 < vehicle.front_share < 1:
        expected = "a share between 0 and 1, both axles loaded"
        yield _fault(vehicle, "front_share", vehicle.front_share, expected)
    if vehicle.roll_stiffness is not None and not finite_above(vehicle.roll_stiffness, 0):
        yield _fault(vehicle, "roll_stiffness", vehicle.roll_stiffness, "a number above 0, or none")
    total = vehicle.front.roll_share + vehicle.rear.roll_share
    if not abs(total - 1) < 1e-9:
        yield _fault(vehicle, "roll_share", total, "shares of both axles that add to 1")
    for axle in AXLES:
        yield from _axle_faults(vehicle, axle)


def _axle_faults(vehicle: Vehicle, axle: str) -> Iterator[Fault]:
    data = vehicle.axle(axle)
    if not finite_above(data.track, 0):
        yield _fault(vehicle, f"{axle}.track", data.track, "a number above 0")
    if vehicle.axle_mass(axle) > 0 and not 0 <= data.unsprung_mass < vehicle.axle_mass(axle):
        expected = f"0 to less than the axle's mass, {vehicle.axle_mass(axle) * 1e3:.0f} kg"
        yield _fault(vehicle, f"{axle}.unsprung_mass", data.unsprung_mass * 1e3, expected)
    if not 0 <= data.roll_share <= 1:
        yield _fault(vehicle, f"{axle}.roll_share", data.roll_share, "a share from 0 to 1")


def _fault(vehicle: Vehicle, key: str, value: float, expected: str) -> Fault:
    path = "vehicle" if vehicle.state == DESIGN else f"vehicle.states.{vehicle.state}"
    return Fault("", f"{path}.{key}", f"{value:g} does not do for load cases", expected)
