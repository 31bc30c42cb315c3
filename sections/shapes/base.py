"""What every shape offers."""

from __future__ import annotations

from collections.abc import Callable, Sequence
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

    A shape may offer more: `assumed()`, `notes()` and `of_material(nu, G)`, see the functions of these names below.

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


def of_material(shape: Shape, nu: float, shear_modulus: float) -> Shape:
    """The shape with what it leaves to the member's material filled in: itself where that is nothing.

    Parameters
    ----------
    nu : Poisson's ratio. shear_modulus : G [MPa].
    """
    fill: Callable[[float, float], Shape] | None = getattr(shape, "of_material", None)
    return shape if fill is None else fill(nu, shear_modulus)


def assumed_of(shape: Shape) -> dict[str, float]:
    """Value of each parameter that was not given and has no fixed default [its unit]; only those that count."""
    tell: Callable[[], dict[str, float]] | None = getattr(shape, "assumed", None)
    return {} if tell is None else {k: v for k, v in tell().items() if getattr(shape, k) is None}


def notes_of(shape: Shape) -> tuple[str, ...]:
    """What a reader of the results must know of the shape: methods and their basis, dimensions that common practice
    avoids. Sentences without a full stop."""
    tell: Callable[[], Sequence[str]] | None = getattr(shape, "notes", None)
    return () if tell is None else tuple(tell())


def bend_radius(given: float | None, usual: float, room: float) -> float:
    """The given inside radius, or the usual one as far as there is room for it."""
    return max(0.0, min(usual, room)) if given is None else given
