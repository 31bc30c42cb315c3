"""Local buckling of the walls of members: up to which load the whole section counts.

A wall in compression is effective as a whole up to the stress at which its slenderness reaches the limit of class 3
(EN 1993-1-1 5.5.2 (9); aluminium by EN 1999-1-1 table 6.2). Beyond, it buckles: it need not fail, but stress and
stiffness by the whole section no longer hold. Distortional buckling (a lip that moves with its flange) and shear
buckling are not judged.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from loadpath.checks.analysis import Analysis, Solved, Stretch
from loadpath.checks.buckling import LEAST_SHARE
from loadpath.checks.plastic import plate_rules
from loadpath.checks.row import CheckRow, judge
from sections import Section
from sections.plates import PlatePart, wall_limits

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

KIND = "wall buckling"
_BASIS = {
    "steel": "class 3 limit at the acting stress, EN 1993-1-1 5.5.2 (9) and table 5.2 (from memory)",
    "aluminium": "class 3 limit at the acting stress, EN 1999-1-1 table 6.2, welded, buckling class B (from memory)",
}
_BEYOND = (
    "the wall buckles and the whole section no longer counts: judge it by its effective section (EN 1993-1-5)"
)


def check_wall_buckling(analysis: Analysis) -> Iterator[CheckRow]:
    """One row for each member and load case that presses a wall which buckles before it yields (class 4).

    Other walls need none: they yield first, which is what the check of stress tells.
    """
    for stretch, solved in ((m, s) for m in analysis.members for s in analysis.solved):
        places = np.flatnonzero(np.isin(solved.looks.rows, stretch.elements))
        served = [
            (section, places[np.isin(places, at)])
            for section, at in solved.looks.by_section(solved.solution.system.mesh.elements)
            if section.plates and np.isin(places, at).any()
        ]
        for k, c in enumerate(solved.numbers):
            if served and c in analysis.shown and analysis.cases[c].cls != "repeated":
                row = _row(solved, stretch, k, served)
                if row is not None:
                    yield row


def _row(solved: Solved, stretch: Stretch, k: int, served: list[tuple[Section, Ints]]) -> CheckRow | None:
    """The worst wall and place of one member in load case number k of a pose."""
    material, looks = stretch.member.material, solved.looks
    rules = plate_rules(material)
    worst, utilisation = None, LEAST_SHARE
    for section, at in served:
        stress = section.plate_stress(looks.forces[at, :, k].T, looks.bimoments[at, k])
        used = wall_limits(section.plates, stress, material.E, rules)
        pressed = -stress.min(axis=1)
        if material.proof is not None:
            used = np.where(pressed < used * material.proof, used, 0.0)
        part, place = np.unravel_index(int(used.argmax()), used.shape)
        if used[part, place] > utilisation:
            utilisation = float(used[part, place])
            worst = section, section.plates[part], int(at[place]), float(pressed[part, place])
    if worst is None:
        return None
    section, plate, look, demand = worst
    elements = solved.solution.system.mesh.elements
    where = stretch.place(elements, int(looks.rows[look]), float(looks.fractions[look]))
    reasons = [_BEYOND] if utilisation > 1 else []
    if plate.lip:
        reasons.append("distortional buckling of its lip is not judged")
    return CheckRow(
        kind=KIND,
        subject=stretch.name,
        place=f"{where}, {describe_wall(section, plate)}",
        case=solved.solution.cases[k].name,
        demand=demand,
        allowable=demand / utilisation,
        unit="MPa",
        utilisation=utilisation,
        verdict=judge(utilisation),
        basis=_BASIS[rules],
        reason="; ".join(reasons),
    )


def describe_wall(section: Section, part: PlatePart) -> str:
    """A wall in words: how it is held, its width over thickness, and where its middle is."""
    y, z = part.middle - section.centroid + 0.0
    at = f"at y {y:.0f} z {z:.0f} of centroid".replace("-0 ", "0 ")
    if part.kind == "curved":
        return f"curved wall, d/t {part.slender:.1f}, {at}"
    kind = "flat" if part.kind == "internal" else "free flange"
    return f"{kind} {part.width:.1f} x {part.thickness:.1f} mm, c/t {part.slender:.1f}, {at}"
