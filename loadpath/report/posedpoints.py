"""Where hardpoints stand along a sweep, for files."""

from __future__ import annotations

from loadpath.pose import Sweep, wheel_places
from loadpath.report.table import Cell, Column, Table
from loadpath.report.travel import MOVES


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
