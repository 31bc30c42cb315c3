"""Rates and force-deflection tables of bushings."""

from __future__ import annotations

from typing import NamedTuple

from loadpath.case.errors import Log
from loadpath.case.struts import make_curve
from loadpath.case.tables import BushingJoint, ForceTable, MomentTable
from loadpath.case.words import join
from loadpath.model import BushingRates, Curve


class _Freedom(NamedTuple):
    """One of the six movements: the keys of its rate and its table, and what they say."""

    key: str
    rate: float | None
    table_key: str
    table: ForceTable | MomentTable | None


def tells_radials_apart(table: BushingJoint) -> bool:
    """Whether it matters which of the radials is the first."""
    pairs = [p for p in (table.radial, table.conical) if isinstance(p, tuple)]
    second = table.second_radial_table or table.second_conical_table
    one_way = [t for t in (table.radial_table, table.conical_table) if t is not None and not _both_ways(t)]
    return any(a != b for a, b in pairs) or second is not None or bool(one_way)


def make_rates(table: BushingJoint, path: str, log: Log) -> BushingRates:
    """Rates of a bushing, those of tables at rest; mistakes go to the log."""
    rates: list[float] = []
    curves: list[Curve | None] = []
    for one in _freedoms(table):
        curve = None if one.table is None else _curve(one.table, join(path, one.table_key), log)
        if one.table is None and one.rate is None:
            log.mistake(join(path, one.key), "is missing", f"{one.key} [N/mm], or {one.table_key}")
        if one.table is not None and one.rate:
            log.mistake(join(path, one.key), "stands beside a table", f"either {one.key}, or {one.table_key}")
        curves.append(curve)
        rates.append((one.rate or 0.0) if curve is None else float(curve.slope(0.0)))
    return BushingRates(rates[0], (rates[1], rates[2]), rates[3], (rates[4], rates[5]), tuple(curves))


def _freedoms(table: BushingJoint) -> tuple[_Freedom, ...]:
    first, second = _pair(table.radial)
    about_first, about_second = _pair(table.conical)
    radial = "second_radial_table", table.second_radial_table
    if radial[1] is None and table.radial_table is not None and _both_ways(table.radial_table):
        radial = "radial_table", table.radial_table
    conical = "second_conical_table", table.second_conical_table
    if conical[1] is None and table.conical_table is not None and _both_ways(table.conical_table):
        conical = "conical_table", table.conical_table
    return (
        _Freedom("axial", table.axial, "axial_table", table.axial_table),
        _Freedom("radial", first, "radial_table", table.radial_table),
        _Freedom("radial", second, *radial),
        _Freedom("torsional", table.torsional, "torsional_table", table.torsional_table),
        _Freedom("conical", about_first, "conical_table", table.conical_table),
        _Freedom("conical", about_second, *conical),
    )


def _both_ways(table: ForceTable | MomentTable) -> bool:
    """Whether a table begins at 0 and so holds for the other way too."""
    return next(iter(_columns(table)[0]), None) == 0


def _columns(table: ForceTable | MomentTable) -> tuple[tuple[float, ...], tuple[float, ...]]:
    if isinstance(table, ForceTable):
        return table.travel, table.force
    return table.angle, table.moment


def _curve(table: ForceTable | MomentTable, path: str, log: Log) -> Curve | None:
    """The curve of a table that passes through 0 and rises there."""
    curve = make_curve(*_columns(table), path, log, both_ways=True)
    if curve is None:
        return None
    if not curve.x[0] <= 0 <= curve.x[-1] or curve.value(0.0) != 0:
        log.mistake(path, "does not pass through 0", "a point 0, 0: a bushing at rest pushes nothing")
    elif not float(curve.slope(0.0)) > 0 or (curve.y[1:] < curve.y[:-1]).any():
        log.mistake(path, "does not rise throughout", "force that rises with travel")
    return curve


def _pair(value: float | tuple[float, float] | None) -> tuple[float | None, float | None]:
    return value if isinstance(value, tuple) else (value, value)
