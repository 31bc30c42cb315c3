"""The demo cases through the whole chain: symmetry, balance and what a change of concept moves."""

from dataclasses import replace

import numpy as np
import pytest

from loadpath.case import read_case
from loadpath.checks import analyse, analyse_stands, run_checks
from loadpath.cli.common import stands_of
from loadpath.loads import build


@pytest.fixture(scope="module")
def demo(request):
    def make(name):
        case = read_case(request.config.rootpath / "cases" / f"{name}.toml")
        return case, analyse_stands(case.model, stands_of(case), case.targets)

    return make


def force(analysis, joint, load_case):
    names = [c.name for c in analysis.cases]
    return analysis.joint_forces[analysis.joint_names.index(joint), :3, names.index(load_case)]


def onto_body(analysis, load_case, prefix):
    """Sum of the forces on the body of the joints whose names begin with a prefix."""
    total = np.zeros(3)
    for name, joint in analysis.model.joints.items():
        if name.startswith(prefix) and "body" in joint.between:
            sign = 1.0 if joint.between[1] == "body" else -1.0
            total += sign * force(analysis, name, load_case)
    return total


def test_sizes(demo):
    case, analysis = demo("light_van_rear")
    members = sum(len(m.path) - 1 for p in case.model.parts.values() for m in p.members)
    assert 60 <= members <= 120
    verdicts = [r.verdict for r in run_checks(analysis)]
    assert 0 < verdicts.count("exceeds") < verdicts.count("holds") / 4


def test_what_enters_less_mass_times_field_is_what_the_body_gets(demo):
    _, analysis = demo("light_van_rear")
    masses = 0.0
    for mass in analysis.model.masses.values():
        masses += mass.mass
    elements = analysis.elements
    ground = analysis.together(lambda s: s.solution.ground_forces)
    masses += float((elements.line_mass.mean(axis=1) * elements.length).sum())
    for c, case in enumerate(analysis.cases):
        entering = sum(load.force for load in case.loads)
        body = -ground[:, :3, c].sum(axis=0)
        assert body == pytest.approx(entering + masses * case.field, abs=1e-6)


def test_self_checks_are_clean(demo):
    for name in ("light_van_rear", "light_van_rear_b", "town_car_front"):
        _, analysis = demo(name)
        for check in analysis.checks:
            assert not check.refusals
            assert check.equilibrium < 1e-9
            assert check.balance < 1e-9


def test_a_bar_at_design_height_hides_its_twist(demo):
    """Cornering: the drop link's force comes from the pose that roll gives; at design height next to nothing is left.

    With small rotations, by the lengths that roll gives the struts at design height, it is much the same.
    """
    case, analysis = demo("light_van_rear")
    made = build(case.load_specs, case.vehicle, case.model)["cornering_right"]
    linear = analyse(case.model, {"cornering_right": replace(made, pose=None)})
    locked = analyse(case.model, {"cornering_right": replace(made, pose=None, roll=0.0)})
    twisted, small, hidden = (
        np.linalg.norm(force(a, "link_lower_l", "cornering_right")) for a in (analysis, linear, locked)
    )
    assert twisted > 2000
    assert twisted > 10 * hidden
    assert small == pytest.approx(twisted, rel=0.2)


def test_poses_of_the_demo(demo):
    """Springs carry what the pose found for them; the identity holds; travels stay within those of the wheels."""
    for name in ("light_van_rear", "light_van_rear_b", "town_car_front"):
        case, analysis = demo(name)
        posed = [c for c in range(len(analysis.cases)) if analysis.at(c)[0].model.pose is not None]
        assert len(posed) > 5
        for c in posed:
            model = analysis.at(c)[0].model
            assert analysis.checks[c].power < 1e-11
            for wheel, travel in model.pose.travel.items():
                assert -case.model.wheels[wheel].rebound <= travel <= case.model.wheels[wheel].jounce
            if analysis.cases[c].pose.by == "from load":
                for k, push in enumerate(analysis.push_names):
                    own = model.pose.pushes[push]
                    assert analysis.pushes[k, c] == pytest.approx(own, rel=0.05, abs=250)


def test_upper_arms_on_the_cradle_load_its_mounts(demo):
    """Concept A sends the upper arms' lateral force straight to the body; in B it goes through the mounts."""
    (_, a), (_, b) = demo("light_van_rear"), demo("light_van_rear_b")
    net = onto_body(a, "cornering_right", "mount")[1] + onto_body(a, "cornering_right", "upper")[1]
    in_b = onto_body(b, "cornering_right", "mount")[1]
    assert abs(onto_body(a, "cornering_right", "upper")[1]) > 2000
    assert onto_body(b, "cornering_right", "upper") == pytest.approx(np.zeros(3))
    assert in_b == pytest.approx(net, rel=0.1)


def test_left_and_right_are_mirror_images(demo):
    """Town car, front: symmetric but for the motor, which stands on the body."""
    _, analysis = demo("town_car_front")
    flip = np.array([1.0, -1, 1])
    for joint in ("lower_ball", "tie_outer", "strut_top", "arm_front", "cradle_rear"):
        left, right = (force(analysis, f"{joint}_{s}", "bump") for s in "lr")
        assert right == pytest.approx(flip * left, rel=1e-6, abs=0.5)
