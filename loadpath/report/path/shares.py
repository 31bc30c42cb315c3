"""Every share at every cut, and the balance of every cut: all rows, for files."""

from __future__ import annotations

from collections.abc import Sequence

from loadpath.checks import Analysis
from loadpath.report.path.trace import ABOUT_SHARES, Bodies, counted, shares_of, starred, way
from loadpath.report.table import Cell, Column, Table
from loadpath.trace import Cut, Measure


def all_shares_table(
    analysis: Analysis, bodies: Bodies, cuts: Sequence[Cut], measures: Sequence[Measure]
) -> Table:
    """Every crossing of every cut in every load case, for files."""
    rows: list[tuple[Cell, ...]] = []
    for cut in cuts:
        for c, one in shares_of(bodies, cut, measures):
            for k, action in enumerate(one.flow.crossings):
                share = None if one.shares is None else float(one.shares[k])
                cells = (starred(action), action.kind, action.source, action.on)
                value = float(one.values[k]) / 1e3
                rows.append(
                    (cut.title, analysis.cases[c].name, one.measure.name, *cells, value, one.net / 1e3, share)
                )
    return Table(
        "shares",
        f"Shares at every cut, {counted(measures)}",
        (
            *(Column(h) for h in ("cut", "load case", way(measures), "by", "kind", "from", "onto")),
            Column("component", measures[0].unit, 3),
            Column("net", measures[0].unit, 3),
            Column("share", "", 4),
        ),
        tuple(rows),
        ABOUT_SHARES,
    )


def cut_balance_table(
    analysis: Analysis, bodies: Bodies, cuts: Sequence[Cut], measures: Sequence[Measure]
) -> Table:
    """Loads and masses inside each cut against what goes through it, for files."""
    rows: list[tuple[Cell, ...]] = [
        (
            *(cut.title, analysis.cases[c].name, one.measure.name),
            *(x / 1e3 for x in (one.loads, one.masses, one.net)),
            one.flow.closing,
        )
        for cut in cuts
        for c, one in shares_of(bodies, cut, measures)
    ]
    return Table(
        "cut_balance",
        f"Balance of every cut, {counted(measures)}: loads + masses inside = net through the cut",
        (
            *(Column(h) for h in ("cut", "load case", way(measures))),
            *(Column(h, measures[0].unit, 3) for h in ("loads", "masses", "net")),
            Column("closing error", "", 15),
        ),
        tuple(rows),
    )
