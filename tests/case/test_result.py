"""What a read case holds: model, vehicle, defaults, warnings, tolerances."""

# ruff: noqa: E501 - texts of case files
from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from case_files import GOOD, edited, read

from loadpath.model import MassTarget

VEHICLE_END = "cg_height = 760"


def test_a_case_is_frozen():
    case = read(GOOD)
    with pytest.raises(dataclasses.FrozenInstanceError):
        case.title = "x"
    with pytest.raises(TypeError):
        case.shapes["x"] = None


def test_values_are_in_internal_units():
    more = f"{VEHICLE_END}\nroll_stiffness = 2e6\nfront = {{ unsprung_mass = 150 }}"
    case = read(
        edited(
            (VEHICLE_END, more),
            ("axial = 1400\n[joints.arm_rear_l]", "axial = 1400\ntorsional = 1000\n[joints.arm_rear_l]"),
        )
    )
    assert case.vehicle.mass == pytest.approx(3.05)  # t
    assert case.vehicle.roll_stiffness == pytest.approx(2e6 * 180 / np.pi)  # N mm/rad
    assert case.vehicle.front.unsprung_mass == pytest.approx(0.15)
    assert case.model.joints["arm_front_l"].rates.torsional == pytest.approx(1000 * 180 / np.pi)
    assert case.model.masses["knuckle_l"].mass == pytest.approx(0.02)
    trial = {m.name: m for m in case.model.parts["cradle"].members}["rear"].material
    assert trial.density == pytest.approx(7.8e-9)  # t/mm³
    shear_modulus = trial.G
    assert shear_modulus == pytest.approx(205000 / 2.58)  # E / (2 (1 + nu))
    assert next(t for t in case.targets if isinstance(t, MassTarget)).most == pytest.approx(0.03)


def test_rigid_parts_give_lumped_masses_of_their_name():
    text = edited(("mass = 20\n", "mass = 20\ninertia = [1e5, 2e5, 3e5]\n"))
    mass = read(text).model.masses["knuckle_r"]
    assert (mass.part, mass.point) == ("knuckle_r", "wheel_r")
    np.testing.assert_allclose(mass.inertia, np.diag([100.0, 200.0, 300.0]))  # t mm²


def test_what_follows_from_the_wheels():
    vehicle = read(GOOD).vehicle
    assert vehicle.rear.track == vehicle.front.track == 1690
    assert vehicle.rear.unsprung_height == 352
    assert (vehicle.front.roll_share, vehicle.rear.roll_share) == (0.5, 0.5)
    vehicle = read(
        edited((VEHICLE_END, f"{VEHICLE_END}\nfront_roll_share = 0.6\nfront = {{ track = 1600 }}"))
    ).vehicle
    assert (vehicle.front.track, vehicle.rear.track) == (1600, 1690)
    assert (vehicle.front.roll_share, vehicle.rear.roll_share) == pytest.approx((0.6, 0.4))


def test_the_body_behind_every_point_that_something_puts_on_it():
    mounts = read(GOOD).model.body_mounts
    assert set(mounts) == {f"{n}_{s}" for n in ("upper", "mount", "rail_rear", "strut_top") for s in "lr"}
    assert all(m.is_default for m in mounts.values())
    np.testing.assert_array_equal(mounts["mount_l"].rates, [20000, 20000, 10000])
    mounts = read(
        GOOD + '[body]\nrates = "rigid"\nat.mount_l = { rates = [1, 2, "3 kN/mm"] }\n'
    ).model.body_mounts
    assert not any(m.is_default for m in mounts.values())
    assert mounts["upper_l"].rates is None
    np.testing.assert_array_equal(mounts["mount_r"].rates, [1, 2, 3000])


def test_defaults_that_were_used_are_told_once_for_both_sides():
    told = dict(read(GOOD).defaults)
    assert told["body.rates"] == "20000, 20000, 10000 N/mm (common practice, no source)"
    assert told["vehicle.rear.unsprung_mass"] == "0 kg"
    assert told["vehicle.rear.track"] == "1690 mm"
    assert told["joints.arm_front_l.torsional"] == "0 N*mm/deg"
    assert told["wheels.rear_l.brake"] == "outboard"
    assert told["load_cases.bump.class"] == "rare"
    assert told["materials.trial.G"] == "79457.4 MPa"
    assert not [p for p in told if "_r." in p]
    told = dict(read(edited((VEHICLE_END, f"{VEHICLE_END}\nrear = {{ unsprung_mass = 160 }}"))).defaults)
    assert "vehicle.rear.unsprung_mass" not in told


def test_tolerances_by_path_in_internal_units():
    case = read(
        edited(
            ("gauge = 2.5", 'gauge = "2.5 ± 0.1"'),
            ("mass = 12", 'mass = "12 ± 1 kg"'),
            ("radial = 9500", 'radial = "9500 ± 15 %"'),
        )
    )
    assert case.tolerances == {
        "sections.rail.gauge": pytest.approx(0.1),
        "masses.box_l.mass": pytest.approx(0.001),
        "masses.box_r.mass": pytest.approx(0.001),
        "joints.arm_front_l.radial": pytest.approx(1425),
        "joints.arm_front_r.radial": pytest.approx(1425),
    }


@pytest.mark.parametrize(
    ("old", "new", "warning"),
    [
        ("[points]", "[points]\nidle_l = [1, 2, 3]", "points: nothing uses idle_l, idle_r"),
        ("[masses.box_l]", '[materials.idle]\nE=2000\nnu=0.3\ndensity=1\nsource="x"\n[masses.box_l]', "materials: nothing uses idle"),
        ("[masses.box_l]", '[body.at.wheel_l]\nrates="rigid"\n[masses.box_l]', "body.at.wheel_l: no joint or strut touches the body there"),
        ("[masses.box_l]", '[parts.spare]\nkind = "rigid"\n[masses.box_l]', "parts: nothing joins spare to anything"),
        (
            '[joints.toe_in_l]\nbetween = ["toe_l", "cradle"]\nkind = "ball"\n',
            "",
            "points.toe_in_l: cradle, toe_l use this point, but no joint there ties them all together",
        ),
    ],
)  # fmt: skip
def test_warnings(old, new, warning):
    assert warning in read(edited((old, new))).warnings


def test_three_parts_at_one_point_need_joints_among_all_of_them():
    more = """
[parts.rod]
kind = "link"
ends = ["toe_in_l", "upper_l"]
section = "rail"
material = "S420MC"
[joints.rod]
point = "upper_l"
between = ["rod", "body"]
kind = "ball"
"""
    tied = '[joints.rod_in]\npoint = "toe_in_l"\nbetween = ["rod", "toe_l"]\nkind = "ball"\n'
    warning = "points.toe_in_l: cradle, toe_l, rod use this point, but no joint there ties them all together"
    assert warning in read(GOOD + more).warnings
    assert read(GOOD + more + tied).warnings == ()


def test_end_fixity_and_warping():
    more = 'section = "cross"\nwarping = { first = "held", last = "free" }\nfirst_end = { about_y = 0, about_z = 1000, along = "5 kN/mm" }\n[parts.cradle.members.rear]'
    case = read(edited(('section = "cross"\n[parts.cradle.members.rear]', more)))
    front = {m.name: m for m in case.model.parts["cradle"].members}["front"]
    assert front.warping == ("held", "free")
    assert front.ends[0].rates == pytest.approx((5000, np.inf, np.inf, np.inf, 0, 1000 * 180 / np.pi))
    assert front.ends[1].rates == (np.inf,) * 6


def test_struts_are_locked_springs_unless_told_otherwise():
    more = '\n[struts.stop_l]\nbetween = ["arm_l", "body"]\nends = ["strut_low_l", "strut_top_l"]\nwheel = "rear_l"\nelement = "damper"\nforce = "2 kN"\n'
    elements = read(GOOD + more).model.force_elements
    assert (elements["spring_r"].locked, elements["spring_r"].rate) == (True, 150)
    assert (elements["stop_r"].locked, elements["stop_r"].force) == (False, 2000)
    assert elements["stop_r"].wheel == "rear_r"


def test_a_bushing_in_its_own_axes():
    rates = read(GOOD).model.joints["arm_rear_l"]
    axis = np.array([165 + 182, 352 - 348, 236 - 228.0])
    np.testing.assert_allclose(rates.axes[0], axis / np.linalg.norm(axis))
    assert rates.axes[1] @ [0.2, 0.9, 0.3] > 0.9 * np.linalg.norm([0.2, 0.9, 0.3])
    assert rates.axes[0] @ rates.axes[1] == pytest.approx(0, abs=1e-15)
    assert rates.rates.radial == (9500, 6000)
    np.testing.assert_array_equal(read(GOOD).model.joints["rail_rear_l"].axes[0], [0, 1, 0])


def test_a_gauge_outside_the_range_of_its_grade_is_told():
    """EN 10149-2: the figures of S420MC in the table are those for 1.5 to 2.99 mm."""
    (warning,) = read(edited(("gauge = 2.9", "gauge = 3.5"))).warnings
    assert "gauge: 3.5 mm" in warning
    assert "1.5 to 2.99 mm (EN 10149-2)" in warning
