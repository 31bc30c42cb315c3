"""Small linkages for kinematic tests: rigid parts between points; the height of a wheel centre drives them."""

import numpy as np
from small_models import bare_section, build, joint, link

from loadpath.model import ForceElement, Part, Wheel
from loadpath.pose import make_mechanism

X = (1.0, 0.0, 0.0)
"""Axis of hinges in the transverse plane."""
SECTION = bare_section(400, 1e4, 1e4, 2e4)


def driven(part, centre, radius=300.0, **more):
    """A front left wheel on a part; what is not given is as plain as can be."""
    given = {"brake": "outboard", "brake_part": None, "drive": "none", "unit": None} | more
    return Wheel("wheel_l", part, centre, radius, "front", True, **given)


def linkage(points, links, rigids, joints, wheels, forces=()):
    """A mechanism.

    links : name -> (point, part, point, part): rods with a ball at either end.
    joints : (point, kind, a, b) or (point, kind, a, b, axis); the joint is named by its point.
    """
    parts = [Part(name, "rigid") for name in rigids]
    every = [joint(p, kind, a, b, p, *axis) for p, kind, a, b, *axis in joints]
    for name, (p, a, q, b) in links.items():
        parts.append(link(name, p, q, SECTION))
        every += [joint(f"{name}_{p}", "ball", name, a, p), joint(f"{name}_{q}", "ball", name, b, q)]
    return make_mechanism(build(points, parts, every, wheels=wheels, forces=forces))


def spring(part, point, top, wheel="wheel_l", rate=35.0):
    """A spring of a wheel between a part and the body."""
    return ForceElement("spring_l", (part, "body"), (point, top), wheel, True, 0.0, rate)


FIVE_LINKS = {
    "front_lower": ((35, 720, 215), (260, 380, 230)),
    "rear_lower": ((-30, 715, 205), (-210, 350, 225)),
    "front_upper": ((40, 690, 455), (190, 420, 470)),
    "rear_upper": ((-35, 685, 460), (-180, 430, 480)),
    "toe": ((-130, 700, 300), (-140, 370, 315)),
}
"""Ends on knuckle and body: an invented left five-link axle, x forward, y left, z up, mm."""


def five_links(centre=(0, 780, 320), more=None):
    """The five-link axle with its spring; `more` are further points."""
    points = {"wheel": centre, "foot": (-40, 690, 230), "top": (-30, 560, 640)} | (more or {})
    links = {}
    for name, (outer, inner) in FIVE_LINKS.items():
        points |= {f"{name}_k": outer, f"{name}_b": inner}
        links[name] = (f"{name}_k", "knuckle", f"{name}_b", "body")
    wheel = driven("knuckle", "wheel", 320.0)
    return linkage(points, links, ["knuckle"], [], [wheel], [spring("knuckle", "foot", "top")])


WISHBONES = {
    "upper_ball": (-10, 690, 470),
    "upper_front": (140, 450, 490),
    "upper_rear": (-150, 440, 480),
    "lower_ball": (15, 730, 200),
    "lower_front": (190, 360, 220),
    "lower_rear": (-200, 350, 225),
    "toe_outer": (-130, 715, 260),
    "toe_inner": (-145, 380, 275),
    "foot": (5, 600, 225),
    "top": (0, 520, 640),
    "wheel": (0, 780, 320),
}
"""An invented left axle of two wishbones and a toe link, x forward, y left, z up, mm."""


def wishbones(points=None, **wheel):
    """The axle of two wishbones with its spring on the lower one; `points` replace its own."""
    where = WISHBONES | (points or {})
    joints = [(f"upper_{e}", "ball", "upper", "body") for e in ("front", "rear")]
    joints += [(f"lower_{e}", "ball", "lower", "body") for e in ("front", "rear")]
    joints += [("upper_ball", "ball", "upper", "knuckle"), ("lower_ball", "ball", "lower", "knuckle")]
    links = {"toe": ("toe_outer", "knuckle", "toe_inner", "body")}
    own = driven("knuckle", "wheel", 320.0, **wheel)
    return linkage(
        where, links, ["upper", "lower", "knuckle"], joints, [own], [spring("lower", "foot", "top")]
    )


def angle(vector):
    """Angle [deg] of (..., 3) in the transverse plane, from +y towards +z."""
    return np.degrees(np.arctan2(vector[..., 2], vector[..., 1]))
