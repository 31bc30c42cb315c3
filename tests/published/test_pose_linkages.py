"""Positions of classic linkages against closed forms: four-bar, two rockers with a rod in space, universal joint."""

import numpy as np
import pytest
from linkages import X, angle, driven, linkage

from loadpath.pose import pose_many

GROUND, CRANK, COUPLER, ROCKER = 100.0, 40.0, 120.0, 80.0
"""R. L. Norton, Design of Machinery, example 4-1 (from memory, recomputed)."""
START, END = np.radians(28), np.radians(40)
BRANCHES = {"open": (20.297883, 57.32488), "crossed": (-60.977967, -98.004964)}
"""Angles of coupler and rocker at a crank angle of 40 degrees [deg]."""


def crossing(tip, branch):
    """Where coupler and rocker meet: two circles."""
    end = np.array([0, GROUND, 0])
    line = end - tip
    apart = np.linalg.norm(line)
    along = (apart**2 + COUPLER**2 - ROCKER**2) / (2 * apart)
    high = np.sqrt(COUPLER**2 - along**2)
    square = np.array([0, -line[2], line[1]]) / apart
    return tip + along * line / apart + (high if branch == "open" else -high) * square


@pytest.mark.parametrize("kind", ["ball", "hinge"])
@pytest.mark.parametrize("branch", ["open", "crossed"])
def test_four_bar(branch, kind):
    """Both ways of assembly, with a rod and with a body on hinges, of which some equations repeat. 2e-6."""
    tip = CRANK * np.array([0, np.cos(START), np.sin(START)])
    points = {"a": (0, 0, 0), "b": (0, GROUND, 0), "tip": tip, "end": crossing(tip, branch)}
    joints = [("a", "hinge", "crank", "body", X), ("b", "hinge", "rocker", "body", X)]
    joints += [("tip", kind, "crank", "coupler", X), ("end", kind, "rocker", "coupler", X)]
    mechanism = linkage(points, {}, ["crank", "coupler", "rocker"], joints, [driven("crank", "tip")])
    poses = pose_many(mechanism, np.array([[CRANK * (np.sin(END) - np.sin(START))]]))
    first, second = poses.point("crank", "tip")[0], poses.point("rocker", "end")[0]
    assert np.degrees(np.arctan2(first[2], first[1])) == pytest.approx(40, rel=1e-9)
    found = angle(second - first), angle(second - np.array(points["b"]))
    assert found == pytest.approx(BRANCHES[branch], rel=2e-6)
    assert poses.point("coupler", "end")[0] == pytest.approx(second, abs=1e-8)


def rocker_angles(arm, base, axis, length, pole):
    """Both closed-form angles of a rocker in space whose tip keeps its distance from a moving pole.

    The tip is base + arm turned about axis; |tip − pole|² = length² gives A cos φ + B sin φ = C
    (the spatial four-bar with two balls and two hinges; any text on mechanisms).
    """
    off = base - pole
    side = np.cross(axis, arm)
    a, b = 2 * off @ arm, 2 * off @ side
    c = length**2 - off @ off - arm @ arm
    mean, spread = np.arctan2(b, a), np.arccos(c / np.hypot(a, b))
    return mean + spread, mean - spread


def test_two_rockers_and_a_rod_in_space():
    """Skew hinge axes, arms square to them: the rocker's angle through travel, on its branch. 1e-10."""
    axes = {"crank": np.array([1.0, 0.1, -0.2]), "rocker": np.array([0.6, -0.3, 0.8])}
    axes = {k: v / np.linalg.norm(v) for k, v in axes.items()}
    base = {"crank": np.zeros(3), "rocker": np.array([90.0, 350.0, 40.0])}
    arm = {k: np.cross(v, (0.3, 0.2, 1.0)) * s for (k, v), s in zip(axes.items(), (200, 180), strict=True)}
    points = {"a": base["crank"], "b": base["rocker"]}
    points |= {"tip": base["crank"] + arm["crank"], "end": base["rocker"] + arm["rocker"]}
    joints = [
        ("a", "hinge", "crank", "body", axes["crank"]),
        ("b", "hinge", "rocker", "body", axes["rocker"]),
    ]
    links = {"rod": ("tip", "crank", "end", "rocker")}
    mechanism = linkage(points, links, ["crank", "rocker"], joints, [driven("crank", "tip")])
    poses = pose_many(mechanism, np.linspace(-60, 60, 13)[:, None])
    length = np.linalg.norm(points["end"] - points["tip"])
    second = np.cross(axes["rocker"], arm["rocker"])
    for pole, end in zip(poses.point("crank", "tip"), poses.point("rocker", "end"), strict=True):
        moved = end - base["rocker"]
        phi = np.arctan2(moved @ second, moved @ arm["rocker"])
        closed = rocker_angles(arm["rocker"], base["rocker"], axes["rocker"], length, pole)
        turned = [abs((phi - c + np.pi) % (2 * np.pi) - np.pi) for c in closed]
        assert min(turned) < 1e-10
        assert abs(phi) < 0.6


BETA, INPUT = np.radians(25), np.radians(30)
OUTPUT, RATIO = 32.49858487096429, 1.046489982580387
"""tan(out) = tan(in) / cos(bend) from the position where the input fork lies in the plane of both shafts' normal."""


def test_universal_joint():
    """Angle and speed ratio of the driven shaft; closed form (Norton; Shigley). 1e-9."""
    out = np.array([np.cos(BETA), np.sin(BETA), 0])
    mark = np.array([0, 0, 80.0])
    points = {"into": (-100, 0, 0), "tip": (-100, 80, 0), "out": 100 * out, "mark": 100 * out + mark}
    points |= {"fork_in": (0, 0, 0), "fork_out": (0, 0, 0)}
    joints = [("into", "hinge", "shaft", "body", X), ("out", "hinge", "driven", "body", out)]
    joints += [
        ("fork_in", "hinge", "shaft", "spider", (0, 1, 0)),
        ("fork_out", "hinge", "driven", "spider", (0, 0, 1)),
    ]
    mechanism = linkage(points, {}, ["shaft", "driven", "spider"], joints, [driven("shaft", "tip")])
    poses = pose_many(mechanism, np.array([[80 * np.sin(INPUT)]]))
    moved = poses.turned("driven")[0] @ mark
    turned = np.arctan2(np.cross(mark, moved) @ out, mark @ moved)
    assert np.degrees(turned) == pytest.approx(OUTPUT, rel=1e-9)
    driven_spin, spin = (poses.spin(part)[0, 0] for part in ("driven", "shaft"))
    assert np.linalg.norm(driven_spin) / np.linalg.norm(spin) == pytest.approx(RATIO, rel=1e-9)
