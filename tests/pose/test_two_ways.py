"""The kinematics against other ways to the same number: a root finder, the frame's statics, a lever by hand."""

from dataclasses import replace

import numpy as np
import pytest
from linkages import FIVE_LINKS, driven, five_links, linkage, spring, wishbones
from scipy.optimize import root
from scipy.spatial.transform import Rotation
from small_models import push

from loadpath.frame import solve
from loadpath.model import Coil, LoadCase
from loadpath.pose import clamped, make_mechanism, pose_many, posed_model, standing
from loadpath.sweep import struts, wheel_springs


@pytest.mark.parametrize("travel", [-90.0, -35.0, 50.0, 100.0])
def test_five_links_by_a_general_root_finder(travel):
    """Length of each link and the wheel's height as six equations of the knuckle's place (scipy). 1e-8."""
    outer, inner = (np.array(ends, dtype=float) for ends in zip(*FIVE_LINKS.values(), strict=True))
    length, centre = np.linalg.norm(outer - inner, axis=1), np.array([0, 780.0, 320])

    def misses(place, rise):
        turn = Rotation.from_rotvec(place[3:] / 100).as_matrix()
        ends = (outer - centre) @ turn.T + centre + place[:3]
        return [*(np.linalg.norm(ends - inner, axis=1) - length), place[2] - rise]

    place = np.zeros(6)
    for rise in np.linspace(0, travel, 6)[1:]:
        place = root(misses, place, args=(rise,), tol=1e-13).x
    poses = pose_many(five_links(), np.array([[travel]]))
    assert poses.turned("knuckle")[0] == pytest.approx(
        Rotation.from_rotvec(place[3:] / 100).as_matrix(), abs=1e-8
    )
    assert poses.point("knuckle", "wheel")[0] == pytest.approx(centre + place[:3], abs=1e-8)


@pytest.mark.parametrize("axle", [five_links, wishbones])
def test_force_ratio_of_the_frame_is_the_inverse_motion_ratio(axle):
    """The frame in each pose under 1 kN at the wheel centre against the slope of the strut's length. 1e-6."""
    mechanism, step = axle(), 1e-3
    travel = np.array([[-60.0], [0.0], [60.0]])
    more, less = (struts(pose_many(mechanism, travel + d))["spring_l"].length for d in (step, -step))
    found = standing(pose_many(mechanism, travel), clamped(mechanism), {})
    for k, slope in enumerate((less - more) / (2 * step)):
        model = posed_model(found, k)
        load = push(model, "knuckle", "wheel", (0, 0, 1000.0))
        case = LoadCase("up", "given", "rare", np.zeros(3), (load,), ())
        pushed = solve(model, [case]).pushes[0, 0]
        assert pushed == pytest.approx(1000 / slope, rel=1e-6)


def test_motion_ratio_of_a_leaning_spring_on_a_lever():
    """260 of 380 mm along a level arm, 20 degrees off square (Milliken, ch. 16; numbers invented)."""
    lean = np.radians(20)
    points = {"pivot": (0, 0, 200), "wheel": (0, 380, 200), "foot": (0, 260, 200)}
    points["top"] = (0, 260 - 400 * np.sin(lean), 200 + 400 * np.cos(lean))
    arm = [("pivot", "hinge", "arm", "body", (1, 0, 0))]
    mechanism = linkage(points, {}, ["arm"], arm, [driven("arm", "wheel")], [spring("arm", "foot", "top")])
    ratio = struts(pose_many(mechanism, np.zeros((1, 1))))["spring_l"].ratio[0]
    assert ratio == pytest.approx(0.64294758264299, rel=1e-12)


def test_wheel_rate_has_the_term_of_the_changing_ratio():
    """k i² + F di/dz (Milliken, ch. 16): by finite differences of ratio and push apart from each other. 1e-5."""
    axle = wishbones().model
    element = replace(axle.force_elements["spring_l"], law=Coil(35.0, 4000.0, None))
    mechanism = make_mechanism(replace(axle, force_elements={"spring_l": element}))
    travel, step = np.array([[-40.0], [0.0], [50.0]]), 0.1
    at, more, less = (struts(pose_many(mechanism, travel + d))["spring_l"] for d in (0, step, -step))
    found = wheel_springs(pose_many(mechanism, travel))["wheel_l"]
    slope = (more.ratio - less.ratio) / (2 * step)
    assert at.push[1] == pytest.approx(4000)
    assert found.force == pytest.approx(at.push * at.ratio, rel=1e-12)
    assert found.rate == pytest.approx(35 * at.ratio**2 + at.push * slope, rel=1e-5)
    assert np.abs(at.push * slope).max() > 0.3
