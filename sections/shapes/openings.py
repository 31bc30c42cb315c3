"""Holes in a row and doubler patches, as shapes of sheet share them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Protocol

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Walls
from sections.geometry.edits import hole_conductance, with_holes, with_patch
from sections.notches import hole_factor
from sections.result import Array

WIDEST, CLOSEST = 0.7, 1.5
"""Diameter over the straight of the wall, and pitch over diameter, up to which a wall with holes counts as a wall."""


@dataclass(frozen=True)
class Face:
    """A flat wall of a shape: middles of the mid-lines of all walls of that name, the straight between its bends
    [mm], its thickness [mm] and, for patches, the way outward."""

    places: tuple[tuple[float, float], ...]
    straight: float
    gauge: float
    outward: tuple[float, float] = (0.0, 1.0)


class Holed(Protocol):
    """A shape with holes, each field declared by the function of its name below."""

    @property
    def hole(self) -> float | None: ...
    @property
    def hole_pitch(self) -> float | None: ...
    @property
    def hole_in(self) -> str: ...


class Patched(Holed, Protocol):
    """A shape with a doubler too, each field declared by the function of its name below."""

    @property
    def doubler(self) -> float | None: ...
    @property
    def doubler_width(self) -> float | None: ...


def hole() -> Any:
    return parameter("diameter of lightening or access holes in a row along the member", "mm", None)


def hole_pitch() -> Any:
    return parameter("distance between holes, middle to middle", "mm", None)


def hole_in(usual: str) -> Any:
    return parameter("the wall that has the holes, in its middle", "", usual, tell=False)


def doubler(where: str) -> Any:
    return parameter(
        f"thickness of a patch welded on the {where} along its two edges", "mm", None, thickness=True
    )


def doubler_width() -> Any:
    return parameter("width of the patch", "mm", None)


def check_holes(faults: FaultList, shape: Holed, faces: Mapping[str, Face] | None) -> None:
    """Diameter and pitch go together and leave a wall; `faces` is None where the shape's own sizes are faulty."""
    diameter, pitch = shape.hole, shape.hole_pitch
    for name, value, other in (("hole", diameter, "hole_pitch"), ("hole_pitch", pitch, "hole")):
        if value is not None and (pitch if name == "hole" else diameter) is None:
            faults.add(name, f"{value:g} mm", f"must be given with {other}")
    if diameter is None or pitch is None or not faults.positive(hole=diameter) or faces is None:
        return
    if shape.hole_in not in faces:
        faults.add("hole_in", repr(shape.hole_in), f"must be one of {', '.join(faces)}")
        return
    most = WIDEST * max(faces[shape.hole_in].straight, 0.0)
    why = f"{WIDEST:g} of the straight of the wall; with larger ones it is a frame, no wall"
    faults.inside("hole", diameter, high=most, why=why)
    faults.inside("hole_pitch", pitch, CLOSEST * diameter, why=f"{CLOSEST:g} diameters")


def check_doubler(faults: FaultList, shape: Patched, faces: Mapping[str, Face] | None, on: str) -> None:
    """Thickness and width go together; the patch lies on the straight of its wall, which has no holes."""
    gauge, width = shape.doubler, shape.doubler_width
    for name, value, other in (("doubler", gauge, "doubler_width"), ("doubler_width", width, "doubler")):
        if value is not None and (width if name == "doubler" else gauge) is None:
            faults.add(name, f"{value:g} mm", f"must be given with {other}")
    if (
        gauge is None
        or width is None
        or not faults.positive(doubler=gauge, doubler_width=width)
        or faces is None
    ):
        return
    faults.under("doubler_width", width, faces[on].straight, "the straight of its wall")
    if shape.hole is not None and shape.hole_in == on:
        faults.add(
            "doubler", f"{gauge:g} mm", "must be on a wall without holes; trace a section that has both"
        )


def holed(walls: Walls, shape: Holed, faces: Mapping[str, Face]) -> Walls:
    """The walls with the shape's holes."""
    if shape.hole is None or shape.hole_pitch is None:
        return walls
    for place in faces[shape.hole_in].places:
        walls = with_holes(walls, place, shape.hole, shape.hole_pitch)
    return walls


def patched(walls: Walls, shape: Patched, face: Face) -> Walls:
    """The walls with the shape's doubler."""
    if shape.doubler is None or shape.doubler_width is None:
        return walls
    return with_patch(walls, face.places[0], shape.doubler_width, shape.doubler, face.outward)


def patch_outlines(shape: Patched, face: Face) -> list[Array]:
    """The doubler as a rectangle, none where there is none; its face lies flat on y or z."""
    if shape.doubler is None or shape.doubler_width is None:
        return []
    out = np.array(face.outward)
    low = np.array(face.places[0]) + out * face.gauge / 2
    half = np.array([out[1], -out[0]]) * shape.doubler_width / 2
    return [
        np.array([low - half, low + half, low + half + out * shape.doubler, low - half + out * shape.doubler])
    ]


def hole_notes(shape: Holed, faces: Mapping[str, Face]) -> Iterator[str]:
    """How the holes are modelled."""
    if shape.hole is None or shape.hole_pitch is None:
        return
    face = faces[shape.hole_in]
    rise = max(
        face.straight / (face.straight - shape.hole), shape.hole_pitch / (shape.hole_pitch - shape.hole)
    )
    share = hole_conductance(1.0, shape.hole, shape.hole_pitch) * shape.hole
    peak = float(hole_factor(shape.hole / face.straight))
    yield (
        f"holes of {shape.hole:g} mm every {shape.hole_pitch:g} mm in the {shape.hole_in}: bending by the net "
        f"section; shear flow through an equivalent strip with {share:.2f} of the wall's thickness (closed form of "
        "sparse holes, with a factor for neighbours fitted to plane-stress finite elements: shear stiffness of the "
        f"wall at most 1 % high, 14 % low); shear beside the holes is {rise:.2f} × nominal. At the edge of a hole "
        f"stress peaks at about {peak:.1f} × that of the net section, which counts for fatigue and brittle grades "
        "and is not in the stress shown"
    )
    if shape.hole < 1.2 * face.gauge:
        yield f"holes under 1.2 × the gauge of {face.gauge:g} mm are hard to pierce (common practice, no source)"
