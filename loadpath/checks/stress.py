"""Member stress against the allowable of the load case's class."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.checks.analysis import Analysis
from loadpath.checks.plastic import LEAST_ELONGATION, plastic_applies, plastic_utilisation
from loadpath.checks.row import CheckRow, judge
from loadpath.model import Member, Part
from sections import Section

Array = NDArray[np.float64]

KIND = "member stress"
STUBBY = 2.0
TORSION_COUNTS = 0.02
"""Share of the peak stress from which torsion of an open section counts."""


@dataclass(frozen=True, eq=False)
class _Stretch:
    """One member with its elements."""

    part: Part
    member: Member
    elements: NDArray[np.intp]


def check_member_stress(analysis: Analysis) -> Iterator[CheckRow]:
    """One row for each member and load case.

    `rare`: largest von Mises stress of the member's surface against the proof stress (EN 1993-1-1 6.2.1(5)).
    `abuse`: the same, or the plastic section resistance where that is higher and the material allows it.
    `repeated`: not checked.
    """
    for stretch in _stretches(analysis):
        invalid = _why_not_valid(analysis, stretch)
        for c, case in enumerate(analysis.cases):
            if case.name not in analysis.refused:
                yield _row(analysis, stretch, c, invalid)


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


def _row(analysis: Analysis, stretch: _Stretch, c: int, invalid: str) -> CheckRow:
    case, material = analysis.cases[c], stretch.member.material
    name = subject(stretch.part, stretch.member)
    peaks = analysis.peaks.von_mises[stretch.elements, c]
    if case.cls == "repeated":
        reason = "fatigue needs a stress range between two named load cases with a count"
        return CheckRow(KIND, name, "", case.name, None, None, "MPa", None, "not checked", "", reason)
    if np.isnan(peaks).any() or material.proof is None:
        reason = f"{material.name} has no proof stress" if material.proof is None else "no surface points"
        return CheckRow(KIND, name, "", case.name, None, None, "MPa", None, "not checked", "", reason)
    worst = int(peaks.argmax())
    stress, allowable, reason = float(peaks[worst]), material.proof, invalid
    utilisation = stress / allowable
    basis = f"proof stress of {material.name}, {_source(stretch.member)}; von Mises, EN 1993-1-1 6.2.1(5)"
    element = stretch.elements[worst]
    if case.cls == "abuse":
        plastic, where, why_not = _plastic(analysis, stretch, c)
        if plastic < utilisation:
            utilisation, element = plastic, stretch.elements[where]
            allowable = stress / utilisation
            basis = (
                f"plastic section resistance of {material.name}, {_source(stretch.member)}; EN 1993-1-1 "
                "6.2.1(7), shown as the elastic stress at which it is reached"
            )
        reason = reason or why_not
    return CheckRow(
        kind=KIND,
        subject=name,
        place=_place(analysis, stretch, int(element), c),
        case=case.name,
        demand=stress,
        allowable=allowable,
        unit="MPa",
        utilisation=utilisation,
        verdict="not valid" if invalid else judge(utilisation),
        basis=basis,
        reason=reason,
    )


def _source(member: Member) -> str:
    material = member.material
    marked = "from memory" in material.source or not material.from_memory
    return material.source if marked else f"{material.source} (from memory)"


def _place(analysis: Analysis, stretch: _Stretch, element: int, c: int) -> str:
    """Distance along the member and the surface point from the centroid."""
    elements, peaks = analysis.solution.system.mesh.elements, analysis.peaks
    fraction = peaks.station[element, c]
    at = elements.start[element] + fraction * elements.length[element]
    section = _section_at(elements.sections[element], fraction)
    y, z = section.points[peaks.point[element, c]] - section.centroid
    return f"{at:.0f} mm from {stretch.member.path[0]}, at y {y:.0f}, z {z:.0f}"


def _section_at(chain: tuple[Section, ...], fraction: float) -> Section:
    if len(chain) == 1:
        return chain[0]
    from loadpath.model import TAPER_STATIONS

    return chain[int(np.abs(TAPER_STATIONS - fraction).argmin())]


def _plastic(analysis: Analysis, stretch: _Stretch, c: int) -> tuple[float, int, str]:
    """Largest plastic utilisation along a member, its element, and why it may not be used."""
    material = stretch.member.material
    if material.elongation is None or material.elongation < LEAST_ELONGATION:
        return np.inf, 0, f"no plastic allowance: elongation under {LEAST_ELONGATION:g} % or not known"
    elements = analysis.solution.system.mesh.elements
    largest, where = 0.0, 0
    for k, e in enumerate(stretch.elements):
        chain = elements.sections[e]
        forces = analysis.forces[e, :, :, c].T
        if not all(plastic_applies(s) for s in chain):
            return np.inf, 0, "no plastic allowance: oblique principal axes"
        if material.proof is None:
            return np.inf, 0, "no proof stress"
        stations = [forces] if len(chain) == 1 else list(forces.T[:, :, None])
        values = [plastic_utilisation(s, f, material.proof) for s, f in zip(chain, stations, strict=True)]
        highest = float(max(v.max() for v in values))
        if highest > largest:
            largest, where = highest, k
    return largest, where, ""


def _why_not_valid(analysis: Analysis, stretch: _Stretch) -> str:
    """Why beam theory does not hold for a member, "" where it does."""
    elements = analysis.solution.system.mesh.elements
    length = float(elements.length[stretch.elements].sum())
    sections = [s for e in stretch.elements for s in elements.sections[e]]
    depth = max(float((s.box[1] - s.box[0]).max()) for s in sections)
    if length < STUBBY * depth:
        return f"{length:.0f} mm long, under {STUBBY:g} × its depth of {depth:.0f} mm: too short for a beam"
    if all(s.closed for s in sections):
        return ""
    share = _torsion_share(analysis, stretch)
    if share > TORSION_COUNTS:
        return (
            f"open section in torsion ({share:.0%} of the peak stress without warping): bimoment stress of "
            "restrained warping is not worked out"
        )
    return ""


def _torsion_share(analysis: Analysis, stretch: _Stretch) -> float:
    """Largest Saint-Venant shear stress of torsion as a share of the member's peak stress."""
    elements = analysis.solution.system.mesh.elements
    torsion = 0.0
    for e in stretch.elements:
        chain = elements.sections[e]
        for k in range(analysis.forces.shape[1]):
            section = chain[k] if len(chain) > 1 else chain[0]
            y, z = section.shear_offset
            vy, vz, t = analysis.forces[e, k, 1:4]
            about_shear_centre = np.abs(t - (y * vz - z * vy)).max(initial=0.0)
            unit = np.abs(section.stress[:, 1:, 3]).max(initial=0.0)
            torsion = max(torsion, float(about_shear_centre) * float(unit) * np.sqrt(3))
    peak = float(np.nanmax(analysis.peaks.von_mises[stretch.elements], initial=0.0))
    return torsion / peak if peak > 0 else 0.0
