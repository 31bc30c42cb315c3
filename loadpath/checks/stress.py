"""Member stress against the allowable of the load case's class."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.checks.analysis import Analysis, Solved, Stretch
from loadpath.checks.plastic import LEAST_ELONGATION, plastic_demand
from loadpath.checks.row import CheckRow, judge
from loadpath.checks.walls import describe_wall
from loadpath.frame import (
    STRAIGHT,
    Looks,
    largest_of,
    squared_von_mises,
    torque_about_shear_centre,
    warping_section,
)
from loadpath.model import Member
from sections import Section
from sections.plates import PlatePart

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

KIND = "member stress"
STUBBY = 2.0
"""Length over depth under which a member is too short for a beam (common practice, no source)."""
TORSION_COUNTS = 0.02
"""Share of the peak stress from which torsion of an open section counts (our choice, no source)."""
TORQUE_CHANGES = 0.1
"""Change of torque along an open member, over its largest, up to which it counts as constant (our choice)."""


@dataclass(frozen=True, eq=False)
class _Plastic:
    """Yield stress that the section resistance asks for, in one pose.

    stress : (ne, nc) largest [MPa]. look : (ne, nc) the place looked at where it is. slender : of places and load
    cases where it is the elastic one, the section class and the wall that decides it.
    """

    stress: Array
    look: Ints
    slender: dict[tuple[int, int], tuple[int, Section, PlatePart]]

    def why_elastic(self, element: int, c: int) -> str:
        """Why there is no plastic allowance where an element's demand is largest, "" where there is one."""
        found = self.slender.get((int(self.look[element, c]), c))
        if found is None:
            return ""
        number, section, part = found
        return f"no plastic allowance: section class {number}, {describe_wall(section, part)}"


def check_member_stress(analysis: Analysis) -> Iterator[CheckRow]:
    """One row for each member and load case.

    `rare`: largest von Mises stress of the member's surface against the proof stress (EN 1993-1-1 6.2.1(5)).
    `abuse`: the same, or the plastic section resistance where that is higher and the material allows it.
    `repeated`: not checked.
    """
    plastic = {s.numbers: _plastic_stress(analysis, s) for s in analysis.solved}
    torsion = _torsion_stress(analysis)
    for stretch in analysis.members:
        invalid = _why_not_valid(analysis, stretch, torsion)
        for c in analysis.shown:
            solved, _ = analysis.at(c)
            yield _row(analysis, stretch, c, invalid, plastic[solved.numbers])


def _row(analysis: Analysis, stretch: Stretch, c: int, invalid: str, plastic: _Plastic) -> CheckRow:
    case, material, peaks = analysis.cases[c], stretch.member.material, analysis.peaks
    stresses = peaks.referred[stretch.elements, c]
    if case.cls == "repeated":
        reason = "fatigue needs a stress range between two named load cases with a count"
        return _unchecked(stretch, case.name, reason)
    if material.proof is None:
        return _unchecked(stretch, case.name, f"{material.name} has no proof stress")
    if np.isnan(stresses).any():
        return _unchecked(stretch, case.name, "its section has no surface points")
    element = int(stretch.elements[int(stresses.argmax())])
    strength = float(peaks.strength[element, c])
    stress, allowable, reason = float(peaks.von_mises[element, c]), material.proof * strength, invalid
    place = _elastic_place(analysis, stretch, element, c)
    basis = f"proof stress of {material.name}, {_source(stretch.member)}; von Mises, EN 1993-1-1 6.2.1(5)"
    if strength < 1:
        basis = f"{strength:g} × {basis}; the section gives this wall that share of the grade's strength"
    if case.cls == "abuse":
        why_not = _why_no_plastic(analysis, stretch)
        solved, k = analysis.at(c)
        element = int(stretch.elements[int(plastic.stress[stretch.elements, k].argmax())])
        highest = float(plastic.stress[element, k])
        if why_not or highest >= stress / strength:
            reason = reason or why_not or plastic.why_elastic(element, k)
        else:
            allowable = material.proof * stress / highest
            fraction = float(solved.looks.fractions[plastic.look[element, k]])
            place = stretch.place(analysis.elements, element, fraction) + ", whole section"
            basis = (
                f"plastic section resistance of {material.name}, {_source(stretch.member)}; N with My and Mz by "
                f"equilibrium, EN 1993-1-1 6.2.9, {_class_words(analysis, stretch)}; shown as the elastic stress at "
                "which it is reached"
            )
    utilisation = stress / allowable
    return CheckRow(
        kind=KIND,
        subject=stretch.name,
        place=place,
        case=case.name,
        demand=stress,
        allowable=allowable,
        unit="MPa",
        utilisation=utilisation,
        verdict="not valid" if invalid else judge(utilisation),
        basis=basis,
        reason=reason,
    )


def _unchecked(stretch: Stretch, case: str, reason: str) -> CheckRow:
    return CheckRow(
        kind=KIND,
        subject=stretch.name,
        place="",
        case=case,
        demand=None,
        allowable=None,
        unit="MPa",
        utilisation=None,
        verdict="not checked",
        basis="",
        reason=reason,
    )


def _source(member: Member) -> str:
    material = member.material
    marked = "from memory" in material.source or not material.from_memory
    return material.source if marked else f"{material.source} (from memory)"


def _elastic_place(analysis: Analysis, stretch: Stretch, element: int, c: int) -> str:
    """Place along the member and the surface point from the centroid."""
    elements, peaks = analysis.elements, analysis.peaks
    section = elements.different[elements.section_at[element, peaks.station[element, c]]]
    y, z = section.points[peaks.point[element, c]] - section.centroid + 0.0
    where = stretch.place(elements, element, float(peaks.fraction[element, c]))
    return f"{where}, y {y:.0f} z {z:.0f}".replace("-0 ", "0 ")


def _plastic_stress(analysis: Analysis, solved: Solved) -> _Plastic:
    """Largest in each element; 0 in load cases that are not `abuse` and of members without a plastic allowance."""
    looks, elements, every = solved.looks, solved.solution.system.mesh.elements, solved.solution.cases
    values = np.zeros((len(looks.rows), len(every)))
    slender: dict[tuple[int, int], tuple[int, Section, PlatePart]] = {}
    cases = np.flatnonzero([case.cls == "abuse" for case in every])
    served = zip(analysis.members, analysis.places(solved), strict=True) if len(cases) else ()
    for stretch, places in served:
        if _why_no_plastic(analysis, stretch):
            continue
        for section, at in places:
            values[at[:, None], cases] = _resistance(looks, stretch, section, at, cases, slender)
    best = largest_of(looks.rows, values, len(elements.length))
    return _Plastic(values[best, np.arange(len(every))], best, slender)


def _resistance(
    looks: Looks,
    stretch: Stretch,
    section: Section,
    at: Ints,
    cases: Ints,
    slender: dict[tuple[int, int], tuple[int, Section, PlatePart]],
) -> Array:
    """(k, n) yield stress asked for at places of one section: plastic in class 1 and 2, elastic in class 3 and 4."""
    material = stretch.member.material
    forces = looks.forces[at][:, :, cases].transpose(1, 0, 2).reshape(6, -1)
    bimoments = looks.bimoments[at][:, cases].ravel()
    demand = plastic_demand(section, material, forces, bimoments)
    found, above = demand.stress, np.flatnonzero(demand.number > 2)
    if len(above):
        squared = squared_von_mises(section, forces[:, above], bimoments[above])
        found[above] = np.sqrt(squared.max(axis=0, initial=0.0))
    for column in above:
        place, case = divmod(int(column), len(cases))
        part = section.plates[demand.plate[column]]
        slender[int(at[place]), int(cases[case])] = int(demand.number[column]), section, part
    return found.reshape(len(at), -1)


def _why_no_plastic(analysis: Analysis, stretch: Stretch) -> str:
    """Why a member gets no plastic allowance, "" where it does."""
    elongation = stretch.member.material.elongation
    if elongation is None or elongation < LEAST_ELONGATION:
        return f"no plastic allowance: elongation under {LEAST_ELONGATION:g} % or not known"
    if any(len(chain) > 1 for chain in stretch.member.sections):
        return "no plastic allowance along a taper"
    if not all(section.midline or section.rings for section in _sections(analysis, stretch)):
        return "no plastic allowance: the section's geometry is not known"
    return ""


def _class_words(analysis: Analysis, stretch: Stretch) -> str:
    if all(section.plates for section in _sections(analysis, stretch)):
        return "walls of class 1 or 2"
    return "walls, if any, taken as class 1 or 2"


def _sections(analysis: Analysis, stretch: Stretch) -> list[Section]:
    elements = analysis.elements
    return [elements.different[k] for k in np.unique(elements.section_at[stretch.elements])]


def _why_not_valid(analysis: Analysis, stretch: Stretch, torsion: Array) -> str:
    """Why beam theory does not hold for a member, "" where it does."""
    elements = analysis.elements
    length = float(elements.length[stretch.elements].sum())
    sections = _sections(analysis, stretch)
    depth = max(float((s.box[1] - s.box[0]).max()) for s in sections)
    if length < STUBBY * depth:
        return f"{length:.0f} mm long, under {STUBBY:g} × its depth of {depth:.0f} mm: too short for a beam"
    if all(s.closed for s in sections):
        return ""
    peak = float(np.nanmax(analysis.peaks.von_mises[stretch.elements][:, analysis.shown], initial=0.0))
    share = float(torsion[stretch.elements].max()) / peak if peak > 0 else 0.0
    if share <= TORSION_COUNTS:
        return ""
    if stretch.member.warping is None:
        return (
            f"open section in torsion ({share:.0%} of the peak stress) without a statement of its warping at the "
            "ends: say warping = { first = ..., last = ... }"
        )
    return _why_warping_fails(analysis, stretch)


def _why_warping_fails(analysis: Analysis, stretch: Stretch) -> str:
    """Why the closed form of restrained warping does not hold for an open member, "" where it does."""
    section = warping_section(stretch.member)
    if section is None:
        return "open section in torsion along a taper: its warping cannot be followed"
    elements = analysis.elements
    along = elements.frame[stretch.elements][:, 0]
    if len(along) > 1 and (along[1:] * along[:-1]).sum(axis=1).min() < STRAIGHT:
        return "open section in torsion with a kink in its path: its warping cannot be followed"
    torque = analysis.together(lambda s: _torque_range(s, section, stretch))[:, analysis.shown]
    largest = np.abs(torque).max(initial=0.0)
    change = (torque[1] - torque[0]).max(initial=0.0)
    if change > TORQUE_CHANGES * largest:
        return (
            f"open section in torsion whose torque changes along the member by {change / largest:.0%}: restrained "
            "warping is followed for a constant torque only"
        )
    return ""


def _torque_range(solved: Solved, section: Section, stretch: Stretch) -> Array:
    """(2, nc) least and largest torque about the shear centre along a member."""
    at = np.isin(solved.looks.rows, stretch.elements)
    torque = torque_about_shear_centre(section, solved.looks.forces[at])
    return np.array([torque.min(axis=0), torque.max(axis=0)])


def _torsion_stress(analysis: Analysis) -> Array:
    """(ne,) largest von Mises stress of Saint-Venant torsion alone, of elements with open sections."""
    found: Array = np.max([_torsion_in_pose(solved) for solved in analysis.solved], axis=0)
    return found


def _torsion_in_pose(solved: Solved) -> Array:
    looks, elements = solved.looks, solved.solution.system.mesh.elements
    found = np.zeros(len(elements.length))
    for section, at in looks.by_section(elements):
        if section.closed:
            continue
        torque = torque_about_shear_centre(section, looks.forces[at])
        about_shear_centre = np.abs(torque).max(axis=1, initial=0.0)
        np.maximum.at(found, looks.rows[at], about_shear_centre * section.unit_peaks[3])
    return found
