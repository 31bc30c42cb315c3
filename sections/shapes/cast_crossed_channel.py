"""Cast open channel with crossed ribs."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

import numpy as np

from sections.errors import FaultList
from sections.fields import parameter
from sections.geometry import Sheet, Walls, joined_walls
from sections.geometry.sheet import Seam
from sections.shapes import casting
from sections.shapes.base import Engine


def closing_thickness(pitch: float, width: float, diagonal: float, chord: float, e_over_g: float) -> float:
    """Thickness of the wall that shears as a lattice of crossed diagonals between two chords does [mm].

    Strain energy of one bay under a shear flow: t = (E/G) a b/(d³/(2 A_d) + a³/6/A_c), with bay length a, width b,
    diagonals of length d = √(a² + b²) and area A_d each, chords of area A_c each, pinned (closed form; C. F.
    Kollbrunner and K. Basler, Torsion in Structures (1969), has such a table, from memory).

    Parameters
    ----------
    pitch : a [mm]. width : b [mm]. diagonal, chord : A_d, A_c [mm²]. e_over_g : E/G [-].
    """
    length: float = (pitch**2 + width**2) ** 0.5
    return e_over_g * pitch * width / (length**3 / (2 * diagonal) + pitch**3 / (6 * chord))


@dataclass(frozen=True, kw_only=True)
class CastCrossedChannel:
    """Cast channel open at the top, with crossed ribs between its side walls that make it stiff in torsion.

    The upper strips of the ribs, `strip` deep, count as the diagonals of a lattice that closes the open side: a wall
    without bending stiffness whose shear is that of the lattice (`closing_thickness`), at the middle of the strips.
    What the ribs do further down is left out: forces in equilibrium, so that J errs on the low side (least
    complementary energy). Stress in the ribs themselves is not worked out. Fillets are left out as well.
    """

    name: ClassVar[str] = "cast crossed channel"
    serves: ClassVar[Engine] = "walls"

    width: float = parameter("outside width", "mm")
    height: float = parameter("height, overall", "mm")
    wall: float = parameter("thickness of the side walls", "mm", thickness=True)
    base: float = parameter("thickness of the base", "mm", thickness=True)
    pitch: float = parameter("length along the member of one crossing of ribs", "mm")
    rib: float | None = parameter("thickness of a rib; default 0.8 of the wall (common practice)", "mm", None)
    strip: float | None = parameter(
        "depth of the ribs, from the rim down, that counts; default a quarter of the height", "mm", None
    )
    poisson: float | None = parameter("Poisson's ratio; default that of the material", "", None)

    def __post_init__(self) -> None:
        faults = FaultList(self.name)
        sized = faults.positive(
            width=self.width,
            height=self.height,
            wall=self.wall,
            base=self.base,
            pitch=self.pitch,
            rib=self.rib_thickness,
            strip=self.depth,
        )
        if sized:
            sized = faults.under("wall", self.wall, self.width / 2, "half the width")
            sized &= faults.under("base", self.base, self.height, "the height")
            why = "the height of the walls above the base"
            sized &= faults.inside("strip", self.depth, high=self.height - self.base, why=why)
        if self.poisson is not None:
            faults.inside("poisson", self.poisson, 0.0, 0.5, unit="")
        faults.raise_any()

    @property
    def rib_thickness(self) -> float:
        """Thickness of a rib [mm], given or by default."""
        return 0.8 * self.wall if self.rib is None else self.rib

    @property
    def depth(self) -> float:
        """Depth of the strips that count [mm], given or by default."""
        return self.height / 4 if self.strip is None else self.strip

    @property
    def closing(self) -> float:
        """Thickness of the equivalent closing wall [mm]."""
        across = self.width - self.wall
        nu = 0.3 if self.poisson is None else self.poisson
        areas = self.rib_thickness * self.depth, self.wall * self.depth
        return closing_thickness(self.pitch, across, *areas, 2 * (1 + nu))

    def assumed(self) -> dict[str, float]:
        return {"rib": self.rib_thickness, "strip": self.depth}

    def of_material(self, nu: float, shear_modulus: float) -> CastCrossedChannel:
        return replace(self, poisson=nu) if self.poisson is None else self

    def notes(self) -> list[str]:
        least = min(self.wall, self.base, self.rib_thickness)
        rise = self.height - self.base
        return [
            f"the crossed ribs close the channel like a wall of {self.closing:.3g} mm that carries shear alone "
            "(strain energy of a pinned lattice of their upper strips; J errs on the low side); stress in the ribs "
            "is not worked out",
            *casting.casting_notes(least, self.wall, self.wall, self.rib_thickness, rise),
        ]

    def walls(self) -> Walls:
        y, low, level = (self.width - self.wall) / 2, self.base / 2, self.height - self.depth / 2
        floor = Sheet(np.array([[-y, low], [y, low]]), self.base)
        sides = [
            Sheet(np.array([[s * y, low], [s * y, level], [s * y, self.height]]), self.wall) for s in (-1, 1)
        ]
        closing: list[Seam] = [((-y, level), (y, level), self.closing / (2 * y))]
        return joined_walls([floor, *sides], closing)

    def outline(self) -> None:
        return None  # ribs across the member are in no cross-section
