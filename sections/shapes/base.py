"""What every shape offers."""

from __future__ import annotations

from typing import ClassVar, Literal, Protocol

from sections.geometry import Outline, Walls

Engine = Literal["walls", "outline"]


class Shape(Protocol):
    """Parameters of a section in mm, checked when made; each parameter is a field declared by `parameter`.

    Widths, heights and diameters are outside dimensions, radii are inside bend radii. Drawn with z = 0 at the lowest
    face and y = 0 on the axis of symmetry, or at the outside face of a channel's web.

    Attributes
    ----------
    name : the name that a case file uses.

    Raises
    ------
    ShapeError : on making one, with every fault found.
    """

    name: ClassVar[str]

    @property
    def serves(self) -> Engine:
        """The engine whose results stand for this shape."""
        ...

    def walls(self) -> Walls | None:
        """Mid-lines with thickness; None where no wall model makes sense."""
        ...

    def outline(self) -> Outline | None:
        """The true shape; None where it is not known."""
        ...


def bend_radius(given: float | None, usual: float, room: float) -> float:
    """The given inside radius, or the usual one as far as there is room for it."""
    return max(0.0, min(usual, room)) if given is None else given
