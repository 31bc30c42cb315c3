"""Axles whose wheels hang together: twist beam and rigid axle; rear steer."""

from dataclasses import replace

import numpy as np
import pytest
from linkages import WISHBONES, driven, linkage, spring
from small_models import axes_along, bare_section, build, frame, joint, member

from loadpath.model import Joint, Split
from loadpath.pose import OverConstrained, make_mechanism, pose_many, wheel_angles
from loadpath.sweep import instants, roll_centres, steering, sweep

LEFT = (0.0, 1.0, 0.0)


def both_wheels(left, right, radius=300.0, axle="rear"):
    """Wheels on parts at the points wheel_l and wheel_r."""
    one = replace(driven(left, "wheel_l", radius), axle=axle)
    return [one, replace(one, name="wheel_r", part=right, centre="wheel_r", left=False)]


def twist_beam(moves_as="ball"):
    """Pivots 400 mm ahead of the wheels, the beam 250 mm ahead; it twists about its own line."""
    points = {"middle": (250, 0, 320)}
    for side, s in (("l", 1), ("r", -1)):
        points |= {f"pivot_{side}": (400, s * 500, 330), f"beam_{side}": (250, s * 500, 320)}
        points |= {f"wheel_{side}": (0, s * 720, 300), f"end_{side}": (0, s * 500, 300)}
    section = bare_section(900, 1e5, 1e5, 2e5)
    arms = [member(f"arm_{s}", [f"pivot_{s}", f"beam_{s}", f"end_{s}"], section) for s in "lr"]
    beam = member("beam", ["beam_l", "middle", "beam_r"], section)
    part = frame("axle", *arms, beam, brackets={"wheel_l": "end_l", "wheel_r": "end_r"})
    part = replace(part, split=Split("middle", np.array(LEFT)))
    joints = [joint(f"pivot_{s}", "bushing", "axle", "body", f"pivot_{s}", LEFT) for s in "lr"]
    joints[1] = replace(joints[1], moves_as=moves_as)
    return make_mechanism(build(points, [part], joints, wheels=both_wheels("axle", "axle")))


def test_twist_beam_between_balls_contradicts_itself_once_it_rolls():
    """In roll the pivots would have to come closer: by second order only, so that it shows with the travel."""
    mechanism = twist_beam()
    pose_many(mechanism, np.array([[60.0, 60.0]]))
    with pytest.raises(OverConstrained, match=r"contradict each other once the wheels travel.*moves_as"):
        pose_many(mechanism, np.array([[60.0, -60.0]]))


def test_twist_beam_with_a_pivot_that_slides_heaves_and_rolls():
    """In heave all turns about the line of the pivots; in roll the beam twists."""
    mechanism = twist_beam("sliding ball")
    poses = pose_many(mechanism, np.array([[50.0, 50.0], [50.0, -50.0]]))
    heave = poses.turned("axle", "wheel_l")[0]
    arm = np.hypot(400, 30)
    angle = np.arcsin(30 / arm) + np.arcsin(20 / arm)
    assert np.arccos((np.trace(heave) - 1) / 2) == pytest.approx(angle, abs=1e-9)
    left, right = (poses.turned("axle", f"wheel_{s}")[1] for s in "lr")
    twist = np.arccos((np.trace(left.T @ right) - 1) / 2)
    assert np.degrees(twist) > 10
    assert poses.point("axle", "pivot_l")[1] == pytest.approx([400, 500, 330], abs=1e-8)


def test_roll_centre_of_a_rigid_axle_is_at_its_panhard_rod():
    """Links level and along the vehicle, rod level: the axle rolls about the rod (common practice, no source)."""
    points = {"rod_a": (0, 400, 280), "rod_b": (0, -420, 280), "top_a": (20, 0, 450), "top_b": (500, 0, 450)}
    links = {"rod": ("rod_a", "axle", "rod_b", "body"), "top": ("top_a", "axle", "top_b", "body")}
    for side, s in (("l", 1), ("r", -1)):
        points |= {f"low_a_{side}": (20, s * 500, 220), f"low_b_{side}": (600, s * 500, 220)}
        points |= {f"wheel_{side}": (0, s * 720, 300)}
        links[f"low_{side}"] = (f"low_a_{side}", "axle", f"low_b_{side}", "body")
    mechanism = linkage(points, links, ["axle"], [], both_wheels("axle", "axle"))
    poses = pose_many(mechanism, np.zeros((1, 2)))
    assert roll_centres(poses)["rear"].height[0] == pytest.approx(280, rel=1e-9)
    assert np.isfinite(instants(poses)["wheel_l"].front).all()


def test_rear_steer_by_the_toe_links():
    """A rack between the toe links of a rear axle: both wheels turn the same way, the steering axis is the balls'."""
    points, joints, links = {"rack": (-145, 0, 275)}, [("rack", "bolted", "rack", "body")], {}
    for side, s in (("l", 1), ("r", -1)):
        points |= {f"{p}_{side}": (x, s * y, z) for p, (x, y, z) in WISHBONES.items()}
        for arm in ("upper", "lower"):
            joints += [(f"{arm}_{e}_{side}", "ball", f"{arm}_{side}", "body") for e in ("front", "rear")]
            joints.append((f"{arm}_ball_{side}", "ball", f"{arm}_{side}", f"knuckle_{side}"))
        links[f"toe_{side}"] = (f"toe_outer_{side}", f"knuckle_{side}", f"toe_inner_{side}", "rack")
    parts = [*(f"{p}_{s}" for p in ("upper", "lower", "knuckle") for s in "lr"), "rack"]
    springs = [
        replace(spring(f"lower_{s}", f"foot_{s}", f"top_{s}", f"wheel_{s}"), name=f"spring_{s}") for s in "lr"
    ]
    model = linkage(points, links, parts, joints, both_wheels("knuckle_l", "knuckle_r", 320.0), springs).model
    slide = Joint("rack", "slider", ("rack", "body"), "rack", axes_along(LEFT), rack=True, travel=12.0)
    mechanism = make_mechanism(replace(model, joints={**model.joints, "rack": slide}))
    moved = sweep(mechanism, "steer", 4.0)
    assert moved.values == pytest.approx([-12, -8, -4, 0, 4, 8, 12])
    toes = {w: a.toe for w, a in wheel_angles(moved.poses).items()}
    assert (np.diff(toes["wheel_l"]) > 0).all()
    assert toes["wheel_l"] == pytest.approx(toes["wheel_r"][::-1], abs=1e-9)
    line = steering(moved.poses)["wheel_l"]
    for ball in ("upper_ball_l", "lower_ball_l"):
        away = np.cross(moved.poses.point("knuckle_l", ball) - line.at, line.axis)
        assert away == pytest.approx(0, abs=1e-7)
