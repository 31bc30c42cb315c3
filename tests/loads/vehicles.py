"""Vehicles and axles on wheels for the tests of this room; all invented."""

from dataclasses import replace

import numpy as np
from small_models import build as build_model
from small_models import joint

from loadpath.loads import KINDS
from loadpath.loads import build as build_cases
from loadpath.model import Axes, AxleData, Part, Vehicle, Wheel

G = 9806.65
AXES = Axes(*np.eye(3))
BACKWARD = Axes(np.array([-1.0, 0, 0]), np.array([0, -1.0, 0]), np.array([0, 0, 1.0]))
SIDEWAYS = Axes(np.array([0, 0, 1.0]), np.array([1.0, 0, 0]), np.array([0, 1.0, 0]))
ALL_AXES = {"x forward": AXES, "x backward": BACKWARD, "z forward, x left": SIDEWAYS}


def van(**changes) -> Vehicle:
    """A light van; its axles share the roll stiffness 55 to 45."""
    front = AxleData(1700.0, 0.0, 352.0, 0.0, 0.55)
    data = {
        "mass": 3.05,
        "front_share": 0.46,
        "wheelbase": 3320.0,
        "cg_height": 760.0,
        "ground": 0.0,
        "roll_stiffness": None,
        "front": front,
        "rear": replace(front, track=1690.0, roll_share=0.45),
    }
    return Vehicle(**data | changes)


def leaning_van(**changes) -> Vehicle:
    """The same with roll stiffness, roll centres and unsprung masses."""
    front = AxleData(1700.0, 0.17, 340.0, 60.0, 0.55)
    rear = AxleData(1690.0, 0.21, 352.0, 120.0, 0.45)
    return van(**{"roll_stiffness": 1.6e8, "front": front, "rear": rear} | changes)


def axles(which=("rear",), axes=AXES, sides=("l", "r"), radius=352.0, **changes):
    """Wheels on knuckles, with one drive unit for each axle, everything on rigid bodies.

    changes : of every wheel. The origin is on the ground under the middle of the rear axle.
    """
    points, parts, joints, wheels = {}, [], [], []
    base = np.array([axes.forward, axes.left, axes.up])
    for axle in which:
        along = 3320.0 if axle == "front" else 0.0
        points[f"{axle}_unit"] = np.array([along + 50, 0, 330.0]) @ base
        parts.append(Part(f"{axle}_unit", "rigid"))
        joints.append(joint(f"{axle}_unit", "welded", f"{axle}_unit", "body", f"{axle}_unit"))
        half = (1700.0 if axle == "front" else 1690.0) / 2
        for side in sides:
            name = f"{axle}_{side}"
            points[name] = np.array([along, half if side == "l" else -half, radius]) @ base
            parts.append(Part(f"knuckle_{name}", "rigid"))
            joints.append(joint(f"knuckle_{name}", "welded", f"knuckle_{name}", "body", name))
            wheel = Wheel(
                name,
                f"knuckle_{name}",
                name,
                radius,
                axle,
                side == "l",
                "outboard",
                f"{axle}_unit",
                "none",
                None,
            )
            wheels.append(replace(wheel, **{"unit": f"{axle}_unit"} | changes))
    return build_model(points, parts, joints, wheels=wheels, axes=axes)


BOTH = ("front", "rear")


def one(kind, vehicle=None, model=None, /, **keys):
    """One load case of a kind."""
    spec = KINDS[kind](**keys)
    return build_cases({"it": spec}, vehicle or van(), model or axles())["it"]


def local(model, vector):
    """Components forward, left, up of a vector in case axes."""
    axes = model.axes
    return np.array([vector @ axes.forward, vector @ axes.left, vector @ axes.up])


def forces(case, model):
    """Forward, left, up [N] of each wheel by name."""
    return {w.wheel: local(model, w.force) for w in case.wheel_loads}


def resultant(case, model, about=(0, 0, 0)):
    """Force and moment of all loads about a point given forward, left, up [mm], in the same components."""
    base = np.array([model.axes.forward, model.axes.left, model.axes.up])
    point = np.array(about, dtype=float) @ base
    force = sum((p.force for p in case.loads), np.zeros(3))
    moment = sum((p.moment + np.cross(p.position - point, p.force) for p in case.loads), np.zeros(3))
    return local(model, force), local(model, moment)


def centre_of_gravity(vehicle: Vehicle):
    """Forward, left, up [mm] from the ground under the rear axle."""
    return np.array([vehicle.front_share * vehicle.wheelbase, 0.0, vehicle.cg_height])
