"""Rigid parts that stand still: they are made part of the body, which leaves fewer constraints to contradict."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from loadpath.model import BODY, BodyMount, Joint, Model

Array = NDArray[np.float64]

_ON_LINE = 1e-3
"""Points are on a line when they spread aside by less than this share of its length."""


def grounded(model: Model) -> Model:
    """The model with rigid parts that ideal joints hold still on a rigid body made part of it, one after another.

    Parts that carry a wheel stay what they are.
    """
    carriers = {w.part for w in model.wheels.values()}
    while True:
        fixed = {p for p in model.parts if p not in carriers and _held_still(model, p)}
        if not fixed:
            return model
        model = _with_the_body(model, fixed)


def _held_still(model: Model, part: str) -> bool:
    """True for a rigid part on one joint to the body that holds everything, or on points of it not on one line."""
    if model.parts[part].kind != "rigid":
        return False
    own = list(_holding(model, part))
    if any(j.kind in ("welded", "bolted") or j.rack for j in own):
        return True
    at = np.array([model.points[j.point] for j in own if j.kind in ("ball", "hinge")])
    if len(at) < 3:
        return False
    spread = np.linalg.svd(at - at.mean(axis=0), compute_uv=False)
    return bool(spread[1] > _ON_LINE * spread[0])


def _holding(model: Model, part: str) -> Iterator[Joint]:
    """Ideal joints of a part to points at which the body is rigid."""
    for joint in model.joints.values():
        ideal = set(joint.between) == {part, BODY} and joint.rates is None
        if ideal and model.body_mounts[joint.point].rates is None:
            yield joint


def _with_the_body(model: Model, fixed: set[str]) -> Model:
    joints = {name: replace(j, between=_on_body(j.between, fixed)) for name, j in model.joints.items()}
    struts = {
        name: replace(e, between=_on_body(e.between, fixed)) for name, e in model.force_elements.items()
    }
    joints = {name: j for name, j in joints.items() if j.between != (BODY, BODY)}
    struts = {name: e for name, e in struts.items() if e.between != (BODY, BODY)}
    used = [j.point for j in joints.values() if BODY in j.between]
    used += [p for e in struts.values() for part, p in zip(e.between, e.ends, strict=True) if part == BODY]
    return replace(
        model,
        parts={name: part for name, part in model.parts.items() if name not in fixed},
        joints=joints,
        force_elements=struts,
        masses={name: m for name, m in model.masses.items() if m.part not in fixed},
        body_mounts={p: model.body_mounts.get(p, BodyMount(p, None, False)) for p in used},
    )


def _on_body(between: tuple[str, str], fixed: set[str]) -> tuple[str, str]:
    first, second = (BODY if part in fixed else part for part in between)
    return first, second
