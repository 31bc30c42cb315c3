"""What load cases put on the blocks and along the elements."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.errors import FrameError
from loadpath.frame.joints import line_of
from loadpath.frame.mesh import Mesh
from loadpath.frame.system import System
from loadpath.model import LoadCase, Model

Array = NDArray[np.float64]


def block_loads(system: System, cases: Sequence[LoadCase]) -> Array:
    """(6 nb, nc) forces and moments on the blocks: point loads, lumped masses in the field, free pushes."""
    model, mesh = system.model, system.mesh
    blocks, columns, arms, forces, moments = [], [], [], [], []
    for c, case in enumerate(cases):
        for load in case.loads:
            block = loaded_block(mesh, load.part, load.point, case.name)
            blocks.append(block)
            columns.append(c)
            arms.append(load.position - mesh.positions[block])
            forces.append(load.force)
            moments.append(load.moment)
    for block, lever, force in _on_every_case(model, mesh, cases):
        blocks.extend([block] * len(cases))
        columns.extend(range(len(cases)))
        arms.extend([lever] * len(cases))
        forces.extend(force)
        moments.extend([_NONE] * len(cases))
    loads = np.zeros((len(mesh.owners), len(cases), 6))
    if blocks:
        f = np.array(forces)
        wrenches = np.concatenate([f, np.array(moments) + np.cross(np.array(arms), f)], axis=1)
        np.add.at(loads, (blocks, columns), wrenches)
    return loads.transpose(0, 2, 1).reshape(-1, len(cases))


_NONE = np.zeros(3)


def _on_every_case(model: Model, mesh: Mesh, cases: Sequence[LoadCase]) -> Iterator[tuple[int, Array, Array]]:
    """Block, lever and force (nc, 3) of each lumped mass in the field and each end of a free push."""
    for mass in model.masses.values():
        block, lever = mesh.places[mass.part, mass.point]
        yield block, lever, mass.mass * np.array([case.field_of(mass.part) for case in cases])
    share = np.array([case.pushes for case in cases])
    for element in model.force_elements.values():
        if element.locked or not element.force:
            continue
        push = np.outer(share, element.force * line_of(model, element))
        for part, point, sign in zip(element.between, element.ends, (-1.0, 1.0), strict=True):
            block, lever = mesh.places[part, point]
            yield block, lever, sign * push


def loaded_block(mesh: Mesh, part: str, point: str, case: str) -> int:
    """Block that takes a load on a part at a point: any point will do on a rigid part."""
    place = mesh.places.get((part, point)) or mesh.places.get((part, ""))
    if place is None:
        raise FrameError(f"load case {case}: {part} has no point {point} to take a load at")
    return place.block


def line_numbers(system: System, cases: Sequence[LoadCase]) -> Array:
    """(ne, 6, nc) line load of each element in its own axes: three components at each end [N/mm].

    The members' own mass in the field, and given line loads.
    """
    elements = system.mesh.elements
    local = elements.frame @ _element_fields(elements.part, cases)
    w = np.concatenate([elements.line_mass[:, :1, None] * local, elements.line_mass[:, 1:, None] * local], 1)
    index: dict[tuple[str, str], list[int]] = {}
    for c, case in enumerate(cases):
        for load in case.line_loads:
            if not index:
                for e, key in enumerate(zip(elements.part, elements.member, strict=True)):
                    index.setdefault(key, []).append(e)
            found = index.get((load.part, load.member))
            if found is None:
                raise FrameError(f"load case {case.name}: {load.part} has no member {load.member}")
            own = elements.frame[found] @ load.force
            w[found, :3, c] += own
            w[found, 3:, c] += own
    return w


def _element_fields(parts: Sequence[str], cases: Sequence[LoadCase]) -> Array:
    """(ne or 1, 3, nc) field on each element's part."""
    if not any(case.part_fields for case in cases):
        return np.array([case.field for case in cases]).T[None]
    by_part = {part: np.array([case.field_of(part) for case in cases]).T for part in set(parts)}
    return np.array([by_part[part] for part in parts]).reshape(-1, 3, len(cases))


def ground_movement(system: System, cases: Sequence[LoadCase]) -> Array:
    """(6 nb, nc) given displacements and rotations of the ground behind body points."""
    moved = np.zeros((len(system.mesh.owners), 6, len(cases)))
    for c, case in enumerate(cases):
        for s in case.settlements:
            block = loaded_block(system.mesh, "body", s.point, case.name)
            moved[block, :3, c] += s.displacement
            moved[block, 3:, c] += s.rotation
    return moved.reshape(-1, len(cases))
