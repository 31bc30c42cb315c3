"""Colours for what acts, and a mark where it is largest."""

from __future__ import annotations

from typing import Any

import numpy as np

from sections.acting import COLOURS, Acting, Colour, at_surface, flowing, largest_flow
from sections.drawing.bands import ALONG, is_free
from sections.drawing.fields import Field
from sections.result import Array, Section

_MAPS: dict[Colour, str] = {"stress": "viridis", "normal": "cividis", "shear": "viridis", "flow": "magma_r"}
_ARROW_FROM = 0.12
"""Share of the largest flow from which its direction is shown."""
_INSIDE = 1.05
"""A value inside so many times the largest at the surface is told, as in a solid bar under shear."""
_LONG = 0.12
"""A wall so long beside the section's size has its flow's direction shown."""


def paint(
    axes: Any,
    bar: Any,
    field: Field,
    made: Section,
    acting: Acting,
    colour: Colour,
    rings: tuple[Array, ...] | None,
) -> None:
    """Colour the material; `rings` is the true shape of an outline, which the elements' chords are cut to.

    The scale ends at the largest value: at the surface, as checks take it, or inside where theory has a finite one.
    """
    low, high = _limits(field, made, acting, colour)
    values = np.clip(field.values, low, high)
    mesh = axes.tripcolor(
        *field.points.T,
        field.triangles,
        values,
        shading="gouraud",
        cmap=_MAPS[colour],
        vmin=low,
        vmax=high,
        rasterized=True,
        zorder=2,
    )
    if rings is not None:
        from matplotlib.patches import PathPatch

        from sections.drawing.rings import ring_path

        mesh.set_clip_path(PathPatch(ring_path(rings), transform=axes.transData))
    scale = axes.figure.colorbar(mesh, cax=bar)
    scale.set_label(COLOURS[colour], fontsize=9)
    scale.ax.tick_params(labelsize=8)
    if colour == "flow":
        _arrows(axes, made, acting)


def _limits(field: Field, made: Section, acting: Acting, colour: Colour) -> tuple[float, float]:
    seen = [field.values[field.known]]
    if colour != "flow":
        seen.append(at_surface(made, acting, colour))
    low, high = min(float(s.min()) for s in seen), max(float(s.max()) for s in seen)
    if colour != "normal":
        low = 0.0
    elif low < 0 < high:
        low, high = -max(-low, high), max(-low, high)
    return (low, high) if high - low > 1e-12 * max(abs(low), abs(high), 1e-12) else (low, low + 1.0)


def mark_largest(axes: Any, field: Field, made: Section, acting: Acting, colour: Colour) -> None:
    """A ring where the quantity is largest at the surface (largest and smallest where it has a sign)."""
    if colour == "flow":
        flow, place = largest_flow(flowing(made), acting)
        _ring(axes, place, f"largest {flow:.3g} N/mm", "o")
        return
    values = at_surface(made, acting, colour)
    if not len(values):
        return
    top = int(values.argmax())
    bottom = int(values.argmin())
    if colour != "normal":
        inside = float(field.values[field.known].max()) if made.engine == "outline" else 0.0
        more = f" (inside up to {inside:.4g})" if inside > _INSIDE * values[top] else ""
        _ring(axes, made.points[top], f"largest at the surface {values[top]:.4g} MPa{more}", "o")
        return
    _ring(axes, made.points[top], f"highest {values[top]:+.4g} MPa", "^")
    _ring(axes, made.points[bottom], f"lowest {values[bottom]:+.4g} MPa", "v")


def _ring(axes: Any, place: Array, words: str, marker: str) -> None:
    y, z = place + 0.0
    label = f"{words} at y {y:.1f}, z {z:.1f}".replace("-0.0,", "0.0,")
    for width, ink in ((3.6, "white"), (1.6, "black")):
        axes.plot(
            y,
            z,
            marker,
            markersize=12,
            fillstyle="none",
            color=ink,
            markeredgewidth=width,
            label=label if ink == "black" else None,
            linestyle="none",
            zorder=7,
        )


def _arrows(axes: Any, made: Section, acting: Acting) -> None:
    """The way the flow runs, beside every longer wall near both its ends."""
    line, size = flowing(made), float(np.ptp(made.box, axis=0).max())
    shape = np.column_stack([(1 - ALONG) * (1 - 2 * ALONG), 4 * ALONG * (1 - ALONG), ALONG * (2 * ALONG - 1)])
    flow = line.shear_flow(acting.forces) @ shape.T
    largest = float(np.abs(flow).max())
    run = (line.stop - line.start) / line.length[:, None]
    for wall in np.flatnonzero(line.length > _LONG * size):
        square = np.array([-run[wall, 1], run[wall, 0]])
        middle = (line.start[wall] + line.stop[wall]) / 2
        inward = -square if square @ (middle - made.centroid) > 0 else square
        for at in (0.18, 0.82) if line.length[wall] > 2 * _LONG * size else (0.5,):
            q = float(flow[wall, int(np.abs(ALONG - at).argmin())])
            if abs(q) < _ARROW_FROM * largest:
                continue
            place = line.start[wall] * (1 - at) + line.stop[wall] * at
            reach = (line.thickness[wall] / 2 + 0.03 * size) * inward
            beside = place + reach if is_free(line, int(wall), place + reach) else place - reach
            half = 0.045 * size * np.sign(q) * run[wall]
            arrow = {"arrowstyle": "-|>", "color": "0.1", "linewidth": 1.3, "mutation_scale": 10}
            axes.annotate(
                "", beside + half, beside - half, arrowprops={**arrow, "shrinkA": 0, "shrinkB": 0}, zorder=6
            )
