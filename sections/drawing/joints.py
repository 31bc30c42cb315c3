"""What joins or weakens thin walls: welds between layers, rows of holes, heat-affected zones."""

from __future__ import annotations

from typing import Any

import numpy as np

from sections.acting import welds_among
from sections.drawing.bands import Bands, shells
from sections.geometry import Walls

_WELD, _HOLE, _WEAK = "0.0", "0.3", "0.35"
_ACROSS = 3.0
"""Longest weld in wall thicknesses; a longer tie stands for ribs across an open section."""


def draw_joints(axes: Any, walls: Walls) -> None:
    """Welds as thick strokes; a row of holes as the missing faces of its wall, and ribs across, both dashed."""
    welds = welds_among(walls)
    tied = walls.nodes[walls.seams[welds]]
    across = np.linalg.norm(tied[:, 1] - tied[:, 0], axis=1) > _ACROSS * walls.thickness.max()
    for k, ends in enumerate(tied[~across]):
        label = "weld" if k == 0 else None
        axes.plot(*ends.T, color=_WELD, linewidth=3.2, solid_capstyle="round", label=label, zorder=5)
    for k, ends in enumerate(tied[across]):
        label = "ribs across, for shear alone" if k == 0 else None
        axes.plot(*ends.T, color=_HOLE, linewidth=1.2, linestyle=(0, (4, 3)), label=label, zorder=3)
    for k, (first, last) in enumerate(walls.seams[~welds].tolist()):
        ends = walls.nodes[[first, last]]
        run = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
        thickness = float(walls.thickness[(walls.ends == first).any(axis=1)].max())
        for side in (0.5, -0.5):
            face = ends + side * thickness * np.array([-run[1], run[0]])
            label = "row of holes, net section" if k == 0 and side > 0 else None
            axes.plot(*face.T, color=_HOLE, linewidth=0.8, linestyle=(0, (4, 3)), label=label, zorder=3)


def draw_weak_zones(axes: Any, walls: Walls, drawn: Bands) -> None:
    """Walls of less strength than the grade hatched."""
    from matplotlib.collections import PolyCollection

    weak = walls.strength < 1
    if weak.any():
        axes.add_collection(
            PolyCollection(
                list(shells(drawn)[weak]),
                facecolor="none",
                edgecolor=_WEAK,
                hatch="/////",
                linewidth=0.0,
                label=f"heat-affected, down to {walls.strength.min():.2f} of the strength",
                zorder=3,
            )
        )


def joint_entries(walls: Walls) -> int:
    """How many things of these the legend tells."""
    welds = welds_among(walls)
    return int(welds.any()) + int((~welds).any()) + int((walls.strength < 1).any())
