"""Reads `grades.csv`, the table of built-in grades.

One row a grade; a column's name carries its unit (density is kg/m³ there). `prov_*` columns say where the
figures are from, `strength_confidence` whether somebody read them ("read") or they are from memory. The
columns for fatigue, heat-affected zones and welds wait there for the checks that need them.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from loadpath.model import Material

_TONNE_PER_MM3 = 1e-12  # of 1 kg/m³


class UnknownGrade(KeyError):
    """No grade of that name."""


@dataclass(frozen=True)
class Grade:
    """One row of the table.

    Attributes
    ----------
    id : name in case files. designation : of the standard; not unique where strength depends on the form.
    thickness : smallest and largest thickness [mm] that the strength figures hold for; None where unlimited.
    material : the figures as the model takes them: minima, a casting's own strength rather than its sample's.
    physical_source, notes : where moduli and density are from; what else to know.
    """

    id: str
    designation: str
    standard: str
    form: str
    temper: str
    thickness: tuple[float | None, float | None]
    material: Material
    physical_source: str
    notes: str


def grade(name: str) -> Grade:
    """The grade of that id, or of that designation where only one grade has it.

    Raises
    ------
    UnknownGrade : where there is none.
    """
    try:
        return grades()[_ids()[name]]
    except KeyError:
        raise UnknownGrade(name) from None


def names() -> tuple[str, ...]:
    """All names that `grade` knows, ids first."""
    return tuple(_ids())


@cache
def grades() -> Mapping[str, Grade]:
    """All grades by id."""
    text = files(__package__).joinpath("grades.csv").read_text(encoding="utf-8")
    return MappingProxyType({row["id"]: _grade(row) for row in csv.DictReader(text.splitlines())})


def ids_of(designation: str) -> tuple[str, ...]:
    """Ids of all grades of one designation: more than one where strength depends on form or thickness."""
    return tuple(g.id for g in grades().values() if g.designation == designation)


@cache
def _ids() -> Mapping[str, str]:
    unique = {g.designation: g.id for g in grades().values() if len(ids_of(g.designation)) == 1}
    return MappingProxyType({id_: id_ for id_ in grades()} | unique)


def _number(text: str) -> float | None:
    return float(text) if text else None


def _grade(row: Mapping[str, str]) -> Grade:
    return Grade(
        id=row["id"],
        designation=row["designation"].split(" (")[0],
        standard=row["standard"],
        form=row["form"],
        temper=row["temper"],
        thickness=(_number(row["t_min_mm"]), _number(row["t_max_mm"])),
        material=_material(row),
        physical_source=row["prov_physical"],
        notes=row["notes"],
    )


def _material(row: Mapping[str, str]) -> Material:
    """Minima of the row. A light-metal casting gets the standard's share of its separately cast sample."""
    E, nu = float(row["E_MPa"]), float(row["nu"])
    strength, elongation, remark = 1.0, 1.0, ""
    if row["casting_elong_factor"]:
        strength, elongation = float(row["casting_strength_factor"]), float(row["casting_elong_factor"])
        remark = (
            f"; {strength:g} of the sample's strength and {elongation:g} of its elongation taken for the"
            " casting itself (EN 1706, EN 1999-1-1 Table 3.3, from memory)"
        )
    source = row["prov_strength"]
    if row["standard"].split("/")[0].split(":")[0].strip() not in source:
        source = f"{row['standard']}: {source}"
    return Material(
        name=row["id"],
        E=E,
        G=_number(row["G_MPa"]) or E / (2 * (1 + nu)),
        nu=nu,
        density=float(row["rho_kgm3"]) * _TONNE_PER_MM3,
        proof=_times(row["Rp02_min_MPa"], strength),
        ultimate=_times(row["Rm_min_MPa"], strength),
        elongation=_times(row["A_min_pct"], elongation),
        source=source + remark,
        from_memory=row["strength_confidence"] == "memory" or strength != 1.0,
    )


def _times(text: str, factor: float) -> float | None:
    value = _number(text)
    return None if value is None else round(value * factor, 6)
