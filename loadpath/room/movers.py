"""The wheels and half-shafts of a model as moving solids."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import BODY, Axes, HalfShaft, Model, Wheel, spin_axis
from loadpath.pose import Poses
from loadpath.room.placing import Frame
from loadpath.room.solids import ShaftSolid, Solid, TyreSolid

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Mover:
    """A solid that moves with the suspension.

    name : for people. kind : "wheel" or "half-shaft". wheel : the wheel whose travel moves it. frame : where it is in
    many poses, its x axis along the solid's.
    """

    name: str
    kind: str
    wheel: Wheel
    solid: Solid
    frame: Callable[[Poses], Frame]


def movers_of(model: Model) -> tuple[Mover, ...]:
    """All wheels of known tyres and half-shafts of known diameter."""
    return tuple(_movers(model))


def unknown_of(model: Model) -> tuple[str, ...]:
    """Sentences on what takes room but is not known."""
    wheels = model.wheels.values()
    tyres = [f"{w.name}: its tyre is not given, so its room is not known" for w in wheels if w.tyre is None]
    shafts = [w.name for w in wheels if w.half_shaft is not None and w.half_shaft.diameter is None]
    return (
        *tyres,
        *(f"half-shaft of {w}: its diameter is not given, so its clearances are not known" for w in shafts),
    )


def _movers(model: Model) -> Iterator[Mover]:
    for wheel in model.wheels.values():
        if wheel.tyre is not None:
            yield Mover(wheel.name, "wheel", wheel, TyreSolid(wheel.tyre), _wheel_frame(model.axes, wheel))
    for wheel in model.wheels.values():
        shaft = wheel.half_shaft
        if shaft is not None and shaft.diameter is not None:
            ends = model.at(wheel.unit or BODY, shaft.inner), model.at(wheel.part, shaft.outer)
            solid = ShaftSolid(float(np.linalg.norm(ends[1] - ends[0])), shaft.diameter / 2)
            yield Mover(
                f"half-shaft of {wheel.name}",
                "half-shaft",
                wheel,
                solid,
                _shaft_frame(model.axes, wheel, shaft),
            )


def _wheel_frame(axes: Axes, wheel: Wheel) -> Callable[[Poses], Frame]:
    design = _with_x(spin_axis(axes, wheel), axes.up)

    def frame(poses: Poses) -> Frame:
        return Frame(
            poses.point(wheel.part, wheel.centre),
            poses.turned(wheel.part, wheel.centre) @ design,
            poses.velocity(wheel.part, wheel.centre),
            poses.spin(wheel.part, wheel.centre),
        )

    return frame


def _shaft_frame(axes: Axes, wheel: Wheel, shaft: HalfShaft) -> Callable[[Poses], Frame]:
    inner, outer = (wheel.unit or BODY, shaft.inner), (wheel.part, shaft.outer)

    def frame(poses: Poses) -> Frame:
        start, line = poses.point(*inner), poses.point(*outer) - poses.point(*inner)
        length = np.linalg.norm(line, axis=1)[:, None]
        x = line / length
        moving = poses.velocity(*inner)
        spin = np.cross(x[:, None], poses.velocity(*outer) - moving) / length[:, None]
        return Frame(start, np.array([_with_x(one, axes.up) for one in x]), moving, spin)

    return frame


def _with_x(x: Array, up: Array) -> Array:
    """(3, 3) columns: a unit vector and two square to it, the last the part of up that is."""
    z = up - (up @ x) * x
    z = z / np.linalg.norm(z)
    return np.stack([x, np.cross(z, x), z], axis=1)
