"""Pictures of the load path, widths by force: from the wheels to the body, and through one part."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from loadpath.checks import Analysis
from loadpath.model import BODY, Model
from loadpath.report.layout import Box, Ribbon
from loadpath.report.ribbons import Words, draw_ribbons
from loadpath.report.through import contribution_values
from loadpath.report.trace import Bodies, starred
from loadpath.trace import LOAD, MASS, Action, Contributions, Measure

SMALLEST = 0.01
"""Ribbons below this share of the widest are left out."""


def draw_flow(analysis: Analysis, bodies: Bodies, measure: Measure, c: int, path: Path) -> None:
    """Every joint and strut as a ribbon from the wheels to the body, for one measure in one load case."""
    model = analysis.model
    ranks = _ranks(model)
    ribbons = list(_ribbons(bodies[c], measure, ranks))
    largest = max((abs(r.value) for r in ribbons), default=0.0)
    shown = [r for r in ribbons if abs(r.value) > SMALLEST * largest]
    net = sum(r.value for r in ribbons if r.target == BODY)
    toned = [Ribbon(r.source, r.target, r.value, r.value * net >= 0, r.label) for r in shown]
    used = dict.fromkeys(k for r in shown for k in (r.source, r.target))
    columns = _columns(list(used), toned)
    masses = {
        part: sum(float(measure.of(a.wrench, a.position)) for a in bodies[c][part] if a.kind == MASS)
        for part in model.parts
    }
    boxes = [Box(key, columns[key], _label(key, masses, SMALLEST * largest)) for key in used]
    words = Words(
        f"From the wheels to the body: {measure.title}, load case {analysis.cases[c].name}",
        f"{_width(measure)}; onto the body together {net / 1e3:.2f} {measure.unit}; own masses stand with the parts; "
        f"under {100 * SMALLEST:g} % of the widest is left out",
        "goes with what reaches the body together",
        "goes against it",
    )
    draw_ribbons(boxes, toned, words, path)


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
    analysis: Analysis, found: Contributions, measure: Measure, c: int, path: Path
) -> None:
    """What comes into a part at the left, the joints that it stands on at the right."""
    values = contribution_values(found, measure, c)
    sums = values.sum(axis=0)
    largest = abs(values).max(initial=0.0)
    ribbons = [
        Ribbon(f"in {i}", f"out {j}", float(values[i, j]), bool(values[i, j] * sums[j] >= 0))
        for i in range(len(found.sources))
        for j in range(len(found.joints))
        if abs(values[i, j]) > SMALLEST * largest
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
        f"{_width(measure)}; under {100 * SMALLEST:g} % of the widest is left out",
        "adds to what the joint carries",
        "takes from it",
    )
    draw_ribbons(boxes, ribbons, words, path, step=410.0)
