"""What a section knows of its thin walls: where they are, and what flows in them."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
IntArray = NDArray[np.intp]

# A mirrored section answers (N, Vy, Vz, T, My, Mz) as the original answers these signs of them.
MIRROR_ACTIONS = np.array([1.0, -1.0, 1.0, -1.0, 1.0, -1.0])


@dataclass(frozen=True, eq=False)
class Midline:
    """Mid-lines of the walls of a section, with shear flow and warping where the wall engine made it.

    Attributes
    ----------
    nodes : (n, 2) y, z in drawing coordinates [mm]. ends : (m, 2) node indices of each wall.
    thickness : (m,) [mm]. strength : (m,) of each wall over that of the grade. E_ratio : (m,) modulus of each wall
        over that of the section. seams : (s, 2) nodes that welds tie.
    flow : (m, 3, 6) shear flow [N/mm] at the start, middle and end of each wall, positive from its first node to its
        second, for unit N, Vy, Vz [N], T, My, Mz [N·mm] at the centroid. It is a parabola between. N, My and Mz
        make none. The flow through the wall's middle is meant; the open torsion of each wall adds stress of
        opposite signs on its two faces but no flow. Empty (0, 3, 6) where the outline engine made the section.
    seam_flow : (s, 6) the flow through each seam from its first node to its second.
    omega : (n,) warping at the nodes about the shear centre, zero on average [mm²]; empty as `flow` is.
    """

    nodes: Array
    ends: IntArray
    thickness: Array
    strength: Array
    E_ratio: Array
    seams: IntArray = field(default_factory=lambda: np.zeros((0, 2), dtype=np.intp))
    flow: Array = field(default_factory=lambda: np.zeros((0, 3, 6)))
    seam_flow: Array = field(default_factory=lambda: np.zeros((0, 6)))
    omega: Array = field(default_factory=lambda: np.zeros(0))

    @property
    def start(self) -> Array:
        """(m, 2) where each wall starts [mm]."""
        return self.nodes[self.ends[:, 0]]

    @property
    def stop(self) -> Array:
        """(m, 2) where each wall stops [mm]."""
        return self.nodes[self.ends[:, 1]]

    @property
    def length(self) -> Array:
        """(m,) [mm]."""
        run = self.stop - self.start
        return np.asarray(np.hypot(run[:, 0], run[:, 1]))

    @property
    def plastic_area(self) -> Array:
        """(m,) area of each wall times its strength [mm²]."""
        return self.length * self.thickness * self.strength

    def shear_flow(self, forces: Array) -> Array:
        """(m, 3, ...) shear flow [N/mm] at the start, middle and end of each wall under forces (6, ...)."""
        return np.tensordot(self.flow, forces, axes=(2, 0))

    def mirrored(self) -> Midline:
        """The same walls reflected in the z axis (y → −y); each keeps its direction."""
        return replace(
            self,
            nodes=self.nodes * [-1.0, 1.0],
            flow=self.flow * MIRROR_ACTIONS,
            seam_flow=self.seam_flow * MIRROR_ACTIONS,
            omega=-self.omega,
        )
