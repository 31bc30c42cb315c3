"""Rods that slide through a guide: bending in a pose is that of the length that stands out of the guide there."""

from dataclasses import replace

import numpy as np
import pytest
from linkages import driven, spring
from small_models import bare_section, build, case, joint, link

from loadpath.checks import analyse_stands
from loadpath.frame import self_checks, solve
from loadpath.model import Coil, LumpedMass, Part, PointLoad, PoseWish
from loadpath.pose.stands import stands
from loadpath.report.posewarnings import pose_warnings

X = (1.0, 0.0, 0.0)
POINTS = {
    "wheel": (0, 760, 300),
    "ball": (0, 710, 190),
    "pivot": (0, 350, 200),
    "tie_out": (-120, 710, 190),
    "tie_in": (-120, 350, 200),
    "guide": (0, 606, 520),
    "top": (0, 560, 840),
}

FORCE = np.array([0.0, -2500.0, 3000.0])


def guided_strut(**masses):
    """A left wheel in the plane x = 0: arm on a hinge, tie link behind, tube, rod with a ball at its top."""
    axis = np.subtract(POINTS["top"], POINTS["guide"])
    rods = [
        link("rod", "guide", "top", bare_section(380.0, 1.15e4, 1.15e4, 2.3e4), up=X),
        link("tie", "tie_in", "tie_out", bare_section(180.0, 2e3, 2e3, 4e3)),
    ]
    joints = [
        joint("pivot", "hinge", "arm", "body", "pivot", X),
        joint("ball", "ball", "arm", "knuckle", "ball"),
        joint("tie_in", "ball", "tie", "body", "tie_in"),
        joint("tie_out", "ball", "tie", "knuckle", "tie_out"),
        joint("guide", "slider", "rod", "knuckle", "guide", axis),
        joint("top", "ball", "rod", "body", "top"),
    ]
    coil = replace(spring("knuckle", "guide", "top", "wheel_l"), law=Coil(24.0, 3300.0, None))
    wheel = replace(driven("knuckle", "wheel"), name="wheel_l")
    parts = [Part("arm", "rigid"), Part("knuckle", "rigid"), *rods]
    model = build(POINTS, parts, joints, forces=[coil], wheels=[wheel])
    return replace(model, masses=masses) if masses else model


def standing(model, jounce):
    def make(posed, names=None):
        force = PointLoad("knuckle", "wheel", posed.at("knuckle", "wheel"), FORCE, np.zeros(3), "ground")
        return {"push": replace(case(force, name="push"), pose=PoseWish(jounce=jounce), strain=1.0)}

    return stands(model, make(model), make)


def across(a, b):
    """Moment about x of a force b at a."""
    return a[1] * b[2] - a[2] * b[1]


@pytest.mark.parametrize("swapped", [False, True])
@pytest.mark.parametrize("jounce", [-80.0, -30.0, 20.0, 70.0])
def test_the_rod_bends_as_a_cantilever_from_where_its_guide_is(jounce, swapped):
    """By hand: moments about the top give the arm's force, the rest is the top's; times the rod's length."""
    model = guided_strut()
    if swapped:
        turned = replace(model.joints["guide"], between=("knuckle", "rod"))
        model = replace(model, joints={**model.joints, "guide": turned})
    (stand,) = standing(model, jounce)
    at = {p: stand.model.at("knuckle", p) for p in ("wheel", "ball", "guide")}
    top = np.array(POINTS["top"], dtype=float)
    along = (at["ball"] - POINTS["pivot"]) / np.linalg.norm(at["ball"] - POINTS["pivot"])
    arm = -across(at["wheel"] - top, FORCE) / across(at["ball"] - top, along) * along
    rod = top - at["guide"]
    out = float(np.linalg.norm(rod))
    assert abs(out - np.linalg.norm(np.subtract(POINTS["top"], POINTS["guide"]))) > 0.8 * abs(jounce)
    moment = abs(across(rod, FORCE + arm))
    solution = solve(stand.model, stand.cases)
    elements = solution.system.mesh.elements
    (own,) = (k for k, part in enumerate(elements.part) if part == "rod")
    assert elements.length[own] == pytest.approx(out, rel=1e-12)
    assert np.linalg.norm(solution.end_forces[own, 1:3, 0]) * out == pytest.approx(moment, rel=1e-9)
    assert np.linalg.norm(solution.end_forces[own, 4:, 0]) < 1e-9 * moment  # the ball at its top
    held = solution.joint_forces[solution.joint_names.index("guide"), 3:, 0]
    assert np.linalg.norm(held) == pytest.approx(moment, rel=1e-9)
    assert self_checks(solution)[0].power < 1e-12
    assert not [w for w in pose_warnings(analyse_stands(model, [stand], ())) if "guide" in w]


def test_a_rod_whose_end_carries_more_is_told():
    lump = LumpedMass("lump", "rod", "guide", 1e-3, np.zeros((3, 3)))
    model = guided_strut(lump=lump)
    stood = standing(model, -80.0)
    posed = stood[0].model
    out, taken = (np.linalg.norm(posed.at(p, "guide") - posed.points["top"]) for p in ("knuckle", "rod"))
    (line,) = [w for w in pose_warnings(analyse_stands(model, stood, ())) if "guide" in w]
    assert f"rod {100 * (out / taken - 1):+.0f} % in push" in line
    assert out / taken > 1.2
