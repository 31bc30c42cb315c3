"""The picture as a whole: what is drawn, in which order."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

import numpy as np

from sections.acting import SIGNS, Acting, Colour
from sections.api import section
from sections.drawing.bands import Bands, bands, edges, shells
from sections.drawing.curves import smooth_ring
from sections.drawing.dimensions import draw_spans, spans
from sections.drawing.fields import Field, field_in_outline, field_in_walls
from sections.drawing.frame import finish, frame_for, lines_above, window_of
from sections.drawing.joints import draw_joints, draw_weak_zones, joint_entries
from sections.drawing.marks import draw_marks, taken
from sections.drawing.paint import mark_largest, paint
from sections.drawing.rings import ring_path
from sections.drawing.thicknesses import draw_thicknesses
from sections.geometry import Outline, Walls
from sections.result import Array, Section
from sections.shapes.base import Shape
from sections.shapes.traced import Traced

_MATERIAL, _EDGE = "0.86", "0.3"
_NOTCHES = "At sharp re-entrant corners theory has no finite shear; colours end there at the scale."


@dataclass(frozen=True, eq=False)
class _Bent:
    """Walls and their bands."""

    walls: Walls
    bands: Bands


@dataclass(frozen=True, eq=False)
class _Solid:
    """An outline and its rings as they are drawn, arcs round."""

    outline: Outline
    rings: tuple[Array, ...]


_Drawn = _Bent | _Solid


def draw(
    shape: Shape,
    file: str | Path | IO[bytes],
    *,
    kind: str | None = None,
    made: Section | None = None,
    acting: Acting | None = None,
    colour: Colour = "stress",
    title: str = "",
    notes: Sequence[str] = (),
    nu: float = 0.3,
) -> None:
    """Draw a shape with its centroid, shear centre, principal axes and dimensions; coloured where something acts.

    Parameters
    ----------
    file : path, or a binary stream. kind : "png" or "svg"; default by the ending of the path.
    made : the shape's section by the engine that serves it where it is at hand; otherwise it is computed.
    acting : section forces; with them the material shows the quantity `colour`, and its largest value at the
        surface is marked.
    title : default the shape's name. notes : sentences below it, such as why the stress is not valid.
    nu : Poisson's ratio, for shear stress inside outlines.

    Raises
    ------
    ShapeError : shear flow asked of a shape that thin walls do not serve.
    """
    from matplotlib.figure import Figure

    result = section(shape, nu) if made is None else made
    drawn, measured = _geometry(shape), spans(shape, result)
    field = None if acting is None else _field(drawn, result, acting, colour, nu)
    frame = frame_for(
        window_of(result, measured),
        f"{title}: {shape.name}" if title not in ("", shape.name) else shape.name,
        lines_above(shape, acting, colour),
        [*notes, *_notes(field, colour)],
        field is not None,
        _entries(drawn, result, field, colour),
    )
    figure = Figure(figsize=frame.size, dpi=150)
    axes = figure.add_axes(frame.axes)
    if field is None or acting is None:
        _fill(axes, drawn)
    else:
        rings = drawn.rings if isinstance(drawn, _Solid) else None
        paint(axes, figure.add_axes(frame.bar), field, result, acting, colour, rings)
        mark_largest(axes, field, result, acting, colour)
    _lines(axes, drawn)
    draw_marks(axes, result)
    draw_spans(axes, result, measured)
    _thicknesses(axes, shape, drawn, result)
    finish(figure, axes, frame)
    figure.savefig(file, format=kind)


def _geometry(shape: Shape) -> _Drawn:
    smooth = not isinstance(shape, Traced)  # measured points stay as they are
    made = shape.walls() if shape.serves == "walls" else shape.outline()
    if isinstance(made, Walls):
        return _Bent(made, bands(made, smooth))
    if made is None:
        raise ValueError(f"{shape.name} has no geometry for the engine that serves it")
    return _Solid(made, tuple(smooth_ring(ring) for ring in made.rings) if smooth else made.rings)


def _field(drawn: _Drawn, made: Section, acting: Acting, colour: Colour, nu: float) -> Field:
    if isinstance(drawn, _Solid):
        return field_in_outline(drawn.outline, made, acting, colour, nu)
    return field_in_walls(drawn.bands, made, acting, colour)


def _notes(field: Field | None, colour: Colour) -> list[str]:
    if field is None:
        return []
    return [SIGNS] if field.known.all() or colour == "normal" else [SIGNS, _NOTCHES]


def _entries(drawn: _Drawn, made: Section, field: Field | None, colour: Colour) -> int:
    """How many things the legend tells."""
    joints = joint_entries(drawn.walls) if isinstance(drawn, _Bent) else 0
    marked = 0 if field is None else 2 if colour == "normal" else 1
    return 2 + joints + int(len(taken(made)) > 2) + marked


def _fill(axes: Any, drawn: _Drawn) -> None:
    from matplotlib.collections import PolyCollection
    from matplotlib.patches import PathPatch

    if isinstance(drawn, _Bent):
        quads = list(shells(drawn.bands))
        axes.add_collection(PolyCollection(quads, facecolor=_MATERIAL, edgecolor=_MATERIAL, linewidth=0.5))
    else:
        axes.add_patch(PathPatch(ring_path(drawn.rings), facecolor=_MATERIAL, edgecolor="none"))


def _lines(axes: Any, drawn: _Drawn) -> None:
    """Faces and cuts of the material, welds between layers, holes, weak zones."""
    from matplotlib.collections import LineCollection

    if isinstance(drawn, _Bent):
        lines = edges(drawn.bands)
        draw_joints(axes, drawn.walls)
        draw_weak_zones(axes, drawn.walls, drawn.bands)
    else:
        lines = [np.vstack([ring, ring[:1]]) for ring in drawn.rings]
    axes.add_collection(LineCollection(lines, colors=_EDGE, linewidths=0.8, zorder=3))


def _thicknesses(axes: Any, shape: Shape, drawn: _Drawn, made: Section) -> None:
    """Thickness of the walls drawn, or of those that an outlined shape has too."""
    if isinstance(drawn, _Bent):
        draw_thicknesses(axes, drawn.walls, drawn.bands, made, taken(made))
        return
    walls = shape.walls()
    if walls is not None:
        draw_thicknesses(axes, walls, bands(walls), made, taken(made))
