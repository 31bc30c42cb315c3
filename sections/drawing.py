"""Pictures of sections: PNG or SVG, by the ending of the file's name."""

from __future__ import annotations

from pathlib import Path
from typing import IO, Any

import numpy as np

from sections.api import section
from sections.geometry import Outline, Walls
from sections.result import Array, Section
from sections.shapes.base import Shape
from sections.walls import wall_outlines

_MATERIAL, _EDGE, _MARK, _LINE = "0.86", "0.35", "0.0", "0.45"
_THIN = 0.7
_MAP = "viridis"


def draw(
    shape: Shape,
    file: str | Path | IO[bytes],
    *,
    kind: str | None = None,
    made: Section | None = None,
    forces: Array | None = None,
    title: str = "",
) -> None:
    """Draw a shape with its centroid, shear centre, principal axes and outside dimensions.

    Parameters
    ----------
    file : path, or a binary stream. kind : "png" or "svg"; default by the ending of the path.
    made : the shape's section where it is at hand; otherwise it is computed.
    forces : (6,) N, Vy, Vz [N], T, My, Mz [N·mm] at the centroid; with them the surface points show the von Mises
        stress and the worst one is marked.
    title : default the shape's name.
    """
    from matplotlib.figure import Figure

    result = section(shape) if made is None else made
    figure = Figure(figsize=(7.0, 5.6), dpi=150, layout="constrained")
    axes = figure.add_subplot()
    geometry = shape.walls() if shape.serves == "walls" else shape.outline()
    if isinstance(geometry, Walls):
        _fill_walls(axes, geometry)
    elif geometry is not None:
        _fill(axes, geometry)
    _axes_and_centres(axes, result)
    _dimensions(axes, result)
    if forces is not None:
        _stress(figure, axes, result, forces)
    axes.set_title(title or shape.name, loc="left", fontsize=11)
    axes.set_xlabel("y, mm")
    axes.set_ylabel("z, mm")
    axes.set_aspect("equal", adjustable="datalim")
    axes.spines[["top", "right"]].set_visible(False)
    figure.legend(loc="outside lower center", ncols=4, fontsize=8, frameon=False)
    figure.savefig(file, format=kind)


def _fill(axes: Any, outline: Outline) -> None:
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path as Curve

    closed = (Curve(np.vstack([ring, ring[:1]]), closed=True) for ring in outline.rings)
    curve = Curve.make_compound_path(*closed)
    axes.add_patch(PathPatch(curve, facecolor=_MATERIAL, edgecolor=_EDGE, linewidth=_THIN))


def _fill_walls(axes: Any, walls: Walls) -> None:
    """Walls to their thickness with both faces drawn, so that layers stay apart, and welds between layers."""
    from matplotlib.collections import LineCollection, PolyCollection

    quads = wall_outlines(walls)
    axes.add_collection(
        PolyCollection(list(quads), facecolor=_MATERIAL, edgecolor=_MATERIAL, linewidth=_THIN)
    )
    faces = np.concatenate([quads[:, [0, 3]], quads[:, [1, 2]]])
    axes.add_collection(LineCollection(list(faces), colors=_EDGE, linewidths=_THIN))
    for k, ends in enumerate(walls.nodes[walls.seams]):
        label = "weld" if k == 0 else None
        axes.plot(*ends.T, color=_MARK, linewidth=3.0, solid_capstyle="round", label=label)


def _axes_and_centres(axes: Any, made: Section) -> None:
    _, _, angle = made.principal
    reach = 0.62 * float(np.ptp(made.box, axis=0).max())
    for name, turn in (("1", angle), ("2", angle + np.pi / 2)):
        step = reach * np.array([np.cos(turn), np.sin(turn)])
        step = -step if step @ [-1.0, 1.0] < 0 else step
        ends = np.array([made.centroid - step, made.centroid + step])
        label = "principal axes, 1 the stiffer" if name == "1" else None
        axes.plot(*ends.T, color=_LINE, linewidth=_THIN, linestyle=(0, (9, 3, 1, 3)), label=label)
        axes.annotate(name, ends[1] + 0.04 * step, color=_LINE, ha="center", va="center", fontsize=9)
    axes.plot(*made.centroid, "+", color=_MARK, markersize=11, label="centroid")
    axes.plot(*made.shear_centre, "o", color=_MARK, markersize=6, fillstyle="none", label="shear centre")


def _dimensions(axes: Any, made: Section) -> None:
    """Overall width below and overall height at the right."""
    (y0, z0), (y1, z1) = made.box
    gap = 0.16 * float(np.ptp(made.box, axis=0).max())
    arrow = {"arrowstyle": "<->", "color": _EDGE, "linewidth": _THIN, "shrinkA": 0, "shrinkB": 0}
    axes.annotate("", (y0, z0 - gap), (y1, z0 - gap), arrowprops=arrow)
    axes.annotate("", (y1 + gap, z0), (y1 + gap, z1), arrowprops=arrow)
    plain = {"ha": "center", "va": "center", "fontsize": 9, "backgroundcolor": "white", "color": _EDGE}
    axes.text((y0 + y1) / 2, z0 - gap, f"{y1 - y0:.4g}", **plain)
    axes.text(y1 + gap, 0.7 * z0 + 0.3 * z1, f"{z1 - z0:.4g}", rotation=90, **plain)


def _stress(figure: Any, axes: Any, made: Section, forces: Array) -> None:
    stress = made.von_mises(forces)
    order = np.argsort(stress)
    dots = axes.scatter(*made.points[order].T, c=stress[order], cmap=_MAP, s=26, zorder=3)
    figure.colorbar(dots, ax=axes, label="von Mises stress, MPa", shrink=0.8)
    worst, place = made.worst(forces)
    axes.annotate(
        f"{worst:.0f} MPa",
        place,
        xytext=(14, 14),
        textcoords="offset points",
        fontsize=9,
        arrowprops={"arrowstyle": "-", "color": _MARK, "linewidth": _THIN},
    )
