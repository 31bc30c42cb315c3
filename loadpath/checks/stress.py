"""Member stress against the allowable of the load case's class."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.checks.analysis import Analysis
from loadpath.checks.plastic import LEAST_ELONGATION, plastic_applies, plastic_utilisation
from loadpath.checks.row import CheckRow, judge
from loadpath.model import TAPER_STATIONS, Member, Part
from sections import Section

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

KIND = "member stress"
STUBBY = 2.0
TORSION_COUNTS = 0.02
"""Share of the peak stress from which torsion of an open section counts."""


@dataclass(frozen=True, eq=False)
class _Stretch:
    """One member with its elements."""

    part: Part
    member: Member
    elements: Ints


def check_member_stress(analysis: Analysis) -> Iterator[CheckRow]:
    """One row for each member and load case.

    `rare`: largest von Mises stress of the member's surface against the proof stress (EN 1993-1-1 6.2.1(5)).
    `abuse`: the same, or the plastic section resistance where that is higher and the material allows it.
    `repeated`: not checked.
    """
    plastic, torsion = _plastic_stress(analysis), _torsion_stress(analysis)
    for stretch in _stretches(analysis):
        invalid = _why_not_valid(analysis, stretch, torsion)
        for c, case in enumerate(analysis.cases):
            if case.name not in analysis.refused:
                yield _row(analysis, stretch, c, invalid, plastic)


def _stretches(analysis: Analysis) -> Iterator[_Stretch]:
    elements = analysis.solution.system.mesh.elements
    index: dict[tuple[str, str], list[int]] = {}
    for e, key in enumerate(zip(elements.part, elements.member, strict=True)):
        index.setdefault(key, []).append(e)
    for part in analysis.model.parts.values():
        for member in part.members:
            yield _Stretch(part, member, np.array(index[part.name, member.name]))


def subject(part: Part, member: Member) -> str:
    """Name of a member for people: the part's own name where it is a link."""
    return part.name if part.kind == "link" else f"{part.name}.{member.name}"


def _row(analysis: Analysis, stretch: _Stretch, c: int, invalid: str, plastic: Array) -> CheckRow:
    case, material = analysis.cases[c], stretch.member.material
    name = subject(stretch.part, stretch.member)
    peaks = analysis.peaks.von_mises[stretch.elements, c]
    if case.cls == "repeated":
        return _unchecked(
            name, case.name, "fatigue needs a stress range between two named load cases with a count"
        )
    if material.proof is None:
        return _unchecked(name, case.name, f"{material.name} has no proof stress")
    if np.isnan(peaks).any():
        return _unchecked(name, case.name, "its section has no surface points")
    worst = stretch.elements[int(peaks.argmax())]
    stress, allowable, reason = float(peaks.max()), material.proof, invalid
    basis = f"proof stress of {material.name}, {_source(stretch.member)}; von Mises, EN 1993-1-1 6.2.1(5)"
    if case.cls == "abuse":
        why_not = _why_no_plastic(analysis, stretch)
        governing = stretch.elements[int(plastic[stretch.elements, c].argmax())]
        if why_not:
            reason = reason or why_not
        elif plastic[governing, c] < stress:
            worst, allowable = governing, material.proof * stress / float(plastic[governing, c])
            basis = (
                f"plastic section resistance of {material.name}, {_source(stretch.member)}; EN 1993-1-1 "
                "6.2.1(7), shown as the elastic stress at which it is reached"
            )
    utilisation = stress / allowable
    return CheckRow(
        kind=KIND,
        subject=name,
        place=_place(analysis, stretch, int(worst), c),
        case=case.name,
        demand=stress,
        allowable=allowable,
        unit="MPa",
        utilisation=utilisation,
        verdict="not valid" if invalid else judge(utilisation),
        basis=basis,
        reason=reason,
    )


def _unchecked(name: str, case: str, reason: str) -> CheckRow:
    return CheckRow(KIND, name, "", case, None, None, "MPa", None, "not checked", "", reason)


def _source(member: Member) -> str:
    material = member.material
    marked = "from memory" in material.source or not material.from_memory
    return material.source if marked else f"{material.source} (from memory)"


def _place(analysis: Analysis, stretch: _Stretch, element: int, c: int) -> str:
    """Distance along the member and the surface point from the centroid."""
    elements, peaks = analysis.solution.system.mesh.elements, analysis.peaks
    station = peaks.station[element, c]
    at = elements.start[element] + TAPER_STATIONS[station] * elements.length[element]
    section = elements.different[elements.section_at[element, station]]
    y, z = section.points[peaks.point[element, c]] - section.centroid
    return f"{at:.0f} mm from {stretch.member.path[0]}, at y {y:.0f}, z {z:.0f}"


def _plastic_stress(analysis: Analysis) -> Array:
    """(ne, nc) plastic utilisation of the section times the yield stress [MPa], largest in each element.

    0 in load cases that are not `abuse`.
    """
    looks, elements = analysis.looks, analysis.solution.system.mesh.elements
    cases = np.flatnonzero([case.cls == "abuse" for case in analysis.cases])
    found = np.zeros((len(elements.length), len(analysis.cases)))
    if not len(cases):
        return found
    for section, at in looks.by_section(elements):
        columns = looks.forces[at][:, :, cases].transpose(1, 0, 2).reshape(6, -1)
        values = plastic_utilisation(section, columns, 1.0).reshape(len(at), -1)
        np.maximum.at(found, np.ix_(looks.rows[at], cases), values)
    return found


def _why_no_plastic(analysis: Analysis, stretch: _Stretch) -> str:
    """Why a member gets no plastic allowance, "" where it does."""
    elongation = stretch.member.material.elongation
    if elongation is None or elongation < LEAST_ELONGATION:
        return f"no plastic allowance: elongation under {LEAST_ELONGATION:g} % or not known"
    if not all(plastic_applies(s) for s in _sections(analysis, stretch)):
        return "no plastic allowance: oblique principal axes"
    return ""


def _sections(analysis: Analysis, stretch: _Stretch) -> list[Section]:
    elements = analysis.solution.system.mesh.elements
    return [elements.different[k] for k in np.unique(elements.section_at[stretch.elements])]


def _why_not_valid(analysis: Analysis, stretch: _Stretch, torsion: Array) -> str:
    """Why beam theory does not hold for a member, "" where it does."""
    elements = analysis.solution.system.mesh.elements
    length = float(elements.length[stretch.elements].sum())
    sections = _sections(analysis, stretch)
    depth = max(float((s.box[1] - s.box[0]).max()) for s in sections)
    if length < STUBBY * depth:
        return f"{length:.0f} mm long, under {STUBBY:g} × its depth of {depth:.0f} mm: too short for a beam"
    if all(s.closed for s in sections):
        return ""
    peak = float(np.nanmax(analysis.peaks.von_mises[stretch.elements], initial=0.0))
    share = float(torsion[stretch.elements].max()) / peak if peak > 0 else 0.0
    if share > TORSION_COUNTS:
        return (
            f"open section in torsion ({share:.0%} of the peak stress without warping): bimoment stress of "
            "restrained warping is not worked out"
        )
    return ""


def _torsion_stress(analysis: Analysis) -> Array:
    """(ne,) largest von Mises stress of Saint-Venant torsion alone, of elements with open sections."""
    looks, elements = analysis.looks, analysis.solution.system.mesh.elements
    found = np.zeros(len(elements.length))
    for section, at in looks.by_section(elements):
        if section.closed:
            continue
        y, z = section.shear_offset
        vy, vz, t = looks.forces[at][:, 1:4].transpose(1, 0, 2)
        about_shear_centre = np.abs(t - (y * vz - z * vy)).max(axis=1, initial=0.0)
        np.maximum.at(found, looks.rows[at], about_shear_centre * section.unit_peaks[3])
    return found
