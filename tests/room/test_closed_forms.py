"""Distances by hand: a wheel that rises past a bar, a disc that is steered, a shaft across a bar, and room to grow.

Closed forms of lines, discs and boxes. x forward, y left, z up; a left wheel at (0, 800, 320).
"""

from dataclasses import replace

import numpy as np
import pytest
from small_models import bare_section, build, frame, joint, link, member

from loadpath.model import HalfShaft, Part, Tyre, Wheel, tyre_of_size
from loadpath.pose import PoseError, make_mechanism, pose_many, wheel_angles
from loadpath.room import EXACT, GROWTH, clearances_of, movers_of, room_of
from loadpath.room.growth import reach
from loadpath.room.solids import ShaftSolid, TyreSolid

WIDTH, RADIUS, RIM = 200.0, 330.0, 200.0
SQUARE = Tyre(WIDTH, RADIUS, RIM, 0.0)
ROUND = Tyre(WIDTH, RADIUS, RIM, 25.0)
CENTRE = np.array([0.0, 800, 320])
HALF = 10.0
"""Half of the side of the bars' square section."""
ROD = replace(bare_section(400, 1e4, 1e4, 2e4), box=np.array([[-HALF, -HALF], [HALF, HALF]]))


def near(value):
    """What may be told for a true clearance."""
    return pytest.approx(
        value - (EXACT.near + EXACT.share * abs(value)) / 2,
        abs=(EXACT.near + EXACT.share * abs(value)) / 2 + 1e-3,
    )


def upright(first, last, tyre=SQUARE, shaft=None, steer=None, jounce=80.0, rebound=60.0):
    """A knuckle that slides upright on the body, and a square bar of 20 mm from one point to another on the body.

    steer : [mm] rack travel; the knuckle then turns about the upright line through the wheel centre.
    """
    points = {"centre": CENTRE, "a": first, "b": last, "slide": (0, 740, 320)}
    parts = [Part("knuckle", "rigid"), frame("bar", member("rod", ("a", "b"), ROD))]
    joints = [joint("a", "bolted", "bar", "body", "a")]
    carrier = "knuckle"
    if steer is not None:
        carrier = "post"
        points |= {"arm": (-120, 800, 320), "inner": (-120, 400, 320)}
        parts += [Part("post", "rigid"), Part("rack", "rigid"), link("tie", "inner", "arm", ROD)]
        joints += [joint("king", "hinge", "knuckle", "post", "centre", (0, 0, 1))]
        joints += [
            joint("outer", "ball", "tie", "knuckle", "arm"),
            joint("inner", "ball", "tie", "rack", "inner"),
        ]
        rack = joint("rack", "slider", "rack", "body", "inner", (0, 1, 0))
        joints.append(replace(rack, rack=True, travel=steer))
    joints.append(joint("slide", "slider", carrier, "body", "slide", (0, 0, 1)))
    wheel = Wheel(
        "w", "knuckle", "centre", 320, "rear", True, "outboard", None, "none", None,
        jounce=jounce, rebound=rebound, tyre=tyre, half_shaft=shaft,
    )  # fmt: skip
    return build(points, parts, joints, wheels=[wheel])


def least(model, member="bar.rod", **more):
    found = clearances_of(make_mechanism(model), movers_of(model), **more)
    return next(c for c in found if c.name == member)


def test_tyre_by_its_size():
    """Size designations to ISO 4000-1, overall diameters of its tables from memory: 195/65R15 has 635 mm."""
    tyre = tyre_of_size("195/65R15")
    assert tyre.width == 195
    assert 2 * tyre.radius == pytest.approx(635, abs=1)
    assert 2 * tyre_of_size("235/55 R19 105H").radius == pytest.approx(741, abs=1)
    with pytest.raises(ValueError, match="235/55R19"):
        tyre_of_size("6.00-16")


def test_distances_to_a_tyre():
    """In the plane of its axis: to side, tread, within the rim, and to the centre of a rounded shoulder."""
    points = np.array([[140, 0, 260], [0, 0, 350], [0, 120, 0], [150, 0, 380]], dtype=float)
    assert TyreSolid(SQUARE).distance(points) == pytest.approx([40, 20, 80, np.hypot(50, 50)])
    shoulder = np.hypot(150 - 75, 380 - 305) - 25
    assert TyreSolid(ROUND).distance(points) == pytest.approx([40, 20, 80, shoulder])


def test_distances_to_a_shaft():
    points = np.array([[100, 0, 40], [-30, 0, 0], [260, 60, 0]], dtype=float)
    assert ShaftSolid(200.0, 15.0).distance(points) == pytest.approx([25, 15, np.hypot(60, 60) - 15])


def test_wheel_passes_a_bar_beside_it():
    """Beside the wheel: distance of the faces, in every pose."""
    found = least(upright((-500, 640, 330), (500, 640, 330)))
    assert found.clearance == near(800 - 640 - WIDTH / 2 - HALF)


def test_wheel_rises_toward_a_bar_above_it():
    """Over the tread: what full jounce leaves."""
    found = least(upright((-50, 800, 780), (50, 800, 780), jounce=80.0))
    assert found.clearance == near(780 - HALF - (320 + 80 + RADIUS))
    assert found.stand.jounce == pytest.approx(80, abs=1)
    assert found.between == ("a", "b")


def test_bar_across_the_tread_beyond_its_end():
    """A bar along y that ends before the wheel, at the height of the centre in the middle of travel: its end face."""
    found = least(upright((0, 500, 320), (0, 640, 320), tyre=replace(SQUARE, rim=10.0)))
    assert found.clearance == near(800 - 640 - WIDTH / 2)


def test_bar_may_reach_into_the_rim():
    """Within the rim: from the bar's corner to the barrel, at full rebound the barrel comes down on it."""
    found = least(upright((0, 500, 320), (0, 780, 320)))
    top = np.hypot(HALF, HALF + 80)
    assert found.clearance == near(RIM - top)


def test_steered_disc_swings_its_corner_inward():
    """A disc of width w and radius R turned by d about its upright middle line reaches w/2 cos d + R sin d inward."""
    model = upright((-600, 380, 320), (600, 380, 320), steer=50.0, jounce=1.0, rebound=1.0)
    mechanism = make_mechanism(model)
    ends = pose_many(mechanism, np.array([[0.0, -50.0], [0.0, 50.0]]))
    angle = np.abs(wheel_angles(ends)["w"].toe).max()
    assert np.degrees(angle) > 20
    found = least(model)
    reach_in = WIDTH / 2 * np.cos(angle) + RADIUS * np.sin(angle)
    assert found.clearance == near(800 - 380 - HALF - reach_in)
    assert abs(found.stand.steer) == pytest.approx(1, abs=0.02)


def test_steer_never_shrinks_what_the_wheel_takes():
    """Common practice, no source: steer only adds to the wheel's envelope."""
    for y in (380.0, 480.0, 560.0):
        model = upright((-600, y, 320), (600, y, 380), steer=30.0)
        assert least(model).clearance <= least(model, steered=False).clearance + EXACT.near + 2


def test_more_travel_and_a_larger_tyre_never_leave_more_room():
    bar = ((-200, 700, 700), (250, 760, 760))
    wide = [least(upright(*bar, jounce=j)).clearance for j in (20.0, 50.0, 80.0)]
    assert wide == sorted(wide, reverse=True)
    tyres = [least(upright(*bar, tyre=t)).clearance for t in (ROUND, SQUARE, replace(SQUARE, radius=340.0))]
    assert tyres == sorted(tyres, reverse=True)


def test_half_shaft_across_a_bar():
    """Two lines square to each other: their distance less the shaft's radius and half of the bar."""
    shaft = HalfShaft("inner_joint", "centre", np.array([0, 1.0, 0]), diameter=30.0)
    model = upright((-300, 500, 420), (300, 500, 420), shaft=shaft)
    model = replace(
        model,
        points={**model.points, "inner_joint": np.array([0, 200.0, 320])},
        wheels={"w": replace(model.wheels["w"], tyre=None)},
    )
    (mover,) = movers_of(model)
    assert mover.kind == "half-shaft"
    found = least(model)
    # the shaft leans by the jounce over its length; it crosses the bar's inner lower edge half way up
    lean = np.arctan2(80, 600)
    under = (420 - HALF - 320 - 80 * (500 + HALF - 200) / 600) * np.cos(lean)
    assert found.clearance == near(under - 15)
    assert found.stand.jounce == pytest.approx(80, abs=1)


def grown(model, required=15.0):
    _, found = room_of(make_mechanism(model), movers_of(model), {"wheel": required, "half-shaft": required})
    return {f.way: f for f in found if f.name == "bar.rod"}


def room(value):
    """What may be told for a true free width."""
    slack = GROWTH.near + GROWTH.share * abs(value) + 0.3
    return pytest.approx(value - slack / 2, abs=slack / 2 + 1e-3)


def test_section_beside_the_wheel_may_grow_up_to_the_clearance():
    """A bar along x has its own y axis to the left, towards the wheel: it may grow by the clearance less 15 mm."""
    ways = grown(upright((-500, 650, 330), (500, 650, 330)))
    assert ways["+y"].free == room(800 - 650 - WIDTH / 2 - HALF - 15)
    assert ways["+y"].toward @ [0, 1, 0] == pytest.approx(1)
    assert np.isinf(ways["-y"].free)
    assert np.isinf(ways["+z"].free)


def test_section_under_the_wheels_tread_may_grow_upward_only_so_far():
    ways = grown(upright((-50, 800, -140), (50, 800, -140)))
    assert ways["+z"].free == room((320 - 60 - RADIUS) - (-140 + HALF) - 15)
    assert np.isinf(ways["-z"].free)


def test_section_that_is_too_near_must_give_back():
    ways = grown(upright((-500, 684, 330), (500, 684, 330)))
    assert ways["+y"].free == pytest.approx(6 - 15, abs=0.6)
    assert ways["-y"].free == 0
    assert ways["+z"].free == 0


def test_reach_steps_over_nothing():
    """A thin shaft square to the way is met where it is, and passed where the way leads by."""
    shaft = ShaftSolid(400.0, 1.0)
    start = np.array([[200.0, -50, 0], [200.0, -50, 30.0]])
    toward = np.array([[0, 1.0, 0], [0, 1.0, 0]])
    free = reach(lambda at, _: shaft.distance(at), start, toward, 10.0)
    assert free[0] == pytest.approx(50 - 11, abs=0.3)
    assert np.isinf(free[1])


def test_a_wheel_that_stands_still_is_told():
    model = upright((-500, 640, 330), (500, 640, 330))
    joints = {n: replace(j, kind="bolted") if n == "slide" else j for n, j in model.joints.items()}
    with pytest.raises(PoseError, match="w does not travel"):
        least(replace(model, joints=joints))
