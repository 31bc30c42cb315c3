"""Pictures of the load path from the wheels to the body, widths by force."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from loadpath.checks import Analysis
from loadpath.model import BODY, Model
from loadpath.report.path.layout import Box, Ribbon
from loadpath.report.path.ribbons import Panel, Words, draw_ribbons
from loadpath.report.path.trace import Bodies, starred
from loadpath.report.poses import case_words
from loadpath.trace import LOAD, MASS, NO_NET, Action, Measure, TraceError

Array = NDArray[np.float64]

SMALLEST = 0.01
"""Ribbons below this share of the widest are left out."""


def draw_flow(
    sides: Mapping[str, tuple[Analysis, Bodies, int]], measures: Sequence[Measure], path: Path
) -> None:
    """Every joint and strut as a ribbon from the wheels to the body, one panel for each measure and side.

    sides : what stands before each title, and a load case of an analysis by its number. Measures with next to
        nothing in them are left out.
    """
    found = [
        (said, m, *side, list(_ribbons(side[1][side[2]], m, _ranks(side[0].model))))
        for m in measures
        for said, side in sides.items()
    ]
    sizes = {
        m.name: max((abs(r.value) for f in found if f[1] is m for r in f[5]), default=0.0) for m in measures
    }
    least = SMALLEST * max(sizes.values())
    panels = [_flow_panel(*one, least) for one in found if sizes[one[1].name] > least]
    if not panels:
        raise TraceError("nothing goes through in this load case: there is nothing to draw")
    draw_ribbons(panels, path)


def _flow_panel(
    said: str,
    measure: Measure,
    analysis: Analysis,
    bodies: Bodies,
    c: int,
    ribbons: Sequence[Ribbon],
    least: float,
) -> Panel:
    shown = [r for r in ribbons if abs(r.value) > least]
    net = sum(r.value for r in ribbons if r.target == BODY)
    counts = abs(net) > NO_NET * max((abs(r.value) for r in ribbons), default=0.0)
    toned = [
        Ribbon(r.source, r.target, r.value, r.value * (net if counts else 1.0) >= 0, r.label) for r in shown
    ]
    used = dict.fromkeys(k for r in shown for k in (r.source, r.target))
    columns = _columns(list(used), toned)
    masses = {
        part: sum(float(measure.of(a.wrench, a.position)) for a in bodies[c][part] if a.kind == MASS)
        for part in analysis.model.parts
    }
    heavy = {part: f"own mass {told(m, measure)}" for part, m in masses.items() if abs(m) > least}
    boxes = [
        Box(key, columns[key], "\n".join([key, *([heavy[key]] if key in heavy else [])])) for key in used
    ]
    together = (
        f"onto the body together {told(net, measure)} {measure.unit}" if counts else "no net onto the body"
    )
    words = Words(
        f"{said}From the wheels to the body: {measure.title}, load case {case_words(analysis, c)}",
        f"{width_words(measure)}; {together}; own masses stand with the parts; "
        f"under {told(least, measure)} {measure.unit} is left out",
        *(
            ("goes with the net onto the body", "goes against it")
            if counts
            else (f"positive: {measure.title}", "negative")
        ),
    )
    return Panel(boxes, toned, words)


def told(value: float, measure: Measure) -> str:
    """A value [N or N·mm] in kN or N·m."""
    return f"{value / 1e3:.{2 if measure.through is None else 0}f}"


def width_words(measure: Measure) -> str:
    """What the widths of a picture are."""
    return f"widths and numbers: {'force' if measure.through is None else 'moment'} in {measure.unit}"


def _ribbons(
    parts: Mapping[str, Sequence[Action]], measure: Measure, ranks: Mapping[str, int]
) -> Iterator[Ribbon]:
    """Given loads into the parts that they act on, and each joint from the part of lower rank to the other."""
    for part, actions in parts.items():
        loads: dict[str, float] = {}
        for action in actions:
            value = float(measure.of(action.wrench, action.position))
            if action.kind == LOAD:
                loads[action.point] = loads.get(action.point, 0.0) + value
            elif action.source and ranks[action.source] < ranks[part]:
                label = f"{starred(action)}  {told(value, measure)}"
                yield Ribbon(action.source, part, value, True, label)
        for point, value in loads.items():
            yield Ribbon(f"load at {point}", part, value, True, told(value, measure))


def _ranks(model: Model) -> dict[str, int]:
    """Order of the parts from the wheels to the body; what stands on the body by three joints comes late."""
    standing = {
        part for part in model.parts if sum(set(j.between) == {part, BODY} for j in model.joints.values()) > 2
    }
    steps = {wheel.part: 0 for wheel in model.wheels.values()}
    edge = list(steps)
    while edge:
        reached = [
            far
            for j in model.joints.values()
            for near, far in (j.between, j.between[::-1])
            if near in edge and far not in steps and far != BODY and far not in standing
        ]
        steps |= dict.fromkeys(reached, len(model.parts) if not reached else max(steps[n] for n in edge) + 1)
        edge = list(dict.fromkeys(reached))
    far = len(model.parts)
    order = sorted(model.parts, key=lambda p: (p in standing, steps.get(p, far)))
    return {part: n for n, part in enumerate([*order, BODY])}


def _columns(keys: Sequence[str], ribbons: Sequence[Ribbon]) -> dict[str, int]:
    """Columns so that every ribbon goes to the right; what nothing comes into stands next to what it feeds."""
    column = dict.fromkeys(keys, 0)
    for _ in keys:
        for r in ribbons:
            column[r.target] = max(column[r.target], column[r.source] + 1)
    fed = {r.target for r in ribbons}
    for key in keys:
        targets = [column[r.target] for r in ribbons if r.source == key]
        if key not in fed and targets:
            column[key] = min(targets) - 1
    if BODY in column:
        column[BODY] = max(column.values())
    return column
