"""Random modules with everything that a load path can meet: for properties that hold whatever the numbers."""

import numpy as np
from small_models import bare_section, build, case, frame, grade, joint, member

from loadpath.model import (
    BushingRates,
    ForceElement,
    LineLoad,
    LumpedMass,
    Part,
    PointLoad,
    Settlement,
    Wheel,
)

STEEL = grade(density=7.85e-9)
MOUNTS = {"m1": (400, 500, 300), "m2": (-350, 510, 330), "m3": (390, -500, 310), "m4": (-340, -490, 300)}


def skew_section(rng):
    """A section with all couplings: oblique axes and a shear centre off the centroid."""
    iy, iz = rng.uniform(2e5, 9e5, 2)
    return bare_section(
        rng.uniform(600, 1500),
        iy,
        iz,
        rng.uniform(2e5, 8e5),
        Iyz=rng.uniform(-0.3, 0.3) * min(iy, iz),
        shear_areas=tuple(rng.uniform(300, 700, 2)),
        shear_centre=tuple(rng.uniform(-15, 15, 2)),
    )


def rates(rng):
    return BushingRates(
        rng.uniform(800, 4000),
        tuple(rng.uniform(3000, 15000, 2)),
        rng.uniform(0, 1e5),
        tuple(rng.uniform(0, 3e5, 2)),
    )


def random_module(seed):
    """A cradle on four elastic mounts, two arms, a knuckle with a wheel, a link, a locked spring, a damper.

    The link ends on the body at the cradle's own mount m2.
    """
    rng = np.random.default_rng(seed)
    points = {
        "ball": (0, 750, 210),
        "top": (-10, 700, 490),
        "arm1": (160, 350, 230),
        "arm2": (-180, 350, 225),
        "up1": (120, 430, 480),
        "up2": (-130, 430, 470),
        "rod": (-150, 730, 260),
        "low": (-80, 600, 230),
        "high": (-90, 560, 660),
        "c1": (165, 390, 260),
        "c2": (-180, 385, 262),
        "c3": (160, -390, 255),
        "c4": (-175, -385, 262),
        "wheel": (0, 845, 350),
        **MOUNTS,
    }
    points = {k: np.array(v) + rng.uniform(-15, 15, 3) for k, v in points.items()}

    def rail(name, *path):
        return member(
            name, path, skew_section(rng), STEEL, up=(*rng.uniform(-0.2, 0.2, 2), 1.0), offset=(4.0, -3.0)
        )

    cradle = frame(
        "cradle",
        rail("left", "m1", "c1", "c2", "m2"),
        rail("right", "m3", "c3", "c4", "m4"),
        rail("front", "c1", "c3"),
        rail("rear", "c2", "c4"),
        brackets={"arm1": "c1", "arm2": "c2"},
    )
    lower = frame("lower", rail("a", "arm1", "ball"), rail("b", "arm2", "low", "ball"))
    upper = frame("upper", rail("a", "up1", "top"), rail("b", "up2", "top"))
    toe = Part("toe", "link", (member("rod", ("rod", "m2"), bare_section(200, 1e4, 1e4, 2e4), STEEL),))

    def bushing(name, a, b, point):
        return joint(name, "bushing", a, b, point, rng.uniform(-1, 1, 3), rates(rng))

    joints = [
        bushing("m1", "cradle", "body", "m1"),
        bushing("m2", "body", "cradle", "m2"),
        joint("m3", "ball", "cradle", "body", "m3"),
        bushing("m4", "cradle", "body", "m4"),
        bushing("arm1", "lower", "cradle", "arm1"),
        bushing("arm2", "cradle", "lower", "arm2"),
        bushing("up1", "upper", "body", "up1"),
        bushing("up2", "body", "upper", "up2"),
        joint("ball", "ball", "lower", "knuckle", "ball"),
        joint("top", "ball", "knuckle", "upper", "top"),
        joint("rod", "ball", "toe", "knuckle", "rod"),
        bushing("link_end", "toe", "body", "m2"),
    ]
    spring = ForceElement("spring", ("lower", "body"), ("low", "high"), "w", True, 0.0, 100.0)
    damper = ForceElement(
        "damper", ("body", "lower"), ("high", "low"), "w", False, rng.uniform(200, 900), 0.0
    )
    return build(
        points,
        [cradle, lower, upper, toe, Part("knuckle", "rigid")],
        joints,
        forces=[spring, damper],
        masses=[
            LumpedMass("hub", "knuckle", "wheel", 0.05, np.zeros((3, 3))),
            LumpedMass("bracket", "cradle", "c1", 0.002, np.zeros((3, 3))),
        ],
        wheels=[Wheel("w", "knuckle", "wheel", 330.0, "rear", True, "outboard", None, "none", None)],
        body_rates={p: rng.uniform(5e3, 3e4, 3) for p in ("m1", "m2", "m4", "up1")},
    )


def random_cases(model, seed, still=False):
    """Load cases; still: with point loads alone, nothing that moves the ground and no load along members."""
    rng = np.random.default_rng(seed + 1000)

    def at(part, point):
        force, moment = rng.uniform(-1e4, 1e4, 3), rng.uniform(-1e6, 1e6, 3)
        return PointLoad(
            part,
            point,
            model.points[point] + rng.uniform(-200, 200, 3) * (part == "knuckle"),
            force,
            moment,
            f"load on {part}",
        )

    first = case(
        at("knuckle", "wheel"), field=np.zeros(3) if still else rng.uniform(-1e4, 1e4, 3), name="one"
    )
    if still:
        return [first, case(at("cradle", "c4"), at("lower", "low"), name="two")]
    more = case(
        at("cradle", "c4"),
        at("body", "m2"),
        field=rng.uniform(-1e4, 1e4, 3),
        name="two",
        line_loads=(LineLoad("cradle", "rear", rng.uniform(-5, 5, 3), "line load"),),
        settlements=(Settlement("m4", rng.uniform(-1, 1, 3), rng.uniform(-1e-3, 1e-3, 3)),),
        part_fields={"lower": rng.uniform(-3e4, 3e4, 3)},
    )
    return [first, more]
