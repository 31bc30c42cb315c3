"""Before and after: what each part gives to the body, in newtons and as a share."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from loadpath.checks import Analysis
from loadpath.report.path.trace import Bodies, group_of
from loadpath.report.table import Cell, Column, Table
from loadpath.trace import Measure, Shares, flow_through, shares_along, standard_cuts

Found = Mapping[tuple[str, str], Shares]
"""What goes onto the body, by load case and measure."""


def share_changes(
    sides: Sequence[tuple[Analysis, Bodies]], cases: Sequence[str], measures: Sequence[Measure], every: bool
) -> Table:
    """Force and share of each part in what reaches the body, before and after.

    every : all load cases; otherwise for each measure the one with the largest net before.
    """
    before, after = (_onto_body(*side, cases, measures) for side in sides)
    keys = [k for k in before if k in after]
    if not every:
        keys = [max((k for k in keys if k[1] == m.name), key=lambda k: abs(before[k].net)) for m in measures]
    rows = [row for key in keys for row in _rows(*key, before[key], after[key])]
    unit = measures[0].unit
    return Table(
        "share_changes" if every else "share_changes_largest",
        "Onto the body: what each part gives" + ("" if every else ", where the net is largest"),
        (
            *(Column(h) for h in ("load case", "along", "by")),
            *(Column(h, unit, 2) for h in ("before", "after", "change")),
            *(Column(h, "%", 1) for h in ("share before", "share after")),
        ),
        tuple(rows),
        ("Share: component / net onto the body; none where the net counts as none.",),
    )


def _onto_body(
    analysis: Analysis, bodies: Bodies, cases: Sequence[str], measures: Sequence[Measure]
) -> Found:
    cut = standard_cuts(analysis.model)[-1]
    return {
        (analysis.cases[c].name, m.name): shares_along(flow_through(cut, parts), m)
        for c, parts in bodies.items()
        if analysis.cases[c].name in cases
        for m in measures
    }


def _rows(case: str, along: str, before: Shares, after: Shares) -> list[tuple[Cell, ...]]:
    sums = [_by_part(before), _by_part(after)]
    rows = []
    for by in sorted(dict.fromkeys([*sums[0], *sums[1]]), key="net".__eq__):
        values = [side.get(by) for side in sums]
        whole = [one.net if one.shares is not None else None for one in (before, after)]
        shares = [
            None if value is None or net is None else 100 * value / net
            for value, net in zip(values, whole, strict=True)
        ]
        told = [None if value is None else value / 1e3 for value in values]
        change = ((values[1] or 0.0) - (values[0] or 0.0)) / 1e3
        rows.append((case, along, by, *told, change, *shares))
    return rows


def _by_part(one: Shares) -> dict[str, float]:
    """Component [N or N·mm] by part, struts by themselves, and the net."""
    sums: dict[str, float] = {}
    for action, value in zip(one.flow.crossings, one.values, strict=True):
        group = group_of(action)
        sums[group] = sums.get(group, 0.0) + float(value)
    return {**sums, "net": one.net}
