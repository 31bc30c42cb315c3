"""What holds of every compliance: reciprocity, symmetry, superposition, and rigid as the limit of stiff."""

from dataclasses import replace

import numpy as np
import pytest

from loadpath.case import read_case
from loadpath.compliance import (
    answers_of,
    groups_of,
    posed_at,
    reciprocity,
    shares_of,
    singles_of,
    standing_wheels,
)
from loadpath.compliance.rigid import bars
from loadpath.model import Axes, BodyMount, Coil
from loadpath.pose import make_mechanism, pose_many


@pytest.fixture(scope="module")
def model(request):
    return read_case(request.config.rootpath / "cases" / "light_van_rear.toml").model


@pytest.fixture(scope="module")
def ride(model):
    return standing_wheels(model)


@pytest.fixture(scope="module")
def built(ride):
    return answers_of(ride.model)


def test_movement_there_for_a_load_here_is_movement_here_for_a_load_there(ride, built):
    assert reciprocity(ride.model, built) < 1e-9


def test_both_sides_answer_alike_in_a_symmetric_module(model):
    """The drive unit has one mount off the middle; without it only a bend of the rear beam, 1 mm high, is there."""
    parts = {n: p for n, p in model.parts.items() if n != "drive_unit"}
    joints = {n: j for n, j in model.joints.items() if "drive_unit" not in j.between}
    masses = {n: m for n, m in model.masses.items() if m.part != "drive_unit"}
    wheels = {n: replace(w, drive="none", unit=None) for n, w in model.wheels.items()}
    symmetric = replace(model, parts=parts, joints=joints, masses=masses, wheels=wheels)
    found = answers_of(standing_wheels(symmetric).model)
    for how in ("together", "alone", "opposite"):
        left, right = found.shown(how)
        assert left == pytest.approx(right, rel=1e-3, abs=1e-6, nan_ok=True)


def test_together_and_opposite_are_alone_plus_and_minus_the_other(built):
    mean = (built.loaded("together") + built.loaded("opposite")) / 2
    assert mean == pytest.approx(built.loaded("alone"), rel=1e-9, abs=1e-15)


def test_everything_rigid_on_locked_springs_does_not_move(model):
    shares = shares_of(standing_wheels(model, locked=True).model)
    assert shares.rigid is not None
    assert np.abs(shares.on_springs("together")).max() < 1e-12
    whole = shares.base.shown("alone")
    parts = shares.brought("alone").sum(axis=0) + shares.remainder("alone")
    assert parts == pytest.approx(whole, abs=1e-12)


def springs(model):
    """The locked springs alone, without stops."""
    return {n: e for n, e in model.force_elements.items() if e.locked}


def test_very_stiff_springs_hold_like_locked_ones(model):
    stiff = {n: replace(e, rate=1e9, law=None) for n, e in springs(model).items()}
    found = answers_of(standing_wheels(replace(model, force_elements=stiff)).model)
    locked = answers_of(standing_wheels(replace(model, force_elements=springs(model)), locked=True).model)
    size = np.abs(locked.shown("alone")).max()
    assert found.shown("alone") == pytest.approx(locked.shown("alone"), abs=1e-5 * size)


def stiffer(model, group, factor=1e4):
    """The same group with rates and moduli times a large number, in place of exact constraints."""
    joints, parts, mounts, wheels = (
        dict(x) for x in (model.joints, model.parts, model.body_mounts, model.wheels)
    )
    for name in group.members:
        if name in joints and group.name in ("bushings", "cradle mounts"):
            r = joints[name].rates
            radial = (r.radial[0] * factor, r.radial[1] * factor)
            joints[name] = replace(joints[name], rates=replace(r, axial=r.axial * factor, radial=radial))
        elif name in parts:
            members = [
                replace(m, material=replace(m.material, E=m.material.E * factor, G=m.material.G * factor))
                for m in parts[name].members
            ]
            parts[name] = replace(parts[name], members=tuple(members))
        elif name in wheels:
            wheels[name] = replace(wheels[name], hub_tilt=wheels[name].hub_tilt * factor)
        else:
            mounts[name] = BodyMount(name, mounts[name].rates * factor, False)
    return replace(model, joints=joints, parts=parts, body_mounts=mounts, wheels=wheels)


@pytest.mark.parametrize("number", range(6))
def test_rigid_is_the_limit_of_stiff(ride, number):
    group = groups_of(ride.model)[number]
    exact = answers_of(group.stiffen(ride.model)).shown("together")
    stiff = answers_of(stiffer(ride.model, group)).shown("together")
    assert stiff == pytest.approx(exact, rel=2e-3, abs=2e-4 * np.abs(exact).max())


def test_groups_hold_each_single_thing_once(ride):
    groups = {m: g.name for g in groups_of(ride.model) for m in g.members}
    singles = singles_of(ride.model)
    assert len(singles) == sum(len(g.members) for g in groups_of(ride.model))
    assert groups["mount_front_l"] in ("cradle mounts", "body")
    assert groups["cradle"] == "cradle"
    assert {groups[n] for n in ("lower_arm_l", "toe_link_r")} == {"arms and links"}
    assert groups["unit_rear"] == "bushings"
    assert set(bars(ride.model)) == {"anti_roll_bar", "drop_link_l", "drop_link_r"}
    assert not set(bars(ride.model)) & set(groups)


def test_hub_bearing_tilt_adds_the_moment_over_its_rate(model, ride, built):
    """Series: camber by lateral force grows by radius / rate, toe by aligning moment by 1 / rate.

    Within the square of the wheel's own camber, 0.8 degrees.
    """
    bare = {n: replace(w, hub_tilt=None) for n, w in ride.model.wheels.items()}
    without = answers_of(replace(ride.model, wheels=bare))
    gained = built.shown("alone")[0] - without.shown("alone")[0]
    wheel = model.wheels["wheel_l"]
    assert gained[1, 0] == pytest.approx(np.degrees(1e3 * wheel.radius / wheel.hub_tilt), rel=1e-3)
    assert gained[0, 3] == pytest.approx(np.degrees(1e6 / wheel.hub_tilt), rel=1e-3)
    assert gained[:, 1] == pytest.approx(0, abs=5e-4)  # braking only turns it about its own axis


def test_turning_the_whole_case_in_space_changes_nothing(ride, built):
    turn = np.array([[0, -1.0, 0], [0, 0, 1.0], [-1.0, 0, 0]])
    m = ride.model
    parts = {
        n: replace(p, members=tuple(replace(x, up=turn @ x.up) for x in p.members))
        for n, p in m.parts.items()
    }
    turned = replace(
        m,
        axes=Axes(turn @ m.axes.forward, turn @ m.axes.left, turn @ m.axes.up),
        points={n: turn @ p for n, p in m.points.items()},
        parts=parts,
        joints={n: replace(j, axes=j.axes @ turn.T) for n, j in m.joints.items()},
    )
    found = answers_of(turned).shown("together")
    whole = built.shown("together")
    assert found == pytest.approx(whole, rel=1e-7, abs=1e-8 * np.abs(whole).max())


def test_a_law_gives_the_rate_of_the_pose(model):
    law = {n: replace(e, law=Coil(150.0, 9000.0, None), rate=0.0) for n, e in springs(model).items()}
    ride = standing_wheels(replace(model, force_elements=law))
    assert ride.springs == {"strut_l": 150.0, "strut_r": 150.0}
    assert ride.locked == ()


def test_a_spring_without_a_rate_stays_locked(model):
    bare = {n: replace(e, rate=0.0, law=None) for n, e in springs(model).items()}
    ride = standing_wheels(replace(model, force_elements=bare))
    assert ride.springs == {}
    assert ride.locked == ("strut_l", "strut_r")


def on_springs_only(model):
    """Without its anti-roll bar, and with bushings that turn freely."""
    gone = bars(model)
    joints = {n: j for n, j in model.joints.items() if not set(gone) & set(j.between)}
    free = {"torsional": 0.0, "conical": (0.0, 0.0)}
    joints = {
        n: j if j.rates is None else replace(j, rates=replace(j.rates, **free)) for n, j in joints.items()
    }
    parts = {n: p for n, p in model.parts.items() if n not in gone}
    return replace(model, parts=parts, joints=joints, force_elements=springs(model))


def test_in_a_pose_the_wheel_rate_follows_the_installation_ratio_of_the_kinematics(request):
    """Everything rigid: K_w = K_s IR² (Milliken & Milliken, ch. 16, from memory), IR from the kinematics."""
    model = on_springs_only(read_case(request.config.rootpath / "cases" / "town_car_front.toml").model)
    posed = posed_at(model, 40.0)
    shares = shares_of(standing_wheels(posed, model).model)
    assert shares.why_not == ""
    wheel = list(model.wheels).index("wheel_l")
    travel = shares.on_springs("alone")[wheel, 5, 5]  # centre upward for 1 kN upward at the patch
    mechanism = make_mechanism(model)
    around = [mechanism.targets({"wheel_l": 40.0 + d, "wheel_r": 40.0}) for d in (-0.01, 0.01)]
    near = pose_many(mechanism, np.array(around))
    spring = model.force_elements["spring_l"]
    ends = [near.point(part, p) for part, p in zip(spring.between, spring.ends, strict=True)]
    shorter, longer = np.linalg.norm(ends[1] - ends[0], axis=1)
    ratio = (shorter - longer) / 0.02
    assert 1e3 / travel == pytest.approx(24.0 * ratio**2, rel=1e-3)


def test_design_height_is_jounce_nought(model):
    assert posed_at(model, 0.0) is model
    still = answers_of(standing_wheels(posed_at(model, 1e-9), model).model).shown("alone")
    assert still == pytest.approx(answers_of(standing_wheels(model).model).shown("alone"), rel=1e-6, abs=1e-8)
