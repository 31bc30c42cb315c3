"""Tables of strain energy: which member, bushing or body point gives, and by what."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from loadpath.checks import Analysis, Stretch
from loadpath.report.poses import case_words
from loadpath.report.table import Cell, Column, Table
from loadpath.trace import SPLIT, Energies, strain_energies

Array = NDArray[np.float64]

_ENERGY = (Column("energy", "J", 2), Column("share of part", "%", 1), Column("share of all", "%", 1))


def energies_of(analysis: Analysis) -> Energies:
    """Strain energies in all load cases, whatever their pose."""
    found = {s.numbers: strain_energies(s.solution) for s in analysis.solved}
    return Energies(
        elements=analysis.together(lambda s: found[s.numbers].elements),
        ends=analysis.together(lambda s: found[s.numbers].ends),
        joints=analysis.together(lambda s: found[s.numbers].joints),
        body=analysis.together(lambda s: found[s.numbers].body),
    )


def inside_table(analysis: Analysis, energies: Energies, part: str, c: int) -> Table:
    """Strain energy of each member of a part in one load case, and the actions that make it."""
    case = analysis.cases[c].name
    return Table(
        f"inside_{part}_{case}",
        f"Inside {part}: where it gives, load case {case_words(analysis, c)}",
        (Column("member"), *_ENERGY, *(Column(f"by {word}", "%", 1) for word in (*SPLIT, "ends"))),
        tuple(row[2:] for row in _member_rows(analysis, energies, [c]) if row[0] == part),
        (
            "Strain energy: section forces with the section's compliance, along the member; the actions add up to "
            "100 %. Share of all: of everything that gives, bushings and body included.",
        ),
    )


def energy_table(analysis: Analysis, energies: Energies) -> Table:
    """Strain energy of every member in every load case, for files."""
    return Table(
        "member_energy",
        "Strain energy of the members",
        (
            *(Column(h) for h in ("part", "load case", "member")),
            *_ENERGY,
            *(Column(f"by {word}", "%", 1) for word in (*SPLIT, "ends")),
        ),
        tuple(_member_rows(analysis, energies, analysis.shown)),
    )


def _member_rows(analysis: Analysis, energies: Energies, cases: Sequence[int]) -> list[tuple[Cell, ...]]:
    rows: list[tuple[Cell, ...]] = []
    for c in cases:
        split = {stretch.name: _split(energies, stretch, c) for stretch in analysis.members}
        parts: dict[str, float] = {}
        for stretch in analysis.members:
            part = stretch.part.name
            parts[part] = parts.get(part, 0.0) + float(split[stretch.name].sum())
        for stretch in analysis.members:
            own, part = split[stretch.name], stretch.part.name
            whole = float(own.sum())
            shares = [_percent(whole, parts[part]), _percent(whole, float(energies.total[c]))]
            by = [_percent(float(x), whole) for x in own]
            rows.append((part, analysis.cases[c].name, stretch.name, whole / 1e3, *shares, *by))
    return rows


def _split(energies: Energies, stretch: Stretch, c: int) -> Array:
    """(5,) energy of a member by SPLIT, and in its semi-rigid ends [N·mm]."""
    members = energies.elements[stretch.elements, :, c].sum(axis=0)
    return np.append(members, energies.ends[stretch.elements, c].sum())


def _percent(part: float, whole: float) -> float | None:
    return 100 * part / whole if whole > 0 else None


def where_it_gives(analysis: Analysis, energies: Energies, cases: Sequence[int], least: float = 0.0) -> Table:
    """Strain energy of every part, of the bushings by the parts they tie, and of the body.

    least : smallest share of all [%] that is given.
    """
    rows: list[tuple[Cell, ...]] = []
    for c in cases:
        sums: dict[tuple[str, str], float] = {}
        for stretch in analysis.members:
            key = "members of", stretch.part.name
            sums[key] = sums.get(key, 0.0) + float(_split(energies, stretch, c).sum())
        for name, energy in zip(analysis.joint_names, energies.joints[:, c], strict=True):
            joint = analysis.model.joints[name]
            if joint.rates is not None:
                key = "bushings between", " and ".join(joint.between)
                sums[key] = sums.get(key, 0.0) + float(energy)
        sums["body behind its points", "-"] = float(energies.body[c])
        whole = float(energies.total[c])
        listed = sorted(sums.items(), key=lambda item: -item[1])
        shares = [(key, e, _percent(e, whole)) for key, e in listed]
        rows += [
            (analysis.cases[c].name, *key, e / 1e3, share)
            for key, e, share in shares
            if not least or (share or 0.0) >= least
        ]
    return Table(
        "energy",
        "Where it gives: strain energy",
        (
            Column("load case"),
            Column("what"),
            Column("of"),
            Column("energy", "J", 2),
            Column("share", "%", 1),
        ),
        tuple(rows),
        (f"Under {least:g} % is left out.",) if least else (),
    )
