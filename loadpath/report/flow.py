"""Pictures of the load path, widths by force: from the wheels to the body, and through one part."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from loadpath.checks import Analysis
from loadpath.model import BODY, Model
from loadpath.report.layout import Box, Ribbon
from loadpath.report.ribbons import Panel, Words, draw_ribbons
from loadpath.report.through import contribution_values
from loadpath.report.trace import Bodies, starred
from loadpath.trace import LOAD, MASS, NO_NET, Action, Contributions, Measure, TraceError

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
    boxes = [Box(key, columns[key], _label(key, masses, least)) for key in used]
    together = f"onto the body together {net / 1e3:.2f} {measure.unit}" if counts else "no net onto the body"
    words = Words(
        f"{said}From the wheels to the body: {measure.title}, load case {analysis.cases[c].name}",
        f"{_width(measure)}; {together}; own masses stand with the parts; "
        f"under {least / 1e3:.2g} {measure.unit} is left out",
        *(
            ("goes with the net onto the body", "goes against it")
            if counts
            else (f"positive: {measure.title}", "negative")
        ),
    )
    return Panel(boxes, toned, words)


def _width(measure: Measure) -> str:
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
                label = f"{starred(action)}  {value / 1e3:.2f}"
                yield Ribbon(action.source, part, value, True, label)
        for point, value in loads.items():
            yield Ribbon(f"load at {point}", part, value, True, f"{value / 1e3:.2f}")


def _label(key: str, masses: Mapping[str, float], least: float) -> str:
    mass = masses.get(key, 0.0)
    return f"{key}\nown mass {mass / 1e3:.2f}" if abs(mass) > least else key


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


def draw_contributions(
    analysis: Analysis, found: Contributions, measures: Sequence[Measure], c: int, path: Path
) -> None:
    """What comes into a part at the left, the joints that it stands on at the right; one panel a measure."""
    values = [contribution_values(found, m, c) for m in measures]
    least = SMALLEST * max(abs(v).max(initial=0.0) for v in values)
    panels = [
        _through_panel(analysis, found, m, c, v, least)
        for m, v in zip(measures, values, strict=True)
        if abs(v).max(initial=0.0) > least
    ]
    if not panels:
        raise TraceError(f"nothing goes through {found.part} in this load case: there is nothing to draw")
    draw_ribbons(panels, path, across=True)


def _through_panel(
    analysis: Analysis, found: Contributions, measure: Measure, c: int, values: Array, least: float
) -> Panel:
    sums = values.sum(axis=0)
    ribbons = [
        Ribbon(f"in {i}", f"out {j}", float(values[i, j]), bool(values[i, j] * sums[j] >= 0))
        for i in range(len(found.sources))
        for j in range(len(found.joints))
        if abs(values[i, j]) > least
    ]
    used = {k for r in ribbons for k in (r.source, r.target)}
    boxes = [
        Box(f"in {i}", 0, f"{s.name}  {values[i].sum() / 1e3:.2f}")
        for i, s in enumerate(found.sources)
        if f"in {i}" in used
    ]
    boxes += [
        Box(f"out {j}", 1, f"{name}{'' if found.sure[j] else '*'}  {sums[j] / 1e3:.2f}")
        for j, name in enumerate(found.joints)
        if f"out {j}" in used
    ]
    words = Words(
        f"Through {found.part}: {measure.title}, load case {analysis.cases[c].name}",
        f"{_width(measure)}; under {least / 1e3:.2g} {measure.unit} is left out",
        "adds to what the joint carries",
        "takes from it",
    )
    return Panel(boxes, ribbons, words, step=410.0)
