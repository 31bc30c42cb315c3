"""What acts on a section, and what it makes there: stress at the surface, shear flow along thin walls."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from sections.errors import Fault, ShapeError
from sections.geometry import Walls
from sections.midline import Midline
from sections.result import Array, Section

Colour = Literal["stress", "normal", "shear", "flow"]

COLOURS: dict[Colour, str] = {
    "stress": "von Mises stress, MPa",
    "normal": "normal stress σ, MPa, tension positive",
    "shear": "shear stress, MPa",
    "flow": "shear flow, N/mm",
}
"""What pictures may show, with the words for it: sqrt(σ² + 3τ²), σ, |τ|, and |q| along thin walls."""

_IN_LINE = 0.99
"""Cosine from which two directions are one."""

SIGNS = (
    "Forces at the centroid on the face turned to you: N pulls, Vy to the right, Vz up; My > 0 pulls at the top, "
    "Mz > 0 at the left, T > 0 turns from y to z."
).replace(" > ", "\u00a0>\u00a0")


@dataclass(frozen=True, eq=False)
class Acting:
    """Section forces on the face whose outward normal is +x, towards the viewer.

    Attributes
    ----------
    forces : (6,) N, Vy, Vz [N], T, My, Mz [N·mm] at the centroid.
    words : what they are, for the picture.
    bimoment : [N·mm²] of restrained warping.

    Raises
    ------
    ValueError : where there are not six forces.
    """

    forces: Array
    words: str
    bimoment: float = 0.0

    def __post_init__(self) -> None:
        object.__setattr__(self, "forces", np.array(self.forces, dtype=float).reshape(6))


def at_surface(made: Section, acting: Acting, colour: Colour) -> Array:
    """(n,) the quantity at the section's surface points, whose largest value is what a check would take."""
    stress = made.stresses(acting.forces)
    normal = stress[:, 0]
    if acting.bimoment and len(made.warping):
        normal = normal + acting.bimoment / made.Cw * made.warping
    return quantity(colour, normal, np.hypot(stress[:, 1], stress[:, 2]))


def quantity(colour: Colour, normal: Array, shear: Array) -> Array:
    """The quantity of σ and τ [MPa]; not for shear flow."""
    if colour == "normal":
        return normal
    return np.abs(shear) if colour == "shear" else np.sqrt(normal**2 + 3 * shear**2)


def flowing(made: Section) -> Midline:
    """The walls of a section with their flow.

    Raises
    ------
    ShapeError : where the section was not made by thin walls.
    """
    if made.midline is None or not len(made.midline.flow):
        fault = (
            "has no shear flow: that is of thin walls, which do not serve this shape; colour shear instead"
        )
        raise ShapeError("section", [Fault("", "", fault)])
    return made.midline


def largest_flow(line: Midline, acting: Acting) -> tuple[float, Array]:
    """Largest |q| [N/mm] along the walls and its place (2,): at the ends of a wall or where its parabola peaks."""
    fine = np.linspace(0.0, 1.0, 41)
    shape = np.column_stack([(1 - fine) * (1 - 2 * fine), 4 * fine * (1 - fine), fine * (2 * fine - 1)])
    flow = np.abs(line.shear_flow(acting.forces) @ shape.T)
    wall, at = np.unravel_index(int(flow.argmax()), flow.shape)
    place = line.start[wall] * (1 - fine[at]) + line.stop[wall] * fine[at]
    return float(flow[wall, at]), place


def welds_among(line: Midline | Walls) -> NDArray[np.bool_]:
    """(s,) which seams are welds. The others bridge a row of holes: they run on in the direction of the walls at both
    their ends, over more than the walls' thickness."""
    run = line.nodes[line.ends[:, 1]] - line.nodes[line.ends[:, 0]]
    along = run / np.linalg.norm(run, axis=1)[:, None]
    found = np.ones(len(line.seams), dtype=bool)
    for k, (first, last) in enumerate(line.seams.tolist()):
        across = line.nodes[last] - line.nodes[first]
        length = float(np.linalg.norm(across))
        goes_on = []
        for node in (first, last):
            here = (line.ends == node).any(axis=1)
            goes_on.append(bool((np.abs(along[here] @ across) > _IN_LINE * length).any()))
        found[k] = not (all(goes_on) and length > line.thickness.max())
    return found
