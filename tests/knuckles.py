"""Knuckles of invented geometry whose statics have closed forms. x forward, y left, z up; left wheels."""

import numpy as np
from small_models import bare_section, build, frame, joint, link, member

from loadpath.model import ForceElement, Part, PointLoad, Wheel

ROD = bare_section(400, 1e4, 1e4, 2e4)
BEAM = bare_section(1000, 3e5, 3e5, 5e5)
CENTRE, PATCH = np.array([0, 780.0, 320]), np.array([0, 785.0, 0])

FIVE_LINKS = {
    "front_lower": ((35, 720, 215), (260, 380, 230)),
    "rear_lower": ((-30, 715, 205), (-210, 350, 225)),
    "front_upper": ((40, 690, 455), (190, 420, 470)),
    "rear_upper": ((-35, 685, 460), (-180, 430, 480)),
    "toe": ((-130, 700, 300), (-140, 370, 315)),
    "spring_damper": ((-40, 690, 230), (-30, 560, 640)),
}


def at_patch(part, *forces):
    return [PointLoad(part, "centre", PATCH, np.array(f, dtype=float), np.zeros(3), "ground") for f in forces]


def five_link_axle():
    points = {"centre": CENTRE}
    parts, joints = [Part("knuckle", "rigid")], []
    for name, (outer, inner) in FIVE_LINKS.items():
        points[f"{name}_k"], points[f"{name}_b"] = outer, inner
        if name == "spring_damper":
            continue
        parts.append(link(name, f"{name}_k", f"{name}_b", ROD))
        joints.append(joint(f"{name}_k", "ball", name, "knuckle", f"{name}_k"))
        joints.append(joint(f"{name}_b", "ball", name, "body", f"{name}_b"))
    wheel = Wheel("w", "knuckle", "centre", 320, "rear", True, "outboard", None, "none", None)
    spring = ForceElement(
        "spring_damper", ("knuckle", "body"), ("spring_damper_k", "spring_damper_b"), "w", True, 0.0, 35.0
    )
    return build(points, parts, joints, forces=[spring], wheels=[wheel])


def double_wishbone():
    """Two legs above, an arm with the spring below, a toe link."""
    points = {
        "ubj": (-10, 690, 470),
        "u1": (140, 450, 490),
        "u2": (-150, 440, 480),
        "lbj": (15, 730, 200),
        "l1": (190, 360, 220),
        "l2": (-200, 350, 225),
        "to": (-130, 715, 260),
        "ti": (-145, 380, 275),
        "sl": (5, 600, 225),
        "su": (0, 520, 640),
        "centre": CENTRE,
    }
    arm = frame(
        "arm",
        member("front", ("l1", "sl"), BEAM),
        member("rear", ("l2", "sl"), BEAM),
        member("outer", ("sl", "lbj"), BEAM),
    )
    parts = [
        Part("knuckle", "rigid"),
        arm,
        link("leg1", "u1", "ubj", ROD),
        link("leg2", "u2", "ubj", ROD),
        link("toe", "ti", "to", ROD),
    ]
    joints = [
        joint("lbj", "ball", "arm", "knuckle", "lbj"),
        joint("ubj1", "ball", "leg1", "knuckle", "ubj"),
        joint("ubj2", "ball", "leg2", "knuckle", "ubj"),
        joint("to", "ball", "toe", "knuckle", "to"),
        joint("u1", "ball", "leg1", "body", "u1"),
        joint("u2", "ball", "leg2", "body", "u2"),
        joint("ti", "ball", "toe", "body", "ti"),
        joint("l1", "ball", "arm", "body", "l1"),
        joint("l2", "ball", "arm", "body", "l2"),
    ]
    wheel = Wheel("w", "knuckle", "centre", 320, "rear", True, "outboard", None, "none", None)
    spring = ForceElement("spring", ("arm", "body"), ("sl", "su"), "w", True, 0.0, 35.0)
    return build(points, parts, joints, forces=[spring], wheels=[wheel])
