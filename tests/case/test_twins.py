"""Twins against reflection done by hand: polar vectors turn the component along left, axial ones the others."""

from __future__ import annotations

import numpy as np
import pytest
from case_files import GOOD, edited, mistakes, read

FLIP = np.diag([1.0, -1.0, 1.0])
"""Reflection in the plane y = 0."""


def frame_of(model, member, k):
    """Position of the first end and rows x, y, z of segment k, by the rule of the guide."""
    a, b = (model.points[p] for p in member.path[k : k + 2])
    x = (b - a) / np.linalg.norm(b - a)
    z = member.up - (member.up @ x) * x
    z /= np.linalg.norm(z)
    return a, np.array([x, np.cross(z, x), z])


def places(model, member, k):
    """(n, 3) surface points of a segment's first section in space."""
    a, (_, y, z) = frame_of(model, member, k)
    section = member.sections[k][0]
    drawn = section.points - section.centroid + member.offset
    return a + drawn[:, :1] * y + drawn[:, 1:] * z


def test_points_of_the_twin():
    points = read(GOOD).model.points
    left = [n for n in points if n.endswith("_l")]
    assert len(left) == 12
    for name in left:
        np.testing.assert_array_equal(points[name.removesuffix("_l") + "_r"], FLIP @ points[name])


@pytest.mark.parametrize("member", [0, 1])
def test_every_surface_point_of_a_twin_member_is_the_reflected_one(member):
    model = read(GOOD).model
    left, right = (model.parts[p].members[member] for p in ("arm_l", "arm_r"))
    for k in range(len(left.path) - 1):
        np.testing.assert_allclose(places(model, right, k), places(model, left, k) @ FLIP, atol=1e-9)


def test_a_twin_member_inside_a_part_without_a_side():
    model = read(
        GOOD.replace(
            'section = "rail"\n[parts.cradle.members.front]', 'section = "leg"\n[parts.cradle.members.front]'
        )
    ).model
    members = {m.name: m for m in model.parts["cradle"].members}
    left, right = members["rail_l"], members["rail_r"]
    assert right.path == ("mount_r", "rail_front_r", "rail_rear_r")
    np.testing.assert_allclose(places(model, right, 0), places(model, left, 0) @ FLIP, atol=1e-9)
    assert [b.point for b in model.parts["cradle"].brackets if b.point.endswith("_r")] == [
        "arm_front_r",
        "arm_rear_r",
        "toe_in_r",
    ]


def test_the_stress_of_a_twin_under_reflected_forces_is_the_same():
    """N, Vz, My are even and Vy, T, Mz odd in a reflection of y (the section's own sign rules)."""
    model = read(GOOD).model
    left, right = (model.parts[p].members[0].sections[0][0] for p in ("arm_l", "arm_r"))
    forces = np.array([100.0, 20.0, 30.0, 4000.0, 5000.0, 6000.0])
    signs = np.array([1, -1, 1, -1, 1, -1])
    np.testing.assert_allclose(right.von_mises(forces * signs), left.von_mises(forces), rtol=1e-12)
    np.testing.assert_allclose(right.shear_centre, left.shear_centre * [-1, 1], rtol=1e-12)
    assert abs(left.shear_centre[0]) > 1


def test_joint_axes_of_the_twin_are_reflected_up_to_sign():
    joints = read(GOOD).model.joints
    for name in ("arm_front", "arm_rear", "upper", "rail_rear"):
        left, right = joints[f"{name}_l"].axes, joints[f"{name}_r"].axes
        alike = np.einsum("ij,ij->i", left @ FLIP, right)
        np.testing.assert_allclose(np.abs(alike), 1.0, rtol=1e-12)
        np.testing.assert_allclose(right @ right.T, np.eye(3), atol=1e-12)
        assert np.linalg.det(right) == pytest.approx(1.0)


def test_given_forces_are_polar_and_moments_axial():
    """A moment is r × F: reflecting r and F reflects the moment as an axial vector."""
    specs = read(GOOD).load_specs
    left, right = specs["hoist_l"].forces[0], specs["hoist_r"].forces[0]
    assert (right.part, right.point) == ("cradle", "rail_front_r")
    np.testing.assert_array_equal(right.force, FLIP @ left.force)
    r, f = np.array([7.0, -2, 3]), np.array(left.force)
    assert np.allclose(np.cross(FLIP @ r, FLIP @ f), np.linalg.det(FLIP) * FLIP @ np.cross(r, f))
    np.testing.assert_array_equal(right.moment, np.linalg.det(FLIP) * FLIP @ left.moment)


def test_left_becomes_right_in_choices_and_directions():
    case = read(GOOD)
    assert case.load_specs["corner_r"].turn == "right"
    target = next(t for t in case.targets if t.name == "arm_front_r")
    np.testing.assert_array_equal(target.direction, [0, -1, 0])
    assert [t.name for t in case.targets] == ["arm_front_l", "arm_front_r", "mass"]


@pytest.mark.parametrize(
    ("word", "twin"), [("+y", "-y"), ("-y", "+y"), ("+x", "+x"), ("-left", "left"), ("up", "up")]
)
def test_direction_words(word, twin):
    case = read(edited(('along = "left"', f'along = "{word}"')))
    left, right = case.targets[:2]
    np.testing.assert_array_equal(right.direction, FLIP @ left.direction)
    assert right.direction_name == twin


def test_a_quantity_in_a_vector_changes_its_sign():
    case = read(edited(("[-176, 738, 252]", '[-176, "738 ± 0.5 mm", 252]')))
    assert case.model.points["toe_out_r"][1] == -738.0
    assert case.tolerances == {"points.toe_out_l[1]": 0.5, "points.toe_out_r[1]": 0.5}


@pytest.mark.parametrize(
    ("axes", "turn"),
    [
        ('{ forward = "-x", left = "-y", up = "+z" }', np.diag([-1.0, -1.0, 1.0])),
        ('{ forward = "+y", left = "-x", up = "+z" }', np.array([[0, -1, 0], [1, 0, 0], [0, 0, 1.0]])),
        ('{ forward = "+z", left = "+x", up = "+y" }', np.array([[0, 1, 0], [0, 0, 1], [1, 0, 0.0]])),
    ],
)
def test_the_same_car_in_other_axes_has_the_same_twins(axes, turn):
    """Turning all input vectors turns all output vectors: invariance to the choice of axes."""
    import re

    def turned(match):
        vector = turn @ np.array([float(v) for v in match[2].split(",")])
        return f"{match[1]}[{', '.join(f'{v:g}' for v in vector)}]"

    text = re.sub(r"(= )\[((?:[-\d.]+, ){2}[-\d.]+)\]", turned, GOOD).replace(
        'title = "small"', f"axes = {axes}"
    )
    case, base = read(text), read(GOOD)
    assert np.allclose([case.axes.forward, case.axes.left, case.axes.up], turn.T)
    for name, position in base.model.points.items():
        np.testing.assert_allclose(case.model.points[name], turn @ position, atol=1e-12)
    for name, joint in base.model.joints.items():
        np.testing.assert_allclose(case.model.joints[name].axes, joint.axes @ turn.T, atol=1e-12)
    force = base.load_specs["hoist_r"].forces[0]
    other = case.load_specs["hoist_r"].forces[0]
    np.testing.assert_allclose(other.force, turn @ force.force)
    np.testing.assert_allclose(other.moment, turn @ force.moment)
    assert {w.name: w.left for w in case.model.wheels.values()} == {"rear_l": True, "rear_r": False}
    for part in ("arm_l", "arm_r"):
        for a, b in zip(base.model.parts[part].members, case.model.parts[part].members, strict=True):
            np.testing.assert_allclose(places(case.model, b, 0), places(base.model, a, 0) @ turn.T, atol=1e-9)


def test_what_is_written_of_a_twin_goes_on_top_and_is_listed():
    more = """
[points]
ball_r = [4, -740, 214]
[joints.arm_front_r]
radial = 8000
[parts.arm_r.members.front]
offset = [-5, 1]
[parts.cradle.members.rail_r]
section = "cross"
"""
    text = GOOD.replace("[points]\n", "[points]\nball_r = [4, -740, 214]\n", 1)
    case = read(text + more.replace("[points]\nball_r = [4, -740, 214]\n", ""))
    assert case.overrides == (
        "points.ball_r",
        "parts.cradle.members.rail_r.section",
        "parts.arm_r.members.front.offset",
        "joints.arm_front_r.radial",
    )
    model = case.model
    assert model.points["ball_r"][1] == -740
    assert model.joints["arm_front_r"].rates.radial == (8000, 8000)
    assert model.joints["arm_front_r"].rates.axial == 1400
    assert model.parts["arm_r"].members[0].offset.tolist() == [-5, 1]
    assert [m.section_names for m in model.parts["cradle"].members][:2] == [("rail",), ("cross",)]


def test_writing_the_twin_as_it_is_made_overrides_nothing():
    assert read(GOOD.replace("[points]\n", "[points]\nball_r = [4, -742, 214]\n", 1)).overrides == ()


def test_twin_false_makes_none():
    text = edited(
        ("mass = 12", "mass = 12\ntwin = false"), ("[165, 388, 262]", "{ at = [165, 388, 262], twin = true }")
    )
    assert list(read(text).model.masses) == ["knuckle_l", "knuckle_r", "box_l"]


def test_a_right_name_without_a_left_one_stands_alone():
    text = edited(
        ("[masses.box_l]", "[masses.box_r]"), ('point = "rail_front_l"\nmass', 'point = "rail_front_r"\nmass')
    )
    masses = read(text).model.masses
    assert masses["box_r"].point == "rail_front_r"
    assert "box_l" not in masses


def test_a_member_alone_at_the_right_is_not_mirrored_unless_its_section_is():
    more = """
[parts.cradle.members.tip_r]
path = ["rail_front_r", "tip_r"]
section = "SECTION"
[sections.bow_l]
shape = "channel"
width = 40
height = 60
gauge = 3
"""
    base = edited(("[points]", "[points]\ntip_r = [300, -300, 262]"))
    found = {}
    for name in ("bow_l", "bow_r"):
        members = read(base + more.replace("SECTION", name)).model.parts["cradle"].members
        found[name] = next(m for m in members if m.name == "tip_r").sections[0][0].shear_centre[0]
    assert found["bow_l"] == -found["bow_r"] != 0


def test_a_mistake_that_a_twin_repeats_is_told_once():
    found = mistakes(
        edited(
            ("[3, 1]", '[3, "4 kN"]'), ('between = ["arm_l", "knuckle_l"]', 'between = ["arm_l", "knukle_l"]')
        )
    )
    assert [m.path for m in found] == ["parts.arm_l.members.front.offset[1]", "joints.ball_l.between[1]"]


def test_a_mistake_of_the_twin_alone_is_told():
    found = mistakes(GOOD.replace("[points]\n", '[points]\nball_r = [4, "x", 214]\n', 1))
    assert [m.path for m in found] == ["points.ball_r[1]"]
