"""Local buckling of the walls of members: up to which load the whole section counts.

A wall in compression is effective as a whole up to the stress at which its slenderness reaches the limit of class 3
(EN 1993-1-1 5.5.2 (9); aluminium by EN 1999-1-1 table 6.2). Beyond, it buckles: it need not fail, but stress and
stiffness by the whole section no longer hold. Distortional buckling (a lip that moves with its flange) and shear
buckling are not judged.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from loadpath.checks.analysis import Analysis, Solved, Stretch
from loadpath.checks.buckling import LEAST_SHARE
from loadpath.checks.plastic import plate_rules
from loadpath.checks.row import CheckRow, judge
from loadpath.frame import Looks
from loadpath.model import Material
from sections import Section
from sections.plates import PlatePart, effective_section, wall_limits

Array = NDArray[np.float64]
Ints = NDArray[np.intp]

KIND = "wall buckling"
_BASIS = {
    "steel": "class 3 limit at the acting stress, EN 1993-1-1 5.5.2 (9) and table 5.2 (from memory)",
    "aluminium": "class 3 limit at the acting stress, EN 1999-1-1 table 6.2, the smaller limits of buckling classes "
    "A and B with welds (from memory)",
}
_BEYOND = "the wall buckles and the whole section no longer counts"


def check_wall_buckling(analysis: Analysis) -> Iterator[CheckRow]:
    """One row for each member and load case that presses a wall which buckles before it yields (class 4).

    Other walls need none: they yield first, which is what the check of stress tells.
    """
    for solved in analysis.solved:
        judged = {k: c for k, c in enumerate(solved.numbers) if c in analysis.shown}
        cases = [k for k, c in judged.items() if analysis.cases[c].cls != "repeated"]
        if not cases:
            continue
        for stretch, served in zip(analysis.members, analysis.places(solved), strict=True):
            pressed = [
                _pressed(solved.looks, stretch, section, at, cases)
                for section, at in served
                if _may_buckle(section, stretch.member.material)
            ]
            for k, case in enumerate(cases):
                worst = max((each[k] for each in pressed), key=lambda found: found.utilisation, default=None)
                if worst is not None and worst.utilisation > LEAST_SHARE:
                    yield _row(analysis, solved, stretch, case, worst)


@lru_cache(maxsize=4096)
def _may_buckle(section: Section, material: Material) -> bool:
    """False where every wall yields before it buckles even in even compression, which no wall bears less of."""
    if not section.plates or material.proof is None:
        return bool(section.plates)
    even = np.full((len(section.plates), 2, 1), -material.proof)
    return bool((wall_limits(section.plates, even, material.E, plate_rules(material)) > 1).any())


@dataclass(frozen=True, eq=False)
class _Pressed:
    """A wall of a section at a place looked at, its compression [MPa] and its utilisation."""

    section: Section
    plate: PlatePart
    look: int
    stress: float
    utilisation: float


def _pressed(
    looks: Looks, stretch: Stretch, section: Section, at: Ints, cases: Sequence[int]
) -> list[_Pressed]:
    """The wall nearest to its limit in each load case, at places of one section; walls that yield first left out."""
    material = stretch.member.material
    forces = looks.forces[at][:, :, cases].transpose(1, 0, 2).reshape(6, -1)
    stress = section.plate_stress(forces, looks.bimoments[at][:, cases].ravel())
    used = wall_limits(section.plates, stress, material.E, plate_rules(material))
    pressed = -stress.min(axis=1)
    if material.proof is not None:
        used = np.where(pressed < used * material.proof, used, 0.0)
    flat = used.reshape(-1, len(cases))
    best = flat.argmax(axis=0)
    found = []
    for k, index in enumerate(best.tolist()):
        plate, look = divmod(index, len(at))
        value = float(pressed.reshape(-1, len(cases))[index, k])
        found.append(_Pressed(section, section.plates[plate], int(at[look]), value, float(flat[index, k])))
    return found


def _row(analysis: Analysis, solved: Solved, stretch: Stretch, k: int, worst: _Pressed) -> CheckRow:
    """Row of load case number k of a pose."""
    looks = solved.looks
    where = stretch.place(analysis.elements, int(looks.rows[worst.look]), float(looks.fractions[worst.look]))
    reasons = []
    if worst.utilisation > 1:
        forces = looks.forces[worst.look, :, k]
        reasons.append(f"{_BEYOND}; {_effective(worst.section, forces, stretch.member.material)}")
    if worst.plate.lip:
        reasons.append("distortional buckling of its lip is not judged")
    return CheckRow(
        kind=KIND,
        subject=stretch.name,
        place=f"{where}, {describe_wall(worst.section, worst.plate)}",
        case=solved.solution.cases[k].name,
        demand=worst.stress,
        allowable=worst.stress / worst.utilisation,
        unit="MPa",
        utilisation=worst.utilisation,
        verdict=judge(worst.utilisation),
        basis=_BASIS[plate_rules(stretch.member.material)],
        reason="; ".join(reasons),
    )


def _effective(section: Section, forces: Array, material: Material) -> str:
    """What the effective section makes of the same forces, in words."""
    if plate_rules(material) != "steel" or section.midline is None or material.proof is None:
        return "judge it by its effective section, which is not worked out for aluminium"
    normal, my, mz = (float(forces[k]) for k in (0, 4, 5))
    moduli = material.proof, material.E, material.nu
    try:
        y, z = effective_section(section.midline, (normal, my, mz), *moduli).shift
        found = effective_section(section.midline, (normal, my - normal * z, mz + normal * y), *moduli)
    except ValueError as error:
        return f"judge it by its effective section: {error}"
    return (
        f"on its effective section normal stress reaches {1 / found.factor:.2f} of the proof stress (EN 1993-1-5 "
        "4.3, from memory; no warping, no shear)"
    )


def describe_wall(section: Section, part: PlatePart) -> str:
    """A wall in words: how it is held, its width over thickness, and where its middle is."""
    y, z = part.middle - section.centroid + 0.0
    at = f"at y {y:.0f} z {z:.0f} of centroid".replace("-0 ", "0 ")
    if part.kind == "curved":
        return f"curved wall, d/t {part.round_slender:.1f}, {at}"
    kind = "flat" if part.kind == "internal" else "free flange"
    return f"{kind} {part.width:.1f} x {part.thickness:.1f} mm, c/t {part.slender:.1f}, {at}"
