"""What a solution says of itself: balances from recovered forces, condition, size of rotations."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.solve import Solution
from loadpath.model import BODY

Array = NDArray[np.float64]

WARN, REFUSE = 1e-9, 1e-6
SMALL = 0.01
LARGE_ROTATION = np.radians(5.0)


@dataclass(frozen=True)
class SelfCheck:
    """Self-checks of one load case.

    Attributes
    ----------
    equilibrium : largest closing error of a part under the recovered forces, relative to the forces on it;
        worst_part is that part.
    balance : closing error of wheels, masses and mounts together, relative.
    idle : moment on an idle spin, relative to force times length.
    rotation : largest rotation of a block [rad], and the part that it belongs to.
    warnings, refusals : sentences; with a refusal nothing of the case may be shown as a result.
    """

    case: str
    equilibrium: float
    worst_part: str
    balance: float
    idle: float
    rotation: float
    rotating_part: str
    warnings: tuple[str, ...]
    refusals: tuple[str, ...]


def self_checks(solution: Solution) -> tuple[SelfCheck, ...]:
    """One record for each load case."""
    closing, parts = _part_closing(solution)
    balance, idle = _balance(solution), _idle(solution)
    turning = np.linalg.norm(solution.movement[:, 3:], axis=1)
    return tuple(
        _judge(solution, c, closing[:, c], parts, balance[c], idle[:, c], turning[:, c])
        for c in range(len(solution.cases))
    )


def _judge(
    solution: Solution, c: int, closing: Array, parts: list[str], balance: float, idle: Array, turning: Array
) -> SelfCheck:
    worst, block = int(closing.argmax()), int(turning.argmax())
    owner = solution.system.mesh.owners[block]
    warnings, refusals = [], []
    for spin, moment in zip(solution.system.spins, idle, strict=True):
        if not moment <= REFUSE:
            refusals.append(
                f"{spin.part} turns about the line {spin.points[0]} - {spin.points[1]}: the loads turn it and "
                "nothing holds it"
            )
    for what, error in (
        (f"the forces on {parts[worst]}", closing[worst]),
        ("wheels, masses and mounts", balance),
    ):
        text = f"{what} close only to {error:.1e} of their size"
        if not error <= REFUSE:
            refusals.append(text)
        elif error > WARN:
            warnings.append(text)
    if turning[block] > LARGE_ROTATION:
        warnings.append(
            f"{owner} turns by more than {np.degrees(LARGE_ROTATION):.0f} degrees, so that the geometry of the "
            "undeformed pose no longer holds for it"
        )
    return SelfCheck(
        case=solution.cases[c].name,
        equilibrium=float(closing[worst]),
        worst_part=parts[worst],
        balance=float(balance),
        idle=float(idle.max(initial=0.0)),
        rotation=float(turning[block]),
        rotating_part=owner,
        warnings=tuple(warnings),
        refusals=tuple(refusals),
    )


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
            continue  # a free push is among the loads on the blocks
        a, b = (model.points[p] for p in element.ends)
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
    """(nc,) relative closing error of everything from outside against the ground under the body."""
    mesh = solution.system.mesh
    wrenches = np.concatenate([solution.loads, _line_totals(solution), solution.ground_forces])
    total, size, span = _sum(wrenches, np.concatenate([mesh.positions] * 3))
    error = np.maximum(np.abs(total[:3]).max(axis=0), np.abs(total[3:]).max(axis=0) / span)
    relative: Array = error / np.where(size > 0, size, 1.0)
    return relative


def _idle(solution: Solution) -> Array:
    """(ns, nc) moments on idle spins relative to the largest force times the model's span."""
    span = max(float(np.ptp(solution.system.mesh.positions, axis=0).max(initial=0.0)), 1.0)
    force = np.abs(solution.joint_forces[:, :3]).max(axis=(0, 1), initial=0.0)
    relative: Array = np.abs(solution.spin_moments) / np.where(force > 0, force * span, 1.0)
    return relative
