"""A small good case file for tests, edited by the tests; everything in it is invented."""

from __future__ import annotations

import tempfile
from pathlib import Path

from loadpath.case import Case, CaseError, Mistake, read_case

GOOD = """
format = 1
title = "small"

[vehicle]
mass = 3050
front_share = 0.46
wheelbase = 3320
cg_height = 760

[points]
wheel_l = [0, 845, 352]
ball_l = [4, 742, 214]
arm_front_l = [165, 352, 236]
arm_rear_l = [-182, 348, 228]
upper_l = [-8, 700, 488]
strut_low_l = [-78, 606, 232]
strut_top_l = [-92, 562, 662]
mount_l = [395, 498, 318]
rail_front_l = [165, 388, 262]
rail_rear_l = [-182, 386, 262]
toe_in_l = [-214, 366, 265]
toe_out_l = [-176, 738, 252]

[sections.rail]
shape = "rectangular tube"
width = 78
height = 70
gauge = 2.5

[sections.cross]
shape = "rectangular tube"
width = 84
height = 62
gauge = 2.6

[sections.leg]
shape = "channel"
width = 40
height = 60
gauge = 2.9

[materials.trial]
E = 205000
nu = 0.29
density = 7800
proof = 400
source = "test"

[parts.cradle]
material = "S420MC"
[parts.cradle.members.rail_l]
path = ["mount_l", "rail_front_l", "rail_rear_l"]
section = "rail"
[parts.cradle.members.front]
path = ["rail_front_l", "rail_front_r"]
section = "cross"
[parts.cradle.members.rear]
path = ["rail_rear_l", "rail_rear_r"]
section = "cross"
material = "trial"
[parts.cradle.brackets]
arm_front_l = "rail_front_l"
arm_rear_l = "rail_rear_l"
toe_in_l = "rail_rear_l"

[parts.arm_l]
material = "S420MC"
[parts.arm_l.members.front]
path = ["arm_front_l", "ball_l"]
section = "leg"
offset = [3, 1]
[parts.arm_l.members.rear]
path = ["arm_rear_l", "strut_low_l", "ball_l"]
section = "leg"
up = [0.1, 0.2, 1.0]

[parts.toe_l]
kind = "link"
ends = ["toe_in_l", "toe_out_l"]
section = "rail"
material = "E355_tube"

[parts.knuckle_l]
kind = "rigid"
mass = 20
centre = "wheel_l"

[joints.arm_front_l]
between = ["arm_l", "cradle"]
kind = "bushing"
axis = "arm_rear_l"
radial = 9500
axial = 1400
[joints.arm_rear_l]
between = ["arm_l", "cradle"]
kind = "bushing"
axis = "arm_front_l"
radial = [9500, 6000]
radial_toward = [0.2, 0.9, 0.3]
axial = 1400
[joints.ball_l]
between = ["arm_l", "knuckle_l"]
kind = "ball"
[joints.upper_l]
between = ["knuckle_l", "body"]
kind = "slider"
axis = [0.1, 0.2, 1]
[joints.toe_in_l]
between = ["toe_l", "cradle"]
kind = "ball"
[joints.toe_out_l]
between = ["toe_l", "knuckle_l"]
kind = "ball"
[joints.mount_l]
between = ["cradle", "body"]
kind = "bolted"
[joints.rail_rear_l]
between = ["cradle", "body"]
kind = "hinge"
axis = "left"

[struts.spring_l]
between = ["arm_l", "body"]
ends = ["strut_low_l", "strut_top_l"]
wheel = "rear_l"
rate = 150

[wheels.rear_l]
part = "knuckle_l"
centre = "wheel_l"
radius = 352
axle = "rear"

[masses.box_l]
part = "cradle"
point = "rail_front_l"
mass = 12

[load_cases.bump]
kind = "bump"
g = 3.0
[load_cases.corner_l]
kind = "cornering"
g = 0.6
turn = "left"
[load_cases.hoist_l]
kind = "given"
forces = [{ part = "cradle", point = "rail_front_l", force = [1, 2, 3], moment = [4, 5, 6] }]

[targets.arm_front_l]
kind = "stiffness"
part = "cradle"
point = "arm_front_l"
along = "left"
held = "mounts rigid"
least = 30000
[targets.mass]
kind = "mass"
parts = ["cradle", "arm_l"]
most = 30
"""


def edited(*changes: tuple[str, str], base: str = GOOD) -> str:
    """The good file with texts replaced; each must stand there exactly once."""
    text = base
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
        text = text.replace(old, new)
    return text


def read(text: str, **files: str) -> Case:
    """The case of a text, with further files beside it (`points_csv="..."` is points.csv)."""
    with tempfile.TemporaryDirectory() as folder:
        for name, content in files.items():
            Path(folder, name.replace("_", ".")).write_text(content, encoding="utf-8")
        path = Path(folder, "case.toml")
        path.write_text(text, encoding="utf-8")
        return read_case(path)


def mistakes(text: str, **files: str) -> tuple[Mistake, ...]:
    """Mistakes of a text; none where it is good."""
    try:
        read(text, **files)
    except CaseError as error:
        return error.mistakes
    return ()
