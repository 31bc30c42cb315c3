"""Faults are collected over all load cases and say where, what and what was expected."""

from dataclasses import replace

import pytest
from loads.vehicles import BOTH, axles, leaning_van, van

from loadpath.loads import KINDS, GivenForce, LoadCaseError, build
from loadpath.model import LoadSpec


def faults(specs, vehicle, model):
    with pytest.raises(LoadCaseError) as caught:
        build(specs, vehicle, model)
    for fault in caught.value.faults:
        assert fault.what
        assert fault.expected
        assert str(fault) in str(caught.value)
    return caught.value.faults


def only(kind, vehicle=None, model=None, /, **keys):
    found = faults({"it": KINDS[kind](**keys)}, vehicle or van(), model or axles())
    assert len(found) == 1, found
    return found[0]


def test_all_are_told_together():
    specs = {
        "bumpy": KINDS["bump"](g=-3.0, wheels=("rear_x",)),
        "fine": KINDS["static"](),
        "stop": KINDS["braking"](g=0.0, blend=2.0),
        "off": KINDS["launch"](),
    }
    found = faults(specs, van(mass=0.0), axles(drive="half-shaft", unit=None))
    places = [f.place for f in found]
    assert places[0] == "vehicle.mass"
    assert (
        places.index("load_cases.bumpy.g")
        < places.index("load_cases.stop.g")
        < places.index("load_cases.off.g")
    )
    assert {"load_cases.bumpy.wheels", "load_cases.stop.blend"} <= set(places)
    assert sum("unit is missing" in f.what for f in found) >= 2


def test_missing_vehicle_is_told_once():
    specs = {"a": KINDS["static"](), "b": KINDS["bump"](), "c": KINDS["given"]()}
    (fault,) = faults(specs, None, axles())
    assert fault.place == "vehicle"
    assert "needed by a, b" in fault.what


def test_unknown_wheel_has_its_nearest():
    fault = only("bump", wheels=("rear_left",))
    assert fault.nearest in ("rear_l", "rear_r")
    assert fault.expected == "one of rear_l, rear_r"
    assert str(fault).startswith(
        "load_cases.it.wheels: there is no wheel 'rear_left'; expected one of rear_l"
    )


@pytest.mark.parametrize("value", [0.0, -1.0, float("nan"), float("inf")])
@pytest.mark.parametrize("kind", ["bump", "braking", "reverse braking", "cornering"])
def test_sizes_above_zero(kind, value):
    assert only(kind, g=value).key == "g"


@pytest.mark.parametrize(
    ("kind", "keys", "key"),
    [
        ("combined", {"lateral": -0.5}, "lateral"),
        ("combined", {"vertical": 0.0}, "vertical"),
        ("combined", {"grade": float("nan")}, "grade"),
        ("combined", {"longitudinal": -0.5, "front_share": 1.5}, "front_share"),
        ("combined", {"longitudinal": 0.5}, "longitudinal"),
        ("braking", {"blend": 0.5}, "blend"),
        ("braking", {"front_share": -0.1}, "front_share"),
        ("launch", {"g": 0.4}, "g"),
        ("launch", {"rear_torque": 1e6}, "rear_torque"),
        ("pothole", {"vertical": 0.0}, "vertical"),
        ("pothole", {"longitudinal": float("inf")}, "longitudinal"),
        ("sum", {"factors": {}}, "factors"),
        ("given", {"acceleration": (float("nan"), 0.0, 0.0)}, "acceleration"),
    ],
)
def test_bad_keys(kind, keys, key):
    assert only(kind, **keys).key == key


def test_launch_wants_one_of_torque_and_g():
    model = axles(drive="half-shaft")
    assert "nothing drives" in only("launch", van(), model).what
    assert "both" in only("launch", van(), model, g=0.3, rear_torque=1e6).what


def test_torques_need_a_part_to_go_to():
    fault = only("launch", van(), axles(drive="half-shaft", unit=None, sides=("l",)), g=0.3)
    assert fault.what == "wheels.rear_l.unit is missing"
    fault = only("braking", van(), axles(brake="inboard", brake_part=None, sides=("l",)))
    assert fault.what == "wheels.rear_l.brake_part is missing"
    fault = only("braking", van(), axles(brake="inboard", brake_part="rear_unt", sides=("l",)))
    assert fault.nearest == "rear_unit"
    model = axles(brake="inboard", sides=("l",))
    loose = replace(model, joints={n: j for n, j in model.joints.items() if n != "rear_unit"})
    assert "has no joint" in only("braking", van(), loose).what


@pytest.mark.parametrize(
    ("vehicle", "key"),
    [
        (van(front_share=1.0), "front_share"),
        (van(wheelbase=float("nan")), "wheelbase"),
        (van(cg_height=-1.0), "cg_height"),
        (van(roll_stiffness=0.0), "roll_stiffness"),
        (van(front=replace(van().front, track=0.0)), "front.track"),
        (van(rear=replace(van().rear, unsprung_mass=2.0)), "rear.unsprung_mass"),
        (van(rear=replace(van().rear, roll_share=0.5)), "roll_share"),
    ],
)
def test_vehicle_data(vehicle, key):
    fault = only("static", vehicle)
    assert fault.place == f"vehicle.{key}"


def test_wheels_that_are_missing_or_double():
    model = axles()
    (fault,) = faults({"a": KINDS["bump"](), "b": KINDS["static"]()}, van(), replace(model, wheels={}))
    assert fault.place == "wheels"
    twin = replace(model.wheels["rear_l"], name="twin")
    fault = only("static", van(), replace(model, wheels={**model.wheels, "twin": twin}))
    assert fault.place == "wheels.twin"
    assert "rear left wheel, as rear_l is" in fault.what


@pytest.mark.parametrize(
    ("kind", "keys", "what", "expected"),
    [
        ("cornering", {"g": 1.3}, "overturns at 1.30 g", "less than 1.11 g"),
        ("braking", {"g": 2.5}, "rear axle lifts at 2.50 g", "less than 2.36 g"),
        ("reverse braking", {"g": 2.5}, "front axle lifts", "less than 2.01 g"),
    ],
)
def test_states_that_wheels_cannot_balance(kind, keys, what, expected):
    """Limits by hand: mean t/(2h) = 1.11; share × L/h = 0.54 × 4.368 = 2.36 and 0.46 × 4.368 = 2.01."""
    fault = only(kind, van(), axles(BOTH), **keys)
    assert fault.place == "load_cases.it"
    assert what in fault.what
    assert expected in fault.expected


def test_soft_springs():
    assert "falls over" in only("cornering", leaning_van(roll_stiffness=1.6e7), g=0.2).what


def test_sums_of_what_there_is_not():
    specs = {"total": KINDS["sum"](factors={"bumb": 1.0}), "bump": KINDS["bump"]()}
    (fault,) = faults(specs, van(), axles())
    assert (fault.place, fault.nearest) == ("load_cases.total.factors", "bump")


def test_circles_of_sums():
    specs = {
        "a": KINDS["sum"](factors={"b": 1.0}),
        "b": KINDS["sum"](factors={"a": 1.0, "rest": 1.0}),
        "rest": KINDS["static"](),
    }
    assert [f.case for f in faults(specs, van(), axles())] == ["a", "b"]


def test_a_sum_of_a_faulty_case_adds_no_fault():
    specs = {"total": KINDS["sum"](factors={"bump": 1.0}), "bump": KINDS["bump"](g=0.0)}
    (fault,) = faults(specs, van(), axles())
    assert fault.case == "bump"


@pytest.mark.parametrize(
    ("force", "key", "nearest"),
    [
        (GivenForce(), "forces[0]", ""),
        (GivenForce(wheel="rear_l", part="rear_unit"), "forces[0]", ""),
        (GivenForce(part="rear_unit"), "forces[0].point", ""),
        (GivenForce(point="rear_unit"), "forces[0].part", ""),
        (GivenForce(wheel="rear_u"), "forces[0].wheel", "rear_r"),
        (GivenForce(part="rear_units", point="rear_unit"), "forces[0].part", "rear_unit"),
        (GivenForce(part="rear_unit", point="rear_1"), "forces[0].point", None),
        (GivenForce(part="body", point="nowhere"), "forces[0].point", None),
        (GivenForce(wheel="rear_l", force=(float("inf"), 0, 0)), "forces[0].force", ""),
    ],
)
def test_places_of_given_forces(force, key, nearest):
    fault = only("given", forces=(force,))
    assert fault.key == key
    assert nearest is None or fault.nearest == nearest or key.endswith("wheel")


def test_a_spec_of_no_kind():
    with pytest.raises(TypeError, match="none of the kinds static, bump"):
        build({"it": LoadSpec()}, van(), axles())
