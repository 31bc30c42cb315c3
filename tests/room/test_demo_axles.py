"""Clearances of the demo axles against plain sampling of poses and surfaces, both sides, and what a case may say."""

from dataclasses import replace

import numpy as np
import pytest

from loadpath.case import CaseError, read_case
from loadpath.model import spin_axis
from loadpath.pose import make_mechanism, pose_many
from loadpath.room import EXACT, clearances_of, movers_of


@pytest.fixture(scope="module")
def front(request):
    return read_case(request.config.rootpath / "cases" / "town_car_front.toml").model


@pytest.fixture(scope="module")
def rear(request):
    return read_case(request.config.rootpath / "cases" / "light_van_rear.toml").model


def sampled(model, part, radius, tyre):
    """Least distance of a round link from the left tyre, over a grid of poses and of points on the link."""
    mechanism = make_mechanism(model)
    wheel = model.wheels["wheel_l"]
    low, high = wheel.travel()
    rack = next((j.travel for j in model.joints.values() if j.rack), 0.0)
    steer = np.linspace(-rack, rack, 15) if rack else [0.0]
    wheels = {"wheel_l", "wheel_r"}
    grid = [mechanism.targets(dict.fromkeys(wheels, j), s) for j in np.linspace(low, high, 25) for s in steer]
    poses = pose_many(mechanism, np.array(grid))
    ends = [poses.point(part, p) for p in model.parts[part].members[0].path]
    line = ends[1] - ends[0]
    x = line / np.linalg.norm(line, axis=1)[:, None]
    y = np.cross(x, [0.3, 0.5, 0.8])
    y = y / np.linalg.norm(y, axis=1)[:, None]
    angles = np.linspace(0, 2 * np.pi, 48, endpoint=False)
    circle = radius * (np.cos(angles)[:, None, None] * y + np.sin(angles)[:, None, None] * np.cross(x, y))
    along = np.linspace(0, 1, 241)[:, None, None, None]
    points = ends[0] + along * line + circle
    spin = poses.turned(wheel.part, wheel.centre) @ spin_axis(model.axes, wheel)
    arm = points - poses.point(wheel.part, wheel.centre)
    aside = np.abs((arm * spin).sum(axis=-1))
    out = np.sqrt(np.maximum((arm**2).sum(axis=-1) - aside**2, 0.0))
    # the ring as a set: its nearest point in the half plane through the axis, shoulders as quarter circles
    side = np.maximum(aside - tyre.width / 2, 0)
    r = tyre.shoulder
    flat = np.hypot(side, np.maximum(np.maximum(tyre.rim - out, out - tyre.radius + r), 0))
    core = (
        np.hypot(
            np.maximum(aside - tyre.width / 2 + r, 0),
            np.maximum(np.maximum(tyre.rim + r - out, out - tyre.radius + r), 0),
        )
        - r
    )
    return float(np.minimum(flat, core).min())


@pytest.mark.parametrize(
    ("name", "part"), [("front", "bar_link_l"), ("rear", "toe_link_l"), ("rear", "drop_link_l")]
)
def test_no_sampled_point_comes_nearer_and_none_is_missed(request, name, part):
    model = request.getfixturevalue(name)
    movers = [m for m in movers_of(model) if m.name == "wheel_l"]
    found = {c.name: c for c in clearances_of(make_mechanism(model), movers)}[part]
    section = model.parts[part].members[0].sections[0][0]
    true = sampled(model, part, (section.box[1] - section.box[0])[0] / 2, model.wheels["wheel_l"].tyre)
    assert found.clearance <= true + 1e-2
    assert found.clearance >= true - (EXACT.near + EXACT.share * true) - 0.5  # what the grid itself misses


def test_left_and_right_have_the_same_room(front):
    found = clearances_of(make_mechanism(front), [m for m in movers_of(front) if m.kind == "wheel"])
    by_side = {(c.mover.name, c.name): c.clearance for c in found}
    assert len(by_side) > 10
    for (mover, name), value in by_side.items():
        if mover == "wheel_l":
            swapped = ".".join(p[:-2] + "_r" if p.endswith("_l") else p for p in name.split("."))
            other = by_side["wheel_r", swapped]
            assert other == pytest.approx(value, abs=EXACT.near + EXACT.share * abs(value) + 0.1)


def test_steer_never_shrinks_the_envelope(front):
    """Common practice, no source: the poses without steer are among those with it, so no clearance grows by it."""
    movers = [m for m in movers_of(front) if m.name == "wheel_l"]
    mechanism = make_mechanism(front)
    steered = {c.name: c.clearance for c in clearances_of(mechanism, movers)}
    straight = {c.name: c.clearance for c in clearances_of(mechanism, movers, steered=False)}
    for name, value in straight.items():
        assert steered[name] <= value + EXACT.near + EXACT.share * abs(value)


def test_where_it_is_nearest_is_where_it_says(rear):
    """The place on the member is as far from the tyre as told, in the pose that is told."""
    mechanism = make_mechanism(rear)
    movers = [m for m in movers_of(rear) if m.name == "wheel_l"]
    found = {c.name: c for c in clearances_of(mechanism, movers)}["toe_link_l"]
    target = mechanism.targets({"wheel_l": found.stand.jounce, "wheel_r": found.stand.jounce})
    frame = movers[0].frame(pose_many(mechanism, target[None]))
    own = (found.at - frame.origin[0]) @ frame.turn[0]
    distance = movers[0].solid.distance(own[None])[0]
    assert distance == pytest.approx(found.clearance, abs=EXACT.near + EXACT.share * distance + 0.1)


def test_a_wheel_without_tyre_takes_no_part(rear):
    wheels = {n: replace(w, tyre=None) for n, w in rear.wheels.items()}
    assert {m.kind for m in movers_of(replace(rear, wheels=wheels))} == {"half-shaft"}


@pytest.mark.parametrize(
    ("tyre", "words"),
    [
        ('{ size = "235-55" }', "is no size of a tyre"),
        ("{ width = 235, radius = 370 }", "tyre.rim"),
        ('{ size = "155/65R13" }', "less than the wheel's loaded radius"),
        ('{ size = "235/55R19", rim = 360 }', "leaves no tyre"),
        ('{ size = "235/55R19", shoulder = 130 }', "more than half of the width"),
    ],
)
def test_mistakes_in_a_tyre_are_told(request, tmp_path, tyre, words):
    text = (request.config.rootpath / "cases" / "light_van_rear.toml").read_text()
    file = tmp_path / "case.toml"
    file.write_text(text.replace('{ size = "235/55R19" }', tyre))
    with pytest.raises(CaseError) as error:
        read_case(file)
    assert words in str(error.value)


def test_a_measured_tyre_is_as_good_as_its_size(request, tmp_path):
    text = (request.config.rootpath / "cases" / "light_van_rear.toml").read_text()
    file = tmp_path / "case.toml"
    file.write_text(text.replace('{ size = "235/55R19" }', "{ width = 235, radius = 370.55, rim = 223.3 }"))
    tyre = read_case(file).model.wheels["wheel_r"].tyre
    assert (tyre.width, tyre.radius, tyre.rim, tyre.shoulder) == pytest.approx((235, 370.55, 223.3, 23.5))
