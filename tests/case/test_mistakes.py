"""Every mistake says where it is, what is wrong and what is expected; all of a file are told together."""

# ruff: noqa: E501 - one mistake a line
from __future__ import annotations

import pytest
from case_files import GOOD, edited, mistakes, read

from loadpath.case import CaseError

BUSHING = 'axis = "arm_rear_l"\nradial = 9500\naxial = 1400'
SPRING = 'wheel = "rear_l"\nrate = 150'
WHEEL = 'radius = 352\naxle = "rear"'
STOP = (
    '\n[struts.stop_l]\nbetween = ["arm_l", "body"]\nends = ["strut_low_l", "strut_top_l"]\nwheel = "rear_l"\n'
    'element = "bump stop"\ngap = 5\n'
)
KNUCKLE = 'mass = 20\ncentre = "wheel_l"'


def test_the_good_file_is_good():
    assert mistakes(GOOD) == ()
    assert read(GOOD).warnings == ()


CASES = [
    # keys, words and types
    ("gauge = 2.5", "gage = 2.5", "sections.rail.gage", "unknown key", "width, height, gauge", "gauge"),
    ("gauge = 2.5", "", "sections.rail.gauge", "is missing", "number [mm]", ""),
    ('title = "small"', "title = 3", "title", "3 does not fit", "text", ""),
    ('title = "small"', 'tilte = "x"', "tilte", "unknown key", "title", "title"),
    ("format = 1", "", "format", "is missing", "1", ""),
    ("format = 1", "format = 2", "format", "2 is not a choice", "1", ""),
    ("[vehicle]", '[vehicle]\nmess = "1 t"', "vehicle.mess", "unknown key", "mass", "mass"),
    ('shape = "channel"', 'shape = "chanel"', "sections.leg.shape", "'chanel'", "lipped channel", "channel"),
    ('shape = "channel"', "", "sections.leg.shape", "is missing", "closed hat", ""),
    ('kind = "ball"\n[joints.upper_l]', 'kind = "bal"\n[joints.upper_l]', "joints.ball_l.kind", "'bal'", "welded", "ball"),
    ('kind = "bump"', 'kind = "bumb"', "load_cases.bump.kind", "'bumb'", "pothole", "bump"),
    ('kind = "mass"', "kind = [1]", "targets.mass.kind", "[1]", "stiffness", ""),
    ('turn = "left"', 'turn = "lift"', "load_cases.corner_l.turn", "'lift' is not a choice", '"left" or "right"', "left"),
    ("ball_l = [4, 742, 214]", "ball_l = [4, 742]", "points.ball_l", "has 2 entries", "three numbers [mm]", ""),
    ("ball_l = [4, 742, 214]", "ball_l = [4, 7, 2, 1]", "points.ball_l", "has 4 entries", "three numbers [mm]", ""),
    ("ball_l = [4, 742, 214]", 'ball_l = "x"', "points.ball_l", "'x' does not fit", "three numbers [mm]", ""),
    ("ball_l = [4, 742, 214]", "ball_l = { at = 1 }", "points.ball_l.at", "does not fit", "three numbers", ""),
    ('ends = ["toe_in_l", "toe_out_l"]', 'ends = "toe_in_l"', "parts.toe_l.ends", "does not fit", "two names of points", ""),
    ("[parts.knuckle_l]", "[parts.bad]\nkind = 4\n[parts.knuckle_l]", "parts.bad.kind", "no kind 4", "frame, link", ""),
    ("mass = 12", 'mass = 12\ntwin = "no"', "masses.box_l.twin", "'no' does not fit", "true or false", ""),
    ("most = 30", "most = 30\ntwin = false", "targets.mass.twin", "only what is named _l", "_l", ""),
    # names
    ("[masses.box_l]", "[masses.Box]", "masses.Box", "'Box' cannot be a name", "small letters", ""),
    ("[masses.box_l]", "[masses.left]", "masses.left", "cannot be a name", "another name", ""),
    ("[parts.knuckle_l]", "[parts.body]\nkind = \"rigid\"\n[parts.knuckle_l]", "parts.body", "cannot be a name", "another", ""),
    ('"mount_l", "rail_f', '"mont_l", "rail_f', "parts.cradle.members.rail_l.path[0]", "no point 'mont_l'", "", "mount_l"),
    ('section = "rail"\nm', 'section = "rial"\nm', "parts.toe_l.section", "no section 'rial'", "rail, cross, leg", "rail"),
    ('"E355_tube"', '"E355_tub"', "parts.toe_l.material", "no material", "", "E355_tube"),
    ('"E355_tube"', '"EN AW-6082"', "parts.toe_l.material", "more than one grade", "6082-T6_prof5", ""),
    ('"knuckle_l", "body"', '"knuckle_l", "bodi"', "joints.upper_l.between[1]", "'bodi'", "knuckle_l", "body"),
    ('wheel = "rear_l"', 'wheel = "rare_l"', "struts.spring_l.wheel", "no wheel 'rare_l'", "rear_l, rear_r", "rear_l"),
    ('axis = "left"', 'axis = "lft"', "joints.rail_rear_l.axis", "no direction or point 'lft'", "three numbers", "left"),
    ('arm_front_l = "rail_f', 'arm_frnt_l = "rail_f', "parts.cradle.brackets.arm_frnt_l", "no point", "", "arm_front_l"),
    ('parts = ["cradle", "arm_l"]', 'parts = ["cradle", "body"]', "targets.mass.parts[1]", "no part 'body'", "cradle", ""),
    # numbers
    ("wheelbase = 3320", "wheelbase = -3320", "vehicle.wheelbase", "-3320 mm is out of bounds", "above 0", ""),
    ("wheelbase = 3320", "wheelbase = nan", "vehicle.wheelbase", "nan is not a usable", "a length", ""),
    ("wheelbase = 3320", "wheelbase = inf", "vehicle.wheelbase", "inf is not a usable", "a length", ""),
    ("wheelbase = 3320", "wheelbase = 1e16", "vehicle.wheelbase", "not a usable number", "at most", ""),
    ("wheelbase = 3320", 'wheelbase = "3 kN"', "vehicle.wheelbase", "'3 kN' is a force", "a length", ""),
    ("wheelbase = 3320", "wheelbase = 2020-01-01", "vehicle.wheelbase", "is not a number", "a length", ""),
    ("front_share = 0.46", "front_share = 46", "vehicle.front_share", "46 is out of bounds", "at most 1", ""),
    ("nu = 0.29", "nu = 0.5", "materials.trial.nu", "0.5 is out of bounds", "at most 0.499", ""),
    ("gauge = 2.5", "gauge = -2.5", "sections.rail.gauge", "-2.5", "above 0 mm", ""),
    ("gauge = 2.5", "gauge = 40", "sections.rail.gauge", "40", "half the smaller side", ""),
    # the file itself
    ('title = "small"', 'axes = { left = "-y" }', "axes", "no right-handed set", "forward × left", ""),
    ('title = "small"', 'axes = { left = "+x" }', "axes", "no right-handed set", "three different", ""),
    ('title = "small"', 'axes = { left = "y" }', "axes.left", "'y' is not a choice", '"+x"', ""),
    ('title = "small"', 'points_file = "p.csv"', "points_file", "no file 'p.csv'", "in the folder", ""),
    ('title = "small"', 'points_file = "../p.csv"', "points_file", "leaves the folder", "in the folder", ""),
    ('title = "small"', 'points_file = "/etc/passwd"', "points_file", "leaves the folder", "in the folder", ""),
    ('title = "small"', 'points_file = "a\\u0000b"', "points_file", "is not a file name", "in the folder", ""),
    # members
    ('"arm_front_l", "ball_l"', '"arm_front_l"', "parts.arm_l.members.front.path", "1 points", "two points", ""),
    (
        '"mount_l", "rail_front_l", "rail',
        '"mount_l", "rail_front_l", "mount_l", "rail',
        "parts.cradle.members.rail_l.path",
        "mount_l stands twice",
        "each point once",
        "",
    ),
    ('"toe_in_l", "toe_out_l"', '"toe_in_l", "toe_in_l"', "parts.toe_l.ends", "toe_in_l stands twice", "once", ""),
    ("[165, 388, 262]", "[395, 498, 318.001]", "parts.cradle.members.rail_l.path", "are at one place", "apart", ""),
    ("up = [0.1, 0.2, 1.0]", "up = [0, 0, 0]", "parts.arm_l.members.rear.up", "no direction", "", ""),
    ("up = [0.1, 0.2, 1.0]", 'up = "strut_low_l"', "parts.arm_l.members.rear.up", "is parallel to", "across", ""),
    ("offset = [3, 1]", 'up = "ball_l"', "parts.arm_l.members.front.up", "parallel to arm_front_l - ball_l", "across", ""),
    ('section = "rail"\nmaterial', 'section = "rail"\nup="toe_in_l"\nmaterial', "parts.toe_l.up", "no direction", "", ""),
    ('[parts.arm_l]\nmaterial = "S420MC"', "[parts.arm_l]", "parts.arm_l.members.front.material", "is missing", "part", ""),
    ('arm_front_l = "rail_front_l"', 'arm_front_l = "ball_l"', "parts.cradle.brackets.arm_front_l", "'ball_l'", "mount_l", ""),
    ('toe_in_l = "rail', 'mount_l = "rail', "parts.cradle.brackets.mount_l", "is on a member itself", "beside", ""),
    ("[parts.knuckle_l]", "[parts.bare]\n[parts.knuckle_l]", "parts.bare", "has no members", "members.NAME", ""),
    ('"rail_front_l", "rail_front_r"]', '"upper_l", "upper_r"]', "parts.cradle", "2 pieces", "one piece", ""),
    # joints
    ('axis = "left"', "", "joints.rail_rear_l.axis", "is missing", "a point to look at", ""),
    (BUSHING, BUSHING.replace("radial = 9500", ""), "joints.arm_front_l.radial", "is missing", "[N/mm]", ""),
    (BUSHING, BUSHING.replace("9500", "0"), "joints.arm_front_l.radial", "0 N/mm is out of bounds", "above 0", ""),
    (BUSHING, BUSHING.replace("9500", "[9500, 1]"), "joints.arm_front_l.radial_toward", "is missing", "first of two", ""),
    ("[0.2, 0.9, 0.3]", '"arm_front_l"', "joints.arm_rear_l.radial_toward", "is parallel to the axis", "across", ""),
    ("[0.1, 0.2, 1]", '"upper_l"', "joints.upper_l.axis", "no direction seen from upper_l", "", ""),
    ('"cradle", "body"]\nkind = "bolted"', '"body", "body"]\nkind = "bolted"', "joints.mount_l.between", "stands twice", "", ""),
    ("[joints.mount_l]", "[joints.front_mount]", "joints.front_mount.point", "front_mount is no point", "", ""),
    ('kind = "bolted"', 'kind = "bolted"\nradial = 3', "joints.mount_l.radial", "unknown key", "between", ""),
    # struts, wheels, masses
    (SPRING, SPRING + "\nlocked = false", "struts.spring_l", "does not say what it pushes with", "rate with load", ""),
    (SPRING, SPRING + "\nload = 900\nlocked = false", "struts.spring_l.locked", "none of spring_l is locked", "exactly one", ""),
    (SPRING, SPRING + "\nforce = 100", "struts.spring_l.force", "unknown key", "load", ""),
    (SPRING, SPRING + "\nload = 9\nfree_length = 300", "struts.spring_l.free_length", "stands beside a load", "or the free", ""),
    (SPRING, SPRING + "\ntable = { travel = [0, 1], force = [0, 1] }", "struts.spring_l.rate", "stands beside a table", "either", ""),
    (SPRING, SPRING + "\nload = 9" + STOP + "table = { travel = [0, 1, 1], force = [0, 1, 2] }", "struts.stop_l.table", "1 stands after 1", "rising travel", ""),
    (SPRING, SPRING + "\nload = 9" + STOP + "table = { travel = [1, 2], force = [0, 2] }", "struts.stop_l.table", "does not rise from 0", "first point", ""),
    (BUSHING, BUSHING + "\nradial_table = { travel = [0, 1], force = [0, 1] }", "joints.arm_front_l.radial", "stands beside a table", "either", ""),
    (BUSHING, BUSHING.replace("radial = 9500", "radial_table = { travel = [0, 1], force = [1, 2] }"), "joints.arm_front_l.radial_table", "does not pass through 0", "at rest", ""),
    (BUSHING, BUSHING.replace("radial = 9500", "radial_table = { travel = [0, 1, 2], force = [0, 2, 1] }"), "joints.arm_front_l.radial_table", "does not rise", "rises", ""),
    (BUSHING, BUSHING.replace("radial = 9500", "radial_table = { travel = [-1, 0, 2], force = [-4, 0, 2] }"), "joints.arm_front_l.radial_toward", "is missing", "first of two", ""),
    ('"strut_low_l", "strut_top_l"]\n', '"upper_l", "strut_top_l"]\n', "struts.spring_l.ends[0]", "not on part arm_l", "", ""),
    ('["strut_low_l", "strut_top_l"]\n', '["ball_l", "ball_l"]\n', "struts.spring_l.ends", "are at one place", "apart", ""),
    (WHEEL, WHEEL + '\nbrake = "inboard"', "wheels.rear_l.brake_part", "is missing with", "part", ""),
    (WHEEL, WHEEL + '\nunit = "cradle"', "wheels.rear_l.unit", "has no meaning without", "half-shaft", ""),
    ("wheel_l = [0, 845, 352]", "wheel_l = [0, 0, 352]", "wheels.rear_l.centre", "middle plane", "at a side", ""),
    (KNUCKLE, "mass = 20", "parts.knuckle_l.centre", "is missing", "mass and centre", ""),
    (KNUCKLE, 'centre = "wheel_l"\ninertia = [1, 1, 1]', "parts.knuckle_l.mass", "is missing", "mass and centre", ""),
    ("[masses.box_l]", "[masses.knuckle_l]", "masses.knuckle_l", "has a mass of that name", "another name", ""),
    ('point = "rail_front_l"\nmass', 'point = "ball_l"\nmass', "masses.box_l.point", "not on part cradle", "", "rail_front_l"),
    # vehicle, load cases, targets
    ('"cradle"\npoint = "arm_front_l"', '"cradle"\npoint = "ball_l"', "targets.arm_front_l.point", "not on part", "", ""),
    ('parts = ["cradle", "arm_l"]', "parts = []", "targets.mass.parts", "is empty", "one part", ""),
    ('part = "cradle", point = "rail_front_l", f', 'part = "cradle", point = "ball_l", f', "load_cases.hoist_l.forces[0].point", "ball_l", "", ""),
    ("forces = [{", "forces = [4, {", "load_cases.hoist_l.forces[0]", "4 is not a table", "wheel", ""),
    ("mass = 3050", "", "vehicle.mass", "is missing", "number [kg]", ""),
]  # fmt: skip


@pytest.mark.parametrize(
    ("old", "new", "path", "what", "expected", "near"), CASES, ids=[c[2] + "-" + c[3] for c in CASES]
)
def test_one_mistake(old, new, path, what, expected, near):
    found = mistakes(edited((old, new)))
    assert found, "no mistake was found"
    match = [m for m in found if m.path == path and what in m.what]
    assert match, "\n".join(map(str, found))
    assert expected in match[0].expected
    assert match[0].nearest == near or not near
    assert match[0].file in ("case.toml", "points.csv")
    assert not [m for m in found if "_r" in m.path.replace("_rear", "")], "\n".join(map(str, found))


def test_a_point_that_a_part_does_not_carry_names_those_it_does():
    (mistake,) = mistakes(
        edited(
            (
                '[joints.mount_l]\nbetween = ["cradle"',
                '[joints.upper_l2]\npoint = "upper_l"\nbetween = ["cradle"',
            )
        )
    )
    assert mistake.path == "joints.upper_l2"
    assert mistake.what == "point upper_l is not on part cradle: it is neither on a member nor a bracket"
    assert mistake.expected.startswith("one of mount_l, rail_front_l")
    assert mistake.nearest == "rail_front_l"  # the nearest in space


def test_all_mistakes_are_told_together_in_the_order_of_the_file():
    text = (
        edited(
            ("front_share = 0.46", "front_share = 46"),
            ("[165, 352, 236]", '[165, "x", 236]'),
            ("gauge = 2.5", "gage = 2.5"),
            ('"E355_tube"', '"E355"'),
            ('axis = "left"', "axis = [0, 0, 0]"),
            ('centre = "wheel_l"\nradius', 'centre = "whel_l"\nradius'),
            ('kind = "bump"', 'kind = "bumb"'),
            ("least = 30000", "least = 0"),
        )
        + "\n[nonsense]\n"
    )
    found = mistakes(text)
    assert [m.path for m in found] == [
        "vehicle.front_share",
        "points.arm_front_l[1]",
        "sections.rail.gauge",
        "sections.rail.gage",
        "parts.toe_l.material",
        "joints.rail_rear_l.axis",
        "wheels.rear_l.centre",
        "load_cases.bump.kind",
        "targets.arm_front_l.least",
        "nonsense",
    ]
    told = str(CaseError(found))
    assert told.startswith(
        "case.toml: 10 mistakes\n  vehicle.front_share: 46 is out of bounds; expected a number"
    )
    assert told.count("\n") == 10


def test_two_wheels_at_one_corner():
    more = '[wheels.second]\npart = "knuckle_l"\ncentre = "wheel_l"\nradius = 352\naxle = "rear"\n'
    (mistake,) = mistakes(GOOD + more)
    assert (mistake.path, mistake.what) == (
        "wheels.second",
        "rear_l is the left wheel of the rear axle already",
    )


def test_two_locked_elements_at_one_wheel():
    more = GOOD[GOOD.index("[struts.spring_l]") : GOOD.index("[wheels.rear_l]")].replace("spring_l", "stop_l")
    (mistake,) = mistakes(GOOD + more)
    assert mistake.path == "struts.stop_l.locked"
    assert mistake.what == "of wheel rear_l spring_l, stop_l are locked"


def test_load_cases_on_wheels_need_a_vehicle():
    text = GOOD[: GOOD.index("[vehicle]")] + GOOD[GOOD.index("[points]") :]
    (mistake,) = mistakes(text)
    assert mistake.path == "vehicle"
    assert "needed by bump, corner_l, corner_r" in mistake.what


def test_a_track_that_follows_from_nothing():
    cut = GOOD[: GOOD.index("[struts.spring_l]")] + '[load_cases.own]\nkind = "given"\n'
    found = mistakes(cut)
    assert [(m.path, m.what) for m in found] == [
        (f"vehicle.{a}.track", "is missing") for a in ("front", "rear")
    ]
