"""Naming what moves: from zero-energy vectors to sentences about parts, points and lines."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csc_array, eye_array
from scipy.sparse.linalg import splu

from loadpath.frame.mesh import Mesh
from loadpath.model import BODY, Model

Array = NDArray[np.float64]

_MOST = 24
_STILL = 1e-5
_NO_ENERGY = 2e-14


def zero_energy_motions(matrix: csc_array) -> Array:
    """(nq, k) basis of the vectors that a scaled stiffness matrix does not resist.

    Subspace iteration on a slightly shifted matrix; the basis is reduced so that each vector moves as few
    freedoms as possible.
    """
    n = matrix.shape[0]
    shift = 1e-13
    factor = splu((matrix + shift * eye_array(n, format="csc")).tocsc())
    v = np.random.default_rng(1).standard_normal((n, min(_MOST, n)))
    for _ in range(6):
        v, _ = np.linalg.qr(factor.solve(v))
    values, turn = np.linalg.eigh(v.T @ (matrix @ v))
    v = (v @ turn)[:, values < _NO_ENERGY]
    return _sparsest(v)


def _sparsest(v: Array) -> Array:
    """Column-reduced form: each column has a one at a freedom of its own where all others have zero."""
    v = v.copy()
    used: list[int] = []
    for k in range(v.shape[1]):
        free = np.abs(v[:, k])
        free[used] = 0.0
        pivot = int(free.argmax())
        v[:, k] /= v[pivot, k]
        for other in range(v.shape[1]):
            if other != k:
                v[:, other] -= v[pivot, other] * v[:, k]
        used.append(pivot)
    return v


def describe_motions(model: Model, mesh: Mesh, motions: Array) -> tuple[str, ...]:
    """One sentence for each motion (6 nb, k)."""
    found = [_sentence(model, mesh, motions[:, k].reshape(-1, 6)) for k in range(motions.shape[1])]
    return tuple(sentence for _, sentence in sorted(found, key=lambda x: x[0]))


def _sentence(model: Model, mesh: Mesh, motion: Array) -> tuple[int, str]:
    """How many parts move, and the sentence that says how."""
    owners = np.array(mesh.owners)
    span = np.ptp(mesh.positions, axis=0).max(initial=1.0)
    size = np.abs(motion[:, :3]).max(axis=1) + span * np.abs(motion[:, 3:]).max(axis=1)
    largest = size.max()
    moving = [
        p for p in dict.fromkeys(mesh.owners) if p != BODY and size[owners == p].max() > _STILL * largest
    ]
    phrases = [_part_phrase(model, mesh, p, motion, span) for p in moving]
    shown = "; ".join(phrases[:4])
    more = f"; {len(phrases) - 4} more parts follow" if len(phrases) > 4 else ""
    return len(moving), f"{shown}{more}: nothing holds it{_joints_of(model, moving)}"


def _joints_of(model: Model, moving: list[str]) -> str:
    """The joints of a part that moves alone, or the ones that tie a moving group to what stands still."""
    names = [j.name for j in model.joints.values() if len(set(j.between) & set(moving)) == 1]
    few = ", ".join(names[:6]) + (f" and {len(names) - 6} more" if len(names) > 6 else "")
    return f" (joints to the rest: {few})" if names else " (no joint ties it to the rest)"


def _part_phrase(model: Model, mesh: Mesh, part: str, motion: Array, span: float) -> str:
    blocks = [b for b, owner in enumerate(mesh.owners) if owner == part]
    rigid, residual = _rigid_fit(mesh.positions[blocks], motion[blocks])
    scale = np.abs(motion[blocks, :3]).max() + span * np.abs(motion[blocks, 3:]).max()
    if residual > 1e-4 * scale:
        return _loose_points(mesh, part, blocks, motion)
    push, turn = rigid[:3], rigid[3:]
    if np.linalg.norm(turn) * span < 1e-6 * np.linalg.norm(push):
        return f"{part} moves along {_direction(model, push)}"
    axis = turn / np.linalg.norm(turn)
    origin = np.cross(turn, push) / (turn @ turn)
    slide = (push @ axis) / np.linalg.norm(turn)
    line = _line(model, mesh, part, origin, axis)
    if abs(slide) > 1e-3 * span:
        return f"{part} turns about and slides along {line}"
    return f"{part} turns about {line}"


def _rigid_fit(positions: Array, motion: Array) -> tuple[Array, float]:
    """Rigid motion (6,) about the origin that fits the blocks' motions best, and the largest misfit."""
    n = len(positions)
    rows = np.zeros((n, 6, 6))
    rows[:, :3, :3] = rows[:, 3:, 3:] = np.eye(3)
    x, y, z = positions.T
    rows[:, 0, 4], rows[:, 0, 5] = z, -y
    rows[:, 1, 3], rows[:, 1, 5] = -z, x
    rows[:, 2, 3], rows[:, 2, 4] = y, -x
    fit = np.asarray(np.linalg.lstsq(rows.reshape(-1, 6), motion.ravel(), rcond=None)[0], dtype=np.float64)
    misfit = motion - rows @ fit
    reach = np.ptp(positions, axis=0).max(initial=0.0) or 1.0
    return fit, float(np.abs(misfit[:, :3]).max() + reach * np.abs(misfit[:, 3:]).max())


def _loose_points(mesh: Mesh, part: str, blocks: list[int], motion: Array) -> str:
    turning = np.abs(motion[blocks, 3:]).max(axis=1)
    order = np.argsort(-turning)
    names = [mesh.names[blocks[i]] for i in order[:3] if turning[i] > 0.1 * turning.max()]
    return f"{part} bends without resistance at {', '.join(names)} (a released end)"


def _direction(model: Model, vector: Array) -> str:
    unit = vector / np.linalg.norm(vector)
    words = (("forward", model.axes.forward), ("left", model.axes.left), ("up", model.axes.up))
    for word, axis in words:
        if abs(unit @ axis) > 0.999:
            return word
    return "(" + ", ".join(f"{c + 0.0:.2f}" for c in np.round(unit, 2)) + ")"


def _line(model: Model, mesh: Mesh, part: str, origin: Array, axis: Array) -> str:
    """Name a line by two points of the part on it, by one point and a direction, or by numbers."""
    own = [point for owner, point in mesh.places if owner == part and point]
    arms = np.array([model.points[p] - origin for p in own])
    off = np.linalg.norm(arms - np.outer(arms @ axis, axis), axis=1)
    reach = max(float(np.ptp(arms, axis=0).max()), 1.0)
    on = [(float(a @ axis), p) for a, p, d in zip(arms, own, off, strict=True) if d < 1e-3 * reach]
    if len(on) >= 2:
        return f"the line {min(on)[1]} - {max(on)[1]}"
    if on:
        return f"{on[0][1]} along {_direction(model, axis)}"
    at = ", ".join(f"{c:.0f}" for c in origin)
    return f"the line through ({at}) along {_direction(model, axis)}"
