"""Tables of the load path: what goes through each cut, and by which joint."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from loadpath.checks import Analysis
from loadpath.report.poses import case_words
from loadpath.report.table import Cell, Column, Table
from loadpath.trace import (
    NO_NET,
    Action,
    Cut,
    Measure,
    Shares,
    flow_through,
    free_bodies,
    shares_along,
)

Bodies = Mapping[int, Mapping[str, Sequence[Action]]]
"""Free bodies of each load case that may be shown, by its number."""

TOLD = 0.5
"""Shares below this [%] are left out of the first table."""

OUTWARDS = "Forces of what is inside the cut on what is outside."
ABOUT_SHARES = (
    f"{OUTWARDS} Share: component / net through the cut; positive goes with the net, negative against it.",
    f"A net below {100 * NO_NET:g} % of the largest force at the cut counts as none: then there is no share.",
)


def bodies_of(analysis: Analysis) -> Bodies:
    """Free bodies of the load cases that passed their self-checks."""
    return {c: free_bodies(solved.solution, k) for c in analysis.shown for solved, k in [analysis.at(c)]}


def star_notes(analysis: Analysis, names: Sequence[str]) -> tuple[str, ...]:
    """What a star behind a name means, where one of these has one."""
    return tuple(
        f"* not determinate one by one, only what they carry together: {', '.join(group)}."
        for group in analysis.redundant
        if set(group) & set(names)
    )


def starred(action: Action) -> str:
    """The name of what acts, with a star where it is not determinate by itself."""
    return action.name if action.sure else f"{action.name}*"


def shares_of(bodies: Bodies, cut: Cut, measures: Sequence[Measure]) -> Iterator[tuple[int, Shares]]:
    """Shares at a cut for every load case, by its number, and every measure."""
    for c, parts in bodies.items():
        flow = flow_through(cut, parts)
        for measure in measures:
            yield c, shares_along(flow, measure)


def by_part_table(analysis: Analysis, bodies: Bodies, cut: Cut, measures: Sequence[Measure]) -> Table:
    """Share of each part inside a cut in what goes through it, all load cases; struts count for themselves."""
    found = list(shares_of(bodies, cut, measures))
    groups = list(dict.fromkeys(group_of(a) for _, s in found for a in s.flow.crossings))
    rows: list[tuple[Cell, ...]] = []
    for c, one in found:
        if one.shares is None:
            continue
        sums = dict.fromkeys(groups, 0.0)
        for action, share in zip(one.flow.crossings, one.shares, strict=True):
            sums[group_of(action)] += 100 * float(share)
        rows.append((analysis.cases[c].name, one.measure.name, one.net / 1e3, *sums.values()))
    worst = max((s.flow.closing for _, s in found), default=0.0)
    return Table(
        f"{cut.name}_by_part",
        f"{cut.title}, every load case: share of each part, {counted(measures)}",
        (
            Column("load case"),
            Column(way(measures)),
            Column("net", measures[0].unit, 2),
            *(Column(group, "%", 1) for group in groups),
        ),
        tuple(rows),
        (
            "No line where no net goes through; the newtons of every joint are in the file of all shares.",
            f"Loads and masses inside the cut close with what goes through it to {worst:.0e}.",
        ),
    )


def group_of(action: Action) -> str:
    """What an action through a cut counts for: the part it comes from, or the strut itself."""
    return action.name if action.kind == "strut" else action.source


def counted(measures: Sequence[Measure]) -> str:
    """What is counted, for headings: forces, or moments about stated lines."""
    if measures[0].through is None:
        return "forces"
    if len(measures) == 1:
        return measures[0].title
    return f"moments about axes through {measures[0].title.rsplit(' ', 1)[1]}"


def way(measures: Sequence[Measure]) -> str:
    """Heading of the column with the measures' names."""
    return "along" if measures[0].through is None else "about"


def where_it_goes_table(
    analysis: Analysis, bodies: Bodies, cuts: Sequence[Cut], measures: Sequence[Measure]
) -> Table:
    """Shares at every cut, largest first, for each measure in the load case with the largest net."""
    rows: list[tuple[Cell, ...]] = []
    names: list[str] = []
    for cut in cuts:
        for c, one in _largest(bodies, cut, measures):
            names += [a.name for a in one.flow.crossings]
            rows.append(
                (cut.title, one.measure.name, analysis.cases[c].name, one.net / 1e3, _told_shares(one))
            )
    return Table(
        "where_it_goes",
        f"Where it goes: shares where the net is largest, {counted(measures)}",
        (
            Column("cut", width=24),
            Column(way(measures)),
            Column("load case"),
            Column("net", measures[0].unit, 2),
            Column("shares, %", width=60),
        ),
        tuple(rows),
        (*ABOUT_SHARES, *star_notes(analysis, names)),
    )


def _largest(bodies: Bodies, cut: Cut, measures: Sequence[Measure]) -> list[tuple[int, Shares]]:
    """For each measure that has a net anywhere: the load case with the largest, and its shares."""
    best: dict[str, tuple[int, Shares]] = {}
    for c, one in shares_of(bodies, cut, measures):
        before = best.get(one.measure.name)
        if one.shares is not None and (before is None or abs(one.net) > abs(before[1].net)):
            best[one.measure.name] = c, one
    return [best[m.name] for m in measures if m.name in best]


def _told_shares(one: Shares) -> str:
    pairs = [
        (100 * float(x), starred(a))
        for a, x in zip(one.flow.crossings, [] if one.shares is None else one.shares, strict=True)
    ]
    pairs.sort(key=lambda pair: -abs(pair[0]))
    return ", ".join(f"{name} {share:.0f}" for share, name in pairs if abs(share) >= TOLD)


def cut_table(analysis: Analysis, bodies: Bodies, cut: Cut, measures: Sequence[Measure], c: int) -> Table:
    """Everything that goes through a cut in one load case: value and share for each measure."""
    flow = flow_through(cut, bodies[c])
    found = [shares_along(flow, measure) for measure in measures]
    rows: list[tuple[Cell, ...]] = []
    for k, action in enumerate(flow.crossings):
        cells: list[Cell] = []
        for one in found:
            share = None if one.shares is None else 100 * float(one.shares[k])
            cells += [float(one.values[k]) / 1e3, share]
        rows.append((starred(action), action.source, action.on, *cells))
    ends: list[tuple[str, list[Cell]]] = [
        ("net", [x for s in found for x in (s.net / 1e3, None if s.shares is None else 100.0)]),
        ("of loads inside", [x for s in found for x in (s.loads / 1e3, None)]),
        ("of masses inside", [x for s in found for x in (s.masses / 1e3, None)]),
    ]
    rows += [(title, "", "", *cells) for title, cells in ends]
    case = analysis.cases[c].name
    return Table(
        f"{cut.name}_{case}",
        f"{cut.title}: load case {case_words(analysis, c)}, {counted(measures)}",
        (
            *(Column(h) for h in ("by", "from", "onto")),
            *(x for m in measures for x in (Column(m.name, m.unit, 2), Column(f"{m.name} share", "%", 1))),
        ),
        tuple(rows),
        (OUTWARDS, *star_notes(analysis, [a.name for a in flow.crossings])),
    )
