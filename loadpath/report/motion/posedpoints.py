"""Where hardpoints and instant axes stand along a sweep, for files."""

from __future__ import annotations

import math

from loadpath.pose import wheel_places
from loadpath.report.motion.travel import MOVES
from loadpath.report.table import Cell, Column, Table
from loadpath.sweep import Sweep, instants


def instant_axes_table(sweep: Sweep) -> Table:
    """The instant axis in space of every wheel's carrying part, in every pose."""
    rows: list[tuple[Cell, ...]] = []
    for name, one in instants(sweep.poses).items():
        for k, value in enumerate(sweep.values):
            numbers = (*map(float, one.at[k]), *map(float, one.axis[k]), float(one.pitch[k]))
            rows.append((name, float(value), *(v if math.isfinite(v) else None for v in numbers)))
    return Table(
        f"instant_axes_{sweep.motion}",
        f"Instant axes of the carrying parts, {MOVES[sweep.motion][1]}; axes of the case file",
        (
            Column("wheel"),
            Column(MOVES[sweep.motion][0], "mm", 1),
            *(Column(i, "mm", 1) for i in "xyz"),
            *(Column(f"direction {i}", "", 6) for i in "xyz"),
            Column("pitch", "mm/rad", 3),
        ),
        tuple(rows),
        ("While the wheel travels alone; the point is that nearest to the wheel centre.",),
    )


def points_table(sweep: Sweep) -> Table:
    """Points of joints and struts, wheel centres and contact patches, each on a part, in every pose."""
    model = sweep.poses.mechanism.model
    owned = [(j.between[0], j.point) for j in model.joints.values()]
    owned += [one for e in model.force_elements.values() for one in zip(e.between, e.ends, strict=True)]
    owned += [(w.part, w.centre) for w in model.wheels.values()]
    places = {one: sweep.poses.point(*one) for one in dict.fromkeys(owned)}
    for name, place in wheel_places(sweep.poses).items():
        places[model.wheels[name].part, f"contact patch of {name}"] = place.patch
    rows: list[tuple[Cell, ...]] = [
        (point, part, float(value), *map(float, at[k]))
        for (part, point), at in places.items()
        for k, value in enumerate(sweep.values)
    ]
    return Table(
        f"points_{sweep.motion}",
        f"Where points stand, {MOVES[sweep.motion][1]}; axes of the case file",
        (
            Column("point"),
            Column("part"),
            Column(MOVES[sweep.motion][0], "mm", 1),
            *(Column(i, "mm", 3) for i in "xyz"),
        ),
        tuple(rows),
    )
