"""What a solution says of itself: balances from recovered forces, condition, size of rotations."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.power import power_error
from loadpath.frame.solution import Solution
from loadpath.model import BODY, LoadCase, weights

Array = NDArray[np.float64]

WARN, REFUSE = 1e-9, 1e-6
POWER = 1e-8
SMALL = 0.01
FREEDOMS = ("axial", "radial", "second radial", "torsional", "conical", "second conical")
LARGE_ROTATION, WILD_ROTATION = np.radians(5.0), np.radians(30.0)
WILD = (
    "far beyond what a solution at the undeformed pose can mean; look for a missing spring, strut or joint, or a "
    "modulus or rate in the wrong unit"
)
"""How a refusal of wild rotations ends, after the parts with their angles."""


@dataclass(frozen=True)
class SelfCheck:
    """Self-checks of one load case.

    Attributes
    ----------
    equilibrium : largest closing error of a part under the recovered forces, relative to the forces on it;
        worst_part is that part.
    balance : closing error of given loads, every mass in its field, and the body's supports, relative.
    power : of a load case in a pose, the power of all forces on the mechanism's velocity field that is left over,
        relative; None at design height.
    idle : parts whose idle spin the loads turn.
    turning : parts that turn by more than LARGE_ROTATION, with their angle [rad], largest first: a warning, as
        the geometry of the undeformed pose no longer holds for them.
    rotation : largest rotation of a part [rad].
    warnings, refusals : sentences; with a refusal nothing of the case may be shown as a result.
    """

    case: str
    equilibrium: float
    worst_part: str
    balance: float
    power: float | None
    idle: tuple[str, ...]
    turning: tuple[tuple[str, float], ...]
    rotation: float
    warnings: tuple[str, ...]
    refusals: tuple[str, ...]


def self_checks(solution: Solution) -> tuple[SelfCheck, ...]:
    """One record for each load case."""
    closing, parts = _part_closing(solution)
    balance, idle, turning = _balance(solution), _idle(solution), _turning(solution)
    power = power_error(solution)
    return tuple(
        _judge(
            solution,
            c,
            dict(zip(parts, closing[:, c], strict=True)),
            balance[c],
            None if power is None else float(power[c]),
            idle[:, c],
            turning[c],
        )
        for c in range(len(solution.cases))
    )


def _judge(
    solution: Solution,
    c: int,
    closing: dict[str, float],
    balance: float,
    power: float | None,
    idle: Array,
    turning: dict[str, float],
) -> SelfCheck:
    worst = max(closing, key=lambda part: closing[part]) if closing else ""
    spun = [s for s, moment in zip(solution.system.spins, idle, strict=True) if not moment <= REFUSE]
    refusals = [
        f"{s.part} turns about the line {s.points[0]} - {s.points[1]}: the loads turn it and nothing holds it"
        for s in spun
    ]
    errors = {f"the forces on {worst}": closing.get(worst, 0.0), "loads, masses and mounts": balance}
    texts = {f"{what} close only to {error:.1e} of their size": error for what, error in errors.items()}
    refusals += [text for text, error in texts.items() if not error <= REFUSE]
    if power is not None and not power <= POWER:
        refusals.append(
            f"the power of all forces on the motion of the linkage vanishes only to {power:.1e}: pose and forces do "
            "not belong together"
        )
    wild = [part for part, angle in turning.items() if not angle <= WILD_ROTATION]
    if wild:
        refusals.append(f"{_angles(wild, turning)}: {WILD}")
    large = {p: a for p, a in sorted(turning.items(), key=lambda x: -x[1]) if a > LARGE_ROTATION}
    warnings = [text for text, error in texts.items() if WARN < error <= REFUSE]
    warnings += _beyond_tables(solution, c)
    return SelfCheck(
        case=solution.cases[c].name,
        equilibrium=closing.get(worst, 0.0),
        worst_part=worst,
        balance=float(balance),
        power=power,
        idle=tuple(s.part for s in spun),
        turning=tuple(large.items()),
        rotation=max(turning.values(), default=0.0),
        warnings=tuple(warnings),
        refusals=tuple(refusals),
    )


def _beyond_tables(solution: Solution, c: int) -> list[str]:
    """What moves beyond the measured points of its force-deflection table."""
    springs, found = solution.system.springs, []
    for (k, i, _), beyond in zip(springs.curves, solution.beyond[:, c], strict=True):
        if beyond > 0:
            by = f"{beyond:.2g} mm" if i < 3 else f"{np.degrees(beyond):.2g} degrees"
            found.append(
                f"{springs.names[k]} moves {by} beyond its {FREEDOMS[i]} table, which is drawn on straight"
            )
    return found


def _angles(parts: list[str], turning: dict[str, float]) -> str:
    return ", ".join(f"{part} turns by {np.degrees(turning[part]):.1f} degrees" for part in parts)


def _turning(solution: Solution) -> list[dict[str, float]]:
    """Largest rotation [rad] of each part in each load case."""
    owners = np.array(solution.system.mesh.owners)
    angles = np.linalg.norm(solution.movement[:, 3:], axis=1)
    parts = [p for p in dict.fromkeys(solution.system.mesh.owners) if p != BODY]
    largest = {p: angles[owners == p].max(axis=0) for p in parts}
    return [{p: float(a[c]) for p, a in largest.items()} for c in range(len(solution.cases))]


def _part_closing(solution: Solution) -> tuple[Array, list[str]]:
    """(np, nc) relative closing error of every part.

    Each part is cut free: its joints' recovered forces, the pushes on it, its loads and the line loads on its
    members must close in force and in moment; the residual of its blocks counts as well. Relative to the
    largest force on the part, or to SMALL of the largest joint force where the part carries next to nothing.
    """
    largest = SMALL * np.abs(solution.joint_forces[:, :3]).max(axis=(0, 1), initial=0.0)
    sides = _joint_sides(solution)
    line = _line_totals(solution)
    mesh = solution.system.mesh
    parts = [p for p in dict.fromkeys(mesh.owners) if p != BODY]
    nc = len(solution.cases)
    errors = np.zeros((len(parts), nc))
    owners = np.array(mesh.owners)
    for i, part in enumerate(parts):
        wrenches, positions = sides.get(part, (np.zeros((0, 6, nc)), np.zeros((0, 3))))
        blocks = owners == part
        all_wrenches = np.concatenate([wrenches, solution.loads[blocks], line[blocks]])
        all_positions = np.concatenate([positions, mesh.positions[blocks], mesh.positions[blocks]])
        total, size, span = _sum(all_wrenches, all_positions)
        residual = solution.residual[blocks]
        force = np.maximum(np.abs(total[:3]).max(axis=0), np.abs(residual[:, :3]).max(axis=(0, 1)))
        moment = np.maximum(np.abs(total[3:]).max(axis=0), np.abs(residual[:, 3:]).max(axis=(0, 1)))
        size = np.maximum(size, largest)
        errors[i] = np.maximum(force, moment / span) / np.where(size > 0, size, 1.0)
    return errors, parts


def _sum(wrenches: Array, positions: Array) -> tuple[Array, Array, float]:
    """Resultant (6, nc) about the mean position, size of the forces (nc,) and span [mm]."""
    centre = positions.mean(axis=0)
    arms = positions - centre
    total = wrenches.sum(axis=0)
    total[3:] += np.cross(arms[:, :, None], wrenches[:, :3], axisa=1, axisb=1, axisc=1).sum(axis=0)
    span = max(float(np.abs(arms).max(initial=0.0)), 1.0)
    size = np.maximum(
        np.abs(wrenches[:, :3]).max(axis=(0, 1), initial=0.0),
        np.abs(wrenches[:, 3:]).max(axis=(0, 1), initial=0.0) / span,
    )
    return total, size, span


def _joint_sides(solution: Solution) -> dict[str, tuple[Array, Array]]:
    """For each part the forces (n, 6, nc) that joints and pushes put on it, and where (n, 3)."""
    model = solution.system.model
    share = np.array([case.pushes for case in solution.cases])
    found: dict[str, tuple[list[Array], list[Array]]] = {}

    def add(part: str, wrench: Array, position: Array) -> None:
        lists = found.setdefault(part, ([], []))
        lists[0].append(wrench)
        lists[1].append(position)

    for name, wrench in zip(solution.joint_names, solution.joint_forces, strict=True):
        joint = model.joints[name]
        add(joint.between[0], -wrench, model.points[joint.point])
        add(joint.between[1], wrench, model.points[joint.point])
    for name, push in zip(solution.push_names, solution.pushes, strict=True):
        element = model.force_elements[name]
        if not element.locked:
            push = push - element.force * share  # the given push is among the loads on the blocks
            if not element.free_rate:
                continue
        a, b = (model.at(p, q) for p, q in zip(element.between, element.ends, strict=True))
        line = (b - a) / np.linalg.norm(b - a)
        wrench = np.concatenate([line, np.zeros(3)])[:, None] * push
        add(element.between[0], -wrench, a)
        add(element.between[1], wrench, b)
    return {part: (np.array(w), np.array(p)) for part, (w, p) in found.items()}


def _line_totals(solution: Solution) -> Array:
    """(nb, 6, nc) resultant of each element's line load about its first block."""
    system = solution.system
    ends = system.mesh.elements.ends
    local = system.beams.resultant @ solution.line
    totals = np.zeros_like(solution.loads)
    if len(ends):
        np.add.at(totals, ends[:, 0], np.swapaxes(system.turn[:, :6, :6], 1, 2) @ local)
    return totals


def _balance(solution: Solution) -> Array:
    """(nc,) relative closing error of everything from outside against the ground under the body.

    Taken from the load cases and from masses worked out on their own, not from the load vectors that were
    solved, so that a load or a mass that got lost on the way shows.
    """
    mesh = solution.system.mesh
    masses = weights(solution.system.model)
    weight = masses.forces(solution.cases)
    errors = np.zeros(len(solution.cases))
    for c, case in enumerate(solution.cases):
        given = _given(solution, case)
        ground = solution.ground_forces[:, :, c]
        wrenches = np.concatenate([_forces(weight[:, :, c]), ground, *(w for w, _ in given)])
        positions = np.concatenate([masses.centre, mesh.positions, *(p for _, p in given)])
        total, size, span = _sum(wrenches[:, :, None], positions)
        error = max(np.abs(total[:3]).max(), np.abs(total[3:]).max() / span)
        errors[c] = error / size[0] if size[0] > 0 else error
    return errors


def _forces(forces: Array) -> Array:
    """(n, 6) forces (n, 3) without moments."""
    return np.concatenate([forces, np.zeros_like(forces)], axis=1)


def _given(solution: Solution, case: LoadCase) -> list[tuple[Array, Array]]:
    """Wrenches (n, 6) and positions (n, 3) of the loads that a load case gives outright."""
    given = [(np.concatenate([x.force, x.moment])[None], x.position[None]) for x in case.loads]
    elements = solution.system.mesh.elements
    for load in case.line_loads:
        for e, key in enumerate(zip(elements.part, elements.member, strict=True)):
            if key == (load.part, load.member):
                local = np.array([elements.length[e] / 2, *elements.offset[e]])
                middle = solution.system.mesh.positions[elements.ends[e, 0]] + local @ elements.frame[e]
                given.append((_forces(load.force[None] * elements.length[e]), middle[None]))
    return given


def _idle(solution: Solution) -> Array:
    """(ns, nc) moments on idle spins relative to the largest force times the model's span."""
    span = max(float(np.ptp(solution.system.mesh.positions, axis=0).max(initial=0.0)), 1.0)
    force = np.abs(solution.joint_forces[:, :3]).max(axis=(0, 1), initial=0.0)
    relative: Array = np.abs(solution.spin_moments) / np.where(force > 0, force * span, 1.0)
    return relative
