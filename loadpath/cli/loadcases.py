"""`loadpath loads`."""

from __future__ import annotations

from pathlib import Path

from loadpath.case import Case, load_case_words, read_case, row_load_case
from loadpath.cli.common import head, print_tables, say, write_files
from loadpath.loads import LoadKind, build, pose_words, standard_set
from loadpath.model import DESIGN, LoadCase
from loadpath.report import (
    CAUTION,
    Table,
    ToldLoadCase,
    set_table,
    state_table,
    taken_table,
    wheel_load,
    wrapped,
)


def print_loads(path: Path | None, csv: Path | None, json: Path | None) -> None:
    """Print the standard set, or the load cases of a case with what they are made of."""
    if path is None:
        specs = ((row, row_load_case(row)) for row in standard_set().values())
        _show([set_table((row, spec, load_case_words(spec)) for row, spec in specs)], csv, json)
        return
    case = read_case(path)
    built = build(case.load_specs, case.vehicle, case.model)
    tables = [taken_table([_told(case, one) for one in built.values()])]
    if case.vehicle is not None:
        tables.append(state_table(case.vehicle))
    say(head(case, [f"Note: {note}." for note in case.standard.notes()]))
    _show(tables, csv, json)


def _show(tables: list[Table], csv: Path | None, json: Path | None) -> None:
    print_tables(tables)
    say(wrapped([*write_files(tables, csv, json, [CAUTION]), CAUTION]))


def _told(case: Case, built: LoadCase) -> ToldLoadCase:
    spec, row = case.load_specs[built.name], case.standard.rows.get(built.name)
    changed = ", changed" if built.name in case.standard.touched else ""
    on_wheels = isinstance(spec, LoadKind) and spec.on_wheels
    return ToldLoadCase(
        name=built.name,
        origin=f"standard{changed}" if row else "case file",
        words=load_case_words(spec),
        cls=built.cls,
        state=f"{spec.state or DESIGN}: {_wheel_load(case, spec.state)}" if on_wheels else "-",
        acts_at=_places(case, built),
        multiplies=spec.multiplies() if isinstance(spec, LoadKind) else "",
        pose=pose_words(built.pose),
        source=row.text.source if row else "case file",
    )


def _places(case: Case, built: LoadCase) -> str:
    """Where its loads act: places of wheels, then what acts elsewhere."""
    wheels = {(w.part, w.centre) for w in case.model.wheels.values()}
    others = [load.what for load in built.loads if (load.part, load.point) not in wheels]
    return "; ".join(dict.fromkeys([*(load.at for load in built.wheel_loads), *others]))


def _wheel_load(case: Case, state: str | None) -> str:
    """Static load of a wheel of each axle of the case in a state."""
    if case.vehicle is None:
        return "-"
    vehicle = case.vehicle.in_state(state)
    axles = dict.fromkeys(w.axle for w in case.model.wheels.values())
    return ", ".join(f"{axle} {wheel_load(vehicle, axle):.2f}" for axle in axles)
