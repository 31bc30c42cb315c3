"""A picture of the room: what wheels and half-shafts sweep, and the members by how near they come."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Axes
from loadpath.room import Clearance, Silhouette

Array = NDArray[np.float64]

_MAP = "viridis"
_FAR = 60.0
"""[mm] clearance from which a member has the far end's colour."""
_NUMBERS = 6


def draw_room(
    things: Sequence[Silhouette], found: Sequence[Clearance], axes: Axes, heading: str, path: Path
) -> None:
    """Plan and rear view under a heading, the left side on the left; ".png" or ".svg"."""
    from matplotlib.figure import Figure

    nearest: dict[str, float] = {}
    for c in found:
        nearest[c.name] = min(nearest.get(c.name, np.inf), c.clearance)
    views = (("Plan", axes.forward, "forward, mm"), ("From the rear", axes.up, "up, mm"))
    figure = Figure(figsize=(11.0, 12.0), dpi=120, layout="constrained")
    panels = figure.subplots(2, 1, sharex=True)
    for panel, (title, upward, label) in zip(panels, views, strict=True):
        onto = np.array([-axes.left, upward])
        for thing in things:
            _draw(panel, thing, onto, nearest)
        _number(panel, found, onto)
        panel.set_title(title, loc="left", fontsize=11)
        panel.set_ylabel(label)
        panel.set_aspect("equal", adjustable="datalim")
        panel.spines[["top", "right"]].set_visible(False)
    panels[1].set_xlabel("to the right of the middle, mm")
    _key(figure, panels)
    if heading:
        figure.suptitle(heading, fontsize=12)
    figure.savefig(path)


def _draw(panel: Any, thing: Silhouette, onto: Array, nearest: Mapping[str, float]) -> None:
    if thing.kind == "member":
        near = nearest.get(thing.name)
        fill = "0.82" if near is None else _colour(near)
        _patch(panel, thing.design, onto, facecolor=fill, edgecolor="0.25", linewidth=0.5, zorder=3)
        return
    shade = "0.93" if thing.kind == "wheel" else "0.88"
    _patch(panel, thing.swept, onto, facecolor=shade, edgecolor="0.45", linewidth=0.8, zorder=1)
    _patch(
        panel,
        thing.design,
        onto,
        facecolor="none",
        edgecolor="0.45",
        linewidth=0.8,
        linestyle=(0, (5, 3)),
        zorder=2,
    )


def _patch(panel: Any, pieces: Sequence[Array], onto: Array, **look: Any) -> None:
    """The shadow of convex pieces together."""
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path as Curve
    from shapely import MultiPoint, unary_union

    shadow = unary_union([MultiPoint(piece @ onto.T).convex_hull for piece in pieces])
    for polygon in getattr(shadow, "geoms", [shadow]):
        if polygon.geom_type != "Polygon":
            continue
        rings = [polygon.exterior, *polygon.interiors]
        panel.add_patch(
            PathPatch(Curve.make_compound_path(*(Curve(np.array(r.coords)) for r in rings)), **look)
        )
    panel.autoscale_view()


def _number(panel: Any, found: Sequence[Clearance], onto: Array) -> None:
    """The smallest clearances, where they are, with their numbers."""
    for c in sorted(found, key=lambda c: c.clearance)[:_NUMBERS]:
        x, y = onto @ c.at
        panel.plot([x], [y], marker="o", markersize=4, color="black", zorder=5)
        panel.annotate(
            f"{c.clearance:.0f}" if abs(c.clearance) >= 1 else f"{c.clearance:.1f}",
            (x, y),
            xytext=(7, 7),
            textcoords="offset points",
            fontsize=9,
            zorder=6,
            bbox={"boxstyle": "round,pad=0.15", "facecolor": "white", "edgecolor": "0.5", "linewidth": 0.4},
        )


def _colour(clearance: float) -> Any:
    from matplotlib import colormaps

    return colormaps[_MAP](min(max(clearance / _FAR, 0.0), 1.0))


def _key(figure: Any, panels: Any) -> None:
    from matplotlib import colormaps
    from matplotlib.cm import ScalarMappable
    from matplotlib.colors import Normalize
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch

    scale = ScalarMappable(Normalize(0, _FAR), colormaps[_MAP])
    bar = figure.colorbar(scale, ax=list(panels), shrink=0.5, pad=0.01, extend="both")
    bar.set_label("least clearance of a member, mm")
    figure.legend(
        handles=[
            Patch(facecolor="0.93", edgecolor="0.45", label="swept by wheels and half-shafts"),
            Line2D([], [], color="0.45", linestyle=(0, (5, 3)), label="at design height"),
            Patch(facecolor="0.82", edgecolor="0.25", label="member that is not near, at design height"),
            Line2D(
                [],
                [],
                color="black",
                marker="o",
                linestyle="none",
                markersize=4,
                label="smallest clearances, in mm",
            ),
        ],
        loc="outside lower center",
        ncols=4,
        fontsize=8,
        frameon=False,
    )
