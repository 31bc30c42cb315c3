"""Reads a case file into the model, the load cases and the targets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType
from typing import Any

from loadpath.case.build import Built, build
from loadpath.case.declare import items
from loadpath.case.errors import CaseError, Log, Mistake
from loadpath.case.files import read_points_csv, read_toml
from loadpath.case.gauges import thickness_warnings
from loadpath.case.lookup import Context
from loadpath.case.mirror import Twins, mirror
from loadpath.case.reading import read_table
from loadpath.case.space import make_axes
from loadpath.case.standard import Standard, with_standard
from loadpath.case.tables import CaseTable, HeadTable
from loadpath.case.usage import usage_warnings
from loadpath.case.words import join, keys
from loadpath.loads import LoadCaseError
from loadpath.loads import build as build_loads
from loadpath.materials import names as grade_names
from loadpath.model import BODY, DESIGN, Axes, LoadSpec, Model, Target, Vehicle


@dataclass(frozen=True, eq=False)
class Case:
    """All that a case file says, in internal units (mm, N, MPa, rad, tonne), checked.

    Attributes
    ----------
    path : of the file. axes : of the vehicle in case-file axes.
    shapes : section shapes by name, used or not. load_specs, targets : as given.
    defaults : (key path, value as text with unit) of the defaults that were used; twins are left out.
    overrides : key paths that were written over a generated twin.
    warnings : statements to show with every result.
    tolerances : key path -> half-width at 95 % [internal units].
    standard : what it takes of the standard load cases.
    """

    path: Path
    title: str
    axes: Axes
    model: Model
    shapes: Mapping[str, Any]
    vehicle: Vehicle | None
    load_specs: Mapping[str, LoadSpec]
    targets: tuple[Target, ...]
    defaults: tuple[tuple[str, str], ...]
    overrides: tuple[str, ...]
    warnings: tuple[str, ...]
    tolerances: Mapping[str, float]
    standard: Standard


def read_case(path: str | Path) -> Case:
    """The case of a TOML file.

    Raises
    ------
    CaseError : with every mistake of the file, where there is any.
    """
    file = Path(path)
    raw = read_toml(file)
    log = Log(file.name)
    context = Context(log, {}, file.parent)
    head = _read_head(raw, context)
    axes = _axes(head, log)
    if not log.clean("points_file"):
        raise CaseError(log.mistakes)  # without its points, nearly all of the file would be told to be wrong
    raw = _with_csv_points(raw, head, log)
    raw, standard = with_standard(raw, context)
    raw, twins = mirror(raw, CaseTable, head.axes.left, log)
    context = replace(context, names=_names(raw))
    table = _read_all(raw, context)
    table = replace(table, title=table.title or file.stem)
    built = None if axes is None else build(table, axes, context, frozenset(twins.made))
    if built is not None and not log.mistakes:
        table, standard = _with_possible_loads(table, built, log, standard.with_twins(twins.made))
    if built is None or log.mistakes:
        raise CaseError(_told_once(log, twins, standard, raw))
    log.warnings.extend(usage_warnings(table, built.model, log.used))
    log.warnings.extend(thickness_warnings(table.sections, built.model))
    log.warnings.extend(standard.notes())
    return _case(file, table, built, log, twins, standard)


def _read_head(raw: Mapping[str, Any], context: Context) -> HeadTable:
    """What the file says of itself; the defaults where that is faulty, so that reading can go on."""
    own = {k: v for k, v in raw.items() if k in keys(HeadTable)}
    head = read_table(HeadTable, own, "", context)
    if "axes" not in own:
        context.log.defaults["axes"] = "forward +x, left +y, up +z"
    return head if isinstance(head, HeadTable) else HeadTable(format=1)


def _axes(head: HeadTable, log: Log) -> Axes | None:
    if not log.clean("axes"):
        return None
    axes = make_axes(head.axes)
    if axes is None:
        words = f"forward {head.axes.forward}, left {head.axes.left}, up {head.axes.up}"
        log.mistake(
            "axes", f"{words} is no right-handed set", "three different axes with up = forward × left"
        )
    return axes


def _with_csv_points(raw: dict[str, Any], head: HeadTable, log: Log) -> dict[str, Any]:
    """Raw tables with the hardpoints of the CSV file among the points.

    Raises
    ------
    CaseError : where the CSV cannot be read; without its points nearly all of the file would seem wrong.
    """
    own = raw.get("points", {})
    if head.points_file is None or not isinstance(own, dict):
        return raw
    file = Path(head.points_file)
    points = read_points_csv(file)
    for name in points:
        if name in own:
            log.mistake(join("points", name), f"stands in {file.name} too", "each point once")
        else:
            log.elsewhere[join("points", name)] = file.name
    return {**raw, "points": {**points, **own}}


_REFERRED = {
    "point": "points",
    "section": "sections",
    "material": "materials",
    "part": "parts",
    "joint": "joints",
    "strut": "struts",
    "wheel": "wheels",
    "sensor": "sensors",
    "mass": "masses",
    "load case": "load_cases",
    "target": "targets",
}


def _names(raw: Mapping[str, Any]) -> dict[str, tuple[str, ...]]:
    """Valid names by what a key refers to; those of faulty entries too."""
    tables = {kind: raw.get(key) for kind, key in _REFERRED.items()}
    names = {kind: tuple(t) if isinstance(t, dict) else () for kind, t in tables.items()}
    names["material"] += grade_names()
    names["part or body"] = (*names["part"], BODY)
    vehicle = raw.get("vehicle")
    states = vehicle.get("states") if isinstance(vehicle, dict) else None
    names["state"] = (DESIGN, *(states if isinstance(states, dict) else ()))
    return names


def _read_all(raw: Mapping[str, Any], context: Context) -> CaseTable:
    """All tables; where keys of the file itself are faulty, those without them."""
    table = read_table(CaseTable, raw, "", context)
    if isinstance(table, CaseTable):
        return table
    good = {i.key for i in items(CaseTable) if i.entries is not None or context.log.clean(i.key)}
    rest = {k: v for k, v in raw.items() if k in good} | {"format": 1}
    table = read_table(CaseTable, rest, "", replace(context, log=Log(context.log.file)))
    if not isinstance(table, CaseTable):
        raise AssertionError("a case without its faulty keys can be read")
    return table


def _with_possible_loads(
    table: CaseTable, built: Built, log: Log, standard: Standard
) -> tuple[CaseTable, Standard]:
    """Both without what the standard load cases ask for and this model and vehicle cannot have.

    Whatever else keeps a load case from being built is a mistake.
    """
    try:
        build_loads(table.load_cases, built.vehicle, built.model)
    except LoadCaseError as error:
        fitted = standard.fitted(table.load_cases, error.faults)
        if (fitted.rows, fitted.standing) != (standard.rows, standard.standing):
            return _with_possible_loads(_without(table, standard, fitted), built, log, fitted)
        for fault in error.faults:
            log.mistake(fault.place, fault.what, fault.expected, fault.nearest)
    return table, standard


def _without(table: CaseTable, before: Standard, after: Standard) -> CaseTable:
    """The tables without the rows that are gone, and without the poses that cannot be had."""
    gone = before.rows.keys() - after.rows.keys()
    kept = {
        name: replace(spec, pose=None) if name in after.standing else spec
        for name, spec in table.load_cases.items()
        if name not in gone
    }
    return replace(table, load_cases=kept)


def _case(path: Path, table: CaseTable, built: Built, log: Log, twins: Twins, standard: Standard) -> Case:
    told = {p: v for p, v in log.defaults.items() if not twins.repeats(p, v, log.defaults)}
    return Case(
        path=path,
        title=built.model.title,
        axes=built.model.axes,
        model=built.model,
        shapes=MappingProxyType(dict(table.sections)),
        vehicle=built.vehicle,
        load_specs=MappingProxyType(dict(table.load_cases)),
        targets=built.targets,
        defaults=tuple(told.items()),
        overrides=tuple(twins.overrides),
        warnings=tuple(log.warnings),
        tolerances=MappingProxyType(dict(log.tolerances)),
        standard=standard,
    )


def _told_once(log: Log, twins: Twins, standard: Standard, raw: Mapping[str, Any]) -> list[Mistake]:
    """Mistakes in the order of the file, without those that a twin or a standard load case repeats."""
    found = {m.path: m.what for m in log.mistakes}
    order = {key: k for k, key in enumerate(raw)}
    once = [
        m
        for m in dict.fromkeys(log.mistakes)
        if not twins.repeats(m.path, m.what, found) and not standard.repeats(m.path, found)
    ]
    return sorted(once, key=lambda m: order.get(m.path.split(".")[0].split("[")[0], -1))
