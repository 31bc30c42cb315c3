"""Small models for tests: bare sections, one frame part by default, supports by words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from loadpath.model import (
    Axes,
    BodyMount,
    Bracket,
    BushingRates,
    EndFixity,
    Joint,
    LoadCase,
    Material,
    Member,
    Model,
    Part,
    PointLoad,
)
from sections import Section

STEEL_E, STEEL_G = 210000.0, 210000.0 / 2.6
AXES = Axes(np.array([1.0, 0, 0]), np.array([0, 1.0, 0]), np.array([0, 0, 1.0]))
Z = np.array([0, 0, 1.0])
STIFF = 1e8


def bare_section(A, Iy, Iz, J=1e6, Iyz=0.0, shear_areas=None, shear_centre=(0.0, 0.0)):
    """A section of given numbers, without surface points; no shear deformation unless areas are given."""
    areas = shear_areas or (np.inf, np.inf)
    return Section(
        engine="walls",
        area=A,
        centroid=np.zeros(2),
        Iyy=Iy,
        Izz=Iz,
        Iyz=Iyz,
        J=J,
        Cw=0.0,
        shear_centre=np.array(shear_centre, dtype=float),
        shear_tensor=np.diag([1 / areas[0], 1 / areas[1]]),
        Wpl_y=1.0,
        Wpl_z=1.0,
        closed=True,
        box=np.array([[-1.0, -1.0], [1.0, 1.0]]),
        points=np.zeros((0, 2)),
        stress=np.zeros((0, 3, 6)),
    )


def grade(E=STEEL_E, G=STEEL_G, density=0.0):
    return Material("test", E, G, E / (2 * G) - 1, density, 420.0, 480.0, 16.0, "test", False)


def member(name, path, section, material=None, up=Z, offset=(0.0, 0.0), ends=None):
    """A member with one section, or one tuple of sections for each segment."""
    single = isinstance(section, Section)
    sections = tuple((section,) for _ in path[1:]) if single else section
    free = EndFixity()
    return Member(
        name,
        tuple(path),
        sections,
        ("test",),
        material or grade(),
        np.asarray(up, dtype=float),
        np.asarray(offset, dtype=float),
        None,
        ends or (free, free),
    )


def link(name, p, q, section, material=None, up=Z):
    return Part(name, "link", (member("rod", (p, q), section, material, up),))


def frame(name, *members, brackets: Mapping[str, str] | None = None):
    arms = tuple(Bracket(p, c) for p, c in (brackets or {}).items())
    return Part(name, "frame", tuple(members), arms)


def axes_along(direction) -> np.ndarray:
    """(3, 3) rows: the direction and two axes square to it."""
    first = np.asarray(direction, dtype=float)
    first = first / np.linalg.norm(first)
    other = np.eye(3)[int(np.abs(first).argmin())]
    third = np.cross(first, other)
    third = third / np.linalg.norm(third)
    return np.array([first, np.cross(third, first), third])


def joint(name, kind, a, b, point, axis=(1.0, 0, 0), rates: BushingRates | None = None):
    return Joint(name, kind, (a, b), point, axes_along(axis), rates)


def build(
    points: Mapping[str, Sequence[float]],
    parts: Sequence[Part],
    joints: Sequence[Joint] = (),
    supports: Mapping[str, tuple] | None = None,
    forces=(),
    masses=(),
    wheels=(),
    body_rates: Mapping[str, Sequence[float]] | None = None,
    axes: Axes = AXES,
) -> Model:
    """A model on a rigid body (or with `body_rates` by point).

    supports : point -> (part, kind) or (part, kind, axis); kind is a joint kind to the body, or "shoe", a
        rigid shoe that slides along `axis` on the body and carries the part by a ball, or "floor", two such
        slides one on the other that leave only `axis` held.
    """
    all_parts, all_joints = {p.name: p for p in parts}, {j.name: j for j in joints}
    for point, (part, kind, *axis) in (supports or {}).items():
        along = axis[0] if axis else (1.0, 0, 0)
        if kind in ("shoe", "floor"):
            slides = [along] if kind == "shoe" else list(axes_along(along)[1:])
            below = "body"
            for k, direction in enumerate(slides):
                shoe = f"shoe_{point}_{k}"
                all_parts[shoe] = Part(shoe, "rigid")
                all_joints[f"slide_{shoe}"] = joint(f"slide_{shoe}", "slider", shoe, below, point, direction)
                below = shoe
            all_joints[f"at_{point}"] = joint(f"at_{point}", "ball", part, below, point)
        else:
            all_joints[f"at_{point}"] = joint(f"at_{point}", kind, part, "body", point, along)
    elements = {f.name: f for f in forces}
    used = [j.point for j in all_joints.values() if "body" in j.between]
    used += [f.ends[f.between.index("body")] for f in forces if "body" in f.between]
    rates = body_rates or {}
    mounts = {p: BodyMount(p, np.asarray(rates[p], dtype=float) if p in rates else None, False) for p in used}
    return Model(
        "test",
        axes,
        {name: np.asarray(xyz, dtype=float) for name, xyz in points.items()},
        all_parts,
        all_joints,
        elements,
        {m.name: m for m in masses},
        {w.name: w for w in wheels},
        mounts,
    )


def push(model: Model, part: str, point: str, force=(0, 0, 0), moment=(0, 0, 0)) -> PointLoad:
    f, m = np.asarray(force, dtype=float), np.asarray(moment, dtype=float)
    return PointLoad(part, point, model.points[point], f, m, "test load")


def case(*loads, field=(0, 0, 0), name="test", **more) -> LoadCase:
    return LoadCase(name, "given", "rare", np.asarray(field, dtype=float), tuple(loads), **more)


def movement(solution, part, point, c=0):
    """(6,) displacement and rotation of a point of a part in one load case."""
    block, lever = solution.system.mesh.places[part, point]
    u = solution.movement[block, :, c]
    return np.concatenate([u[:3] + np.cross(u[3:], lever), u[3:]])


def joint_force(solution, name, c=0):
    """(6,) force and moment on the second part of a joint."""
    return solution.joint_forces[solution.joint_names.index(name), :, c]
