"""The tyre of a wheel, by its size or measured."""

from __future__ import annotations

from dataclasses import replace

from loadpath.case.errors import Log, shown
from loadpath.case.tables import TyreTable
from loadpath.case.words import join
from loadpath.model import SHOULDER, Tyre, tyre_of_size


def make_tyre(table: TyreTable, path: str, loaded: float, log: Log) -> Tyre | None:
    """A tyre, or None where it cannot be made.

    loaded : [mm] radius of the wheel under its load, which cannot be larger.
    """
    tyre = _by_size(table, path, log) if table.size is not None else _measured(table, path, log)
    if tyre is None:
        return None
    given = {"width": table.width, "radius": table.radius, "rim": table.rim, "shoulder": table.shoulder}
    tyre = replace(tyre, **{key: value for key, value in given.items() if value is not None})
    if tyre.radius < loaded:
        what = f"{tyre.radius:.1f} mm unloaded is less than the wheel's loaded radius of {loaded:.1f} mm"
        log.mistake(path, what, "an unloaded radius above the loaded one")
    elif not tyre.rim < tyre.radius - tyre.shoulder:
        log.mistake(join(path, "rim"), f"{tyre.rim:g} mm leaves no tyre", "a radius inside the tyre")
    elif not 2 * tyre.shoulder <= tyre.width:
        what = f"{tyre.shoulder:g} mm is more than half of the width"
        log.mistake(join(path, "shoulder"), what, f"at most {tyre.width / 2:g} mm")
    return tyre if log.clean(path) else None


def _by_size(table: TyreTable, path: str, log: Log) -> Tyre | None:
    try:
        return tyre_of_size(table.size or "")
    except ValueError as error:
        log.mistake(join(path, "size"), f"{shown(table.size)} is no size of a tyre", str(error))
        return None


def _measured(table: TyreTable, path: str, log: Log) -> Tyre | None:
    for key in ("width", "radius", "rim"):
        if getattr(table, key) is None:
            log.mistake(
                join(path, key), "is missing where no size is given", "a size, or width, radius and rim"
            )
    if table.width is None or table.radius is None or table.rim is None:
        return None
    return Tyre(table.width, table.radius, table.rim, SHOULDER * table.width)
