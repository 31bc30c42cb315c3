"""Section forces of a load case on one section of the case, and what they make there."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from loadpath.checks import Analysis, Stretch
from loadpath.model import TAPER_STATIONS
from loadpath.report.table import Cell, Column, Table
from sections import ACTIONS, Acting, Colour, Section, at_surface, largest_flow, welds_among
from sections.midline import MIRROR_ACTIONS

Array = NDArray[np.float64]

_LONGEST_WELD = 3.0
"""In wall thicknesses; a longer tie stands for ribs across an open section."""
Ints = NDArray[np.intp]


def members_of(analysis: Analysis, name: str) -> list[Stretch]:
    """The members that a section of the case makes, wholly or at some of their points."""
    return [s for s in analysis.members if name in s.member.section_names]


def acting_at_peak(
    analysis: Analysis, name: str, c: int, members: Sequence[Stretch], drawn: Section
) -> tuple[Acting, Stretch]:
    """Forces where the von Mises stress of a section is largest in one load case, in the section's drawn axes; and
    the member that it is in.

    Parameters
    ----------
    name : of the section. c : load case. members : to look at, one at least, see `members_of`.
    drawn : the section as it is drawn. Members of generated twins carry its mirror image: their forces are mirrored
        back, and the words say so.
    """
    best = max(
        (_peak_of(analysis, name, c, stretch) for stretch in members),
        key=lambda found: found[0],
        default=None,
    )
    if best is None:
        raise ValueError(f"no member is made of {name}")
    _, stretch, at = best
    solved, k = analysis.at(c)
    looks, elements = solved.looks, analysis.elements
    element, fraction = int(looks.rows[at]), float(looks.fractions[at])
    section = elements.different[elements.section_at[element, looks.stations[at]]]
    forces, bimoment = looks.forces[at, :, k], float(looks.bimoments[at, k])
    place = f"{analysis.cases[c].name}, {stretch.name} {stretch.place(elements, element, fraction)}"
    if not np.allclose(section.points, drawn.points):
        forces, bimoment = forces * MIRROR_ACTIONS, -bimoment
        place += ", mirrored to the section as drawn"
    words = f"{place}: {forces_words(forces)}"
    if bimoment:
        words += f", bimoment {bimoment / 1e6:.4g} N·m²"
    return Acting(forces, words, bimoment), stretch


def _peak_of(analysis: Analysis, name: str, c: int, stretch: Stretch) -> tuple[float, Stretch, int]:
    """Largest stress of the section along one member, the member, and the place it is at."""
    solved, k = analysis.at(c)
    looks, elements = solved.looks, analysis.elements
    places = np.flatnonzero(np.isin(looks.rows, stretch.elements))
    own = places[_made_of(name, stretch, looks.rows[places], looks.stations[places])]
    found = [
        _demand(
            elements.different[elements.section_at[looks.rows[at], looks.stations[at]]],
            Acting(looks.forces[at, :, k], "", float(looks.bimoments[at, k])),
        )
        for at in own
    ]
    best = int(np.argmax(found))
    return found[best], stretch, int(own[best])


def _made_of(name: str, stretch: Stretch, rows: Ints, stations: Ints) -> NDArray[np.bool_]:
    """Whether the section at places of a member is the named one: all along, or at the ends of tapers."""
    names = stretch.member.section_names
    if len(names) == 1:
        return np.ones(len(rows), dtype=bool)
    number = np.searchsorted(stretch.elements, rows)
    last = stations == len(TAPER_STATIONS) - 1
    here = np.array(names)[number + last]
    between = (stations > 0) & ~last
    prismatic = np.array(names)[number] == np.array(names)[number + 1]
    return np.asarray((here == name) & (~between | prismatic))


def _demand(section: Section, acting: Acting) -> float:
    """Largest von Mises stress, over the strength of the material where that is weaker, as checks take it."""
    stress = at_surface(section, acting, "stress")
    if len(section.strength):
        stress = stress / section.strength
    return float(stress.max(initial=0.0))


def forces_words(forces: Array) -> str:
    """Section forces that are not nothing beside the largest, with units."""
    units = [(1e3, "kN")] * 3 + [(1e3, "N·m")] * 3
    largest = [np.abs(forces[:3]).max(), np.abs(forces[3:]).max()]
    words = [
        f"{action} {force / scale:.4g} {unit}"
        for k, (action, force, (scale, unit)) in enumerate(zip(ACTIONS, forces, units, strict=True))
        if abs(force) > 1e-6 * largest[k // 3]
    ]
    return ", ".join(words) or "no forces"


def stress_table(name: str, acting: Acting, before: Section, after: Section | None = None) -> Table:
    """Extremes of stress at a section's surface, and of shear flow where thin walls serve it.

    after : the section changed; then both are shown with their ratio, under the same forces.
    """
    old = _extremes(before, acting)
    new = old if after is None else _extremes(after, acting)
    heads: tuple[Column, ...] = (Column("value", significant=4),)
    if after is not None:
        heads = (
            Column("before", significant=4),
            Column("after", significant=4),
            Column("after / before", digits=3),
        )
    rows: list[tuple[Cell, ...]] = []
    for key, (unit, value, place) in new.items():
        was = old[key][1] if key in old else None
        shown: tuple[Cell, ...] = (value,)
        if after is not None:
            shown = (was, value, value / was if was else None)
        where = (None, None) if place is None else tuple(float(x) + 0.0 for x in place)
        rows.append((key, unit, *shown, *where))
    notes = [
        f"Under {acting.words}.",
        "Forces at the centroid on the face turned to the viewer (y to the right, z up): My > 0 pulls at the top, "
        "Mz > 0 at the left, T > 0 turns from y to z; tension positive; places in drawing coordinates.",
    ]
    if len((after or before).strength):
        weakest = (after or before).weakest
        notes.append(
            f"Heat-affected zones are weaker, down to {weakest:.2f} of the grade: checks divide stress there by it."
        )
    return Table(
        f"section_{name}_stress",
        f"Stress in {name}",
        (Column("largest"), Column("unit"), *heads, Column("at y", "mm", 1), Column("at z", "mm", 1)),
        tuple(rows),
        tuple(notes),
    )


_EXTREMES: tuple[tuple[str, Colour, int], ...] = (
    ("von Mises stress", "stress", 1),
    ("tension σ", "normal", 1),
    ("compression σ", "normal", -1),
    ("shear stress", "shear", 1),
)


def _extremes(section: Section, acting: Acting) -> dict[str, tuple[str, float, Array | None]]:
    """Unit, value and place of each extreme."""
    found: dict[str, tuple[str, float, Array | None]] = {}
    for key, colour, sign in _EXTREMES:
        values = at_surface(section, acting, colour)
        at = int((sign * values).argmax())
        if colour != "normal" or sign * values[at] > 0:
            found[key] = ("MPa", float(values[at]), section.points[at])
    line = section.midline
    if line is not None and len(line.flow):
        flow, place = largest_flow(line, acting)
        found["shear flow in a wall"] = ("N/mm", flow, place)
        across = np.linalg.norm(np.diff(line.nodes[line.seams], axis=1)[:, 0], axis=1)
        welds = welds_among(line) & (across <= _LONGEST_WELD * line.thickness.max())
        if welds.any():
            through = np.where(welds, np.abs(line.seam_flow @ acting.forces), -1.0)
            at = int(through.argmax())
            middle = line.nodes[line.seams[at]].mean(axis=0)
            found["shear flow through a weld"] = ("N/mm", float(through[at]), middle)
    return found
