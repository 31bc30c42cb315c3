"""Springs, stops and dampers of the model, with what they push with."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

import numpy as np

from loadpath.case.carriers import Carriers
from loadpath.case.errors import Log, listed, shown
from loadpath.case.space import SHORTEST, Space
from loadpath.case.tables import (
    AirSpringTable,
    BumpStopTable,
    DamperTable,
    ReboundStopTable,
    SpringTable,
    StrutTable,
)
from loadpath.case.words import join
from loadpath.model import (
    AirSpring,
    Coil,
    Curve,
    ForceElement,
    Given,
    Measured,
    SpringLaw,
    Stop,
    curve_through,
)


def make_strut(name: str, table: StrutTable, space: Space, carriers: Carriers) -> ForceElement | None:
    """A force element, or None where it cannot be made."""
    path, log = join("struts", name), space.log
    if table.between[0] == table.between[1]:
        log.mistake(join(path, "between"), f"{shown(table.between[0])} stands twice", "two different parts")
    for k, (part, point) in enumerate(zip(table.between, table.ends, strict=True)):
        carriers.carries(part, point, join(path, "ends", k))
    length = 0.0
    if space.known(table.ends):
        a, b = (space.points[p] for p in table.ends)
        length = float(np.linalg.norm(b - a))
        if length < SHORTEST:
            log.mistake(join(path, "ends"), f"{listed(table.ends)} are at one place", "two points apart")
    law = _law(table, path, log)
    locked = isinstance(table, SpringTable | AirSpringTable) and table.locked
    if law is None and not locked and log.clean(path):
        log.mistake(path, "does not say what it pushes with", _WANTED)
    if not log.clean(path):
        return None
    at = np.array(length)
    force = 0.0 if law is None or locked else float(law.push(at, length))
    rate = getattr(table, "rate", None) or 0.0 if law is None else float(law.rate(at, length))
    return ForceElement(name, table.between, table.ends, table.wheel, locked, force, rate, law)


_WANTED = "rate with load or free_length, or a table; locked = true leaves it to equilibrium"


def _law(table: StrutTable, path: str, log: Log) -> SpringLaw | None:
    """What it pushes with; None where the case does not say, or says it wrongly."""
    if isinstance(table, SpringTable):
        return _spring(table, path, log)
    if isinstance(table, AirSpringTable):
        return _air_spring(table, path, log)
    if isinstance(table, DamperTable):
        return Given(table.force)
    if isinstance(table, BumpStopTable | ReboundStopTable):
        curve = make_curve(table.table.travel, table.table.force, join(path, "table"), log)
        if curve is None:
            return None
        if curve.x[0] != 0 or curve.y[0] != 0 or (np.diff(curve.y) < 0).any():
            log.mistake(
                join(path, "table"), "does not rise from 0 mm and 0 N", "a first point 0, 0 and rising force"
            )
        return Stop(table.gap, curve, isinstance(table, ReboundStopTable))
    raise TypeError(f"no force element is made of {type(table).__name__}")


def _spring(table: SpringTable, path: str, log: Log) -> SpringLaw | None:
    if table.table is not None:
        for key in ("rate", "load", "free_length"):
            if getattr(table, key) is not None:
                log.mistake(join(path, key), "stands beside a table", "either a table, or a rate")
        curve = make_curve(table.table.travel, table.table.force, join(path, "table"), log)
        return None if curve is None else Measured(curve)
    if table.load is not None and table.free_length is not None:
        log.mistake(
            join(path, "free_length"), "stands beside a load", "the load at design height, or the free length"
        )
    if table.rate is None and (table.load is not None or table.free_length is not None):
        log.mistake(join(path, "rate"), "is missing", "rate with load or free_length")
    if table.rate is None or (table.load is None and table.free_length is None):
        return None
    return Coil(table.rate, table.load, table.free_length)


def _air_spring(table: AirSpringTable, path: str, log: Log) -> SpringLaw | None:
    given = {key: getattr(table, key) for key in ("pressure", "area", "volume")}
    missing = [key for key, value in given.items() if value is None]
    if table.table is not None:
        for key in given.keys() - set(missing):
            log.mistake(
                join(path, key), "stands beside a table", "either a table, or pressure, area and volume"
            )
        curve = make_curve(table.table.travel, table.table.force, join(path, "table"), log)
        return None if curve is None else Measured(curve)
    if missing and len(missing) < len(given):
        log.mistake(join(path, missing[0]), "is missing", "pressure, area and volume, or a table")
    if table.pressure is None or table.area is None or table.volume is None:
        return None
    return AirSpring(table.pressure, table.area, table.volume, table.exponent)


def make_curve(
    x: Sequence[float], y: Sequence[float], path: str, log: Log, *, both_ways: bool = False
) -> Curve | None:
    """The curve through points, or None where they make none."""
    try:
        return curve_through(x, y, both_ways=both_ways)
    except ValueError as error:
        log.mistake(path, _no_curve(x, y), str(error).removeprefix("a curve takes "))
        return None


def _no_curve(x: Sequence[float], y: Sequence[float]) -> str:
    """What is wrong with points through which no curve goes."""
    falls = [(a, b) for a, b in pairwise(x) if not b > a]
    if len(x) == len(y) and falls:
        return f"{falls[0][1]:g} stands after {falls[0][0]:g}"
    return f"{len(x)} and {len(y)} numbers make no curve"


def check_locks(elements: Iterable[ForceElement], log: Log) -> None:
    """Exactly one element of each wheel that has any is locked."""
    by_wheel: dict[str, list[ForceElement]] = {}
    for element in elements:
        by_wheel.setdefault(element.wheel, []).append(element)
    for wheel, own in by_wheel.items():
        locked = [e.name for e in own if e.locked]
        if len(locked) != 1:
            place = join("struts", (locked or [own[0].name])[-1], "locked")
            what = (
                f"{listed(locked)} are locked"
                if locked
                else f"none of {listed(e.name for e in own)} is locked"
            )
            log.mistake(place, f"of wheel {wheel} {what}", "exactly one locked element for each wheel")
