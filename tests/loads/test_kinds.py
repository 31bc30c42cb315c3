"""What is particular to each kind of load case."""

import dataclasses

import numpy as np
import pytest
from loads.vehicles import AXES, BACKWARD, BOTH, G, axles, forces, local, one, van

from loadpath.loads import KINDS, GivenForce, LoadKind, build
from loadpath.model import LoadCase, LoadSpec


def test_every_kind_is_a_declared_frozen_spec():
    assert set(KINDS) == {
        "static",
        "bump",
        "braking",
        "reverse braking",
        "cornering",
        "launch",
        "pothole",
        "combined",
        "sum",
        "given",
        "rebound",
        "kerb strike",
        "kerb climb",
        "twist",
        "jacking",
        "towing",
        "tie-down",
        "park lock",
    }
    for word, kind in KINDS.items():
        assert issubclass(kind, LoadSpec)
        assert kind.kind == word
        for field in (*dataclasses.fields(kind), *dataclasses.fields(GivenForce)):
            assert field.metadata["doc"], (word, field.name)
            assert field.metadata["unit"] in ("", "g", "N", "N*mm", "%", "mm", "deg")


def test_order_class_and_size():
    specs = {
        "second": KINDS["bump"](g=2.5, cls="repeated"),
        "hole": KINDS["pothole"](),
        "first": KINDS["static"](),
    }
    cases = build(specs, van(), axles())
    assert list(cases) == list(specs)
    assert [(c.name, c.kind, c.cls) for c in cases.values()] == [
        ("second", "bump", "repeated"),
        ("hole", "pothole", "abuse"),
        ("first", "static", "rare"),
    ]
    assert cases["second"].size == ("g", 2.5)
    assert cases["hole"].size == ("× static wheel load", 4.0)


def test_a_new_kind_needs_no_other_change():
    """Registered or not, a subclass builds like the others."""

    @dataclasses.dataclass(frozen=True, kw_only=True)
    class Floating(LoadKind):
        kind = "floating"
        on_wheels = False

        def faults(self, site):
            return iter(())

        def build(self, site):
            return LoadCase(site.name, self.kind, self.cls, np.zeros(3), ())

    assert build({"it": Floating()}, None, axles())["it"].kind == "floating"


class TestBump:
    def test_field_is_the_factor(self):
        for axes in (AXES, BACKWARD):
            model = axles(axes=axes)
            assert local(model, one("bump", van(), model, g=3.0).field) == pytest.approx([0, 0, -3 * G])

    def test_one_wheel(self):
        """Mean of 3 and 1 over the axle: wheels less mass of the axle times field closes."""
        model = axles()
        case = one("bump", van(), model, g=3.0, wheels=("rear_l",))
        wheels = forces(case, model)
        static = 3.05 * 0.54 * G / 2
        assert [w[2] for w in wheels.values()] == pytest.approx([3 * static, static])
        assert local(model, case.field) == pytest.approx([0, 0, -2 * G])
        assert sum(w[2] for w in wheels.values()) == pytest.approx(3.05 * 0.54 * 2 * G)
        assert any("one side" in n for n in case.notes)

    def test_one_axle_of_two(self):
        model = axles(BOTH)
        case = one("bump", van(), model, g=3.0, wheels=("rear_l", "rear_r"))
        assert local(model, case.field)[2] == pytest.approx(-3 * G)
        assert forces(case, model)["front_l"][2] == pytest.approx(3.05 * 0.46 * G / 2)
        assert any("other axle" in n for n in case.notes)

    def test_a_half_model_stands_for_both_sides(self):
        case = one("bump", van(), axles(sides=("l",)), g=3.0)
        assert case.field[2] == pytest.approx(-3 * G)
        assert not case.notes


class TestPothole:
    def test_field(self):
        """Deceleration from the force over the vehicle's mass: 2 × 54 % of the weight is 1.08 g."""
        model = axles()
        case = one("pothole", van(), model, longitudinal=2.0, vertical=3.0)
        assert local(model, case.field) == pytest.approx([1.08 * G, 0, -3 * G])
        force = sum(forces(case, model).values())
        assert force[0] + 3.05 * case.field[0] == pytest.approx(0, abs=1e-9)

    def test_one_wheel(self):
        model = axles()
        case = one("pothole", van(), model, longitudinal=-2.0, vertical=3.0, wheels=("rear_r",))
        wheels = forces(case, model)
        static = 3.05 * 0.54 * G / 2
        assert wheels["rear_l"] == pytest.approx([0, 0, static])
        assert wheels["rear_r"] == pytest.approx([2 * static, 0, 3 * static])
        assert local(model, case.field) == pytest.approx([-0.54 * G, 0, -2 * G])


class TestLaunch:
    def test_torque_and_acceleration_agree(self):
        model = axles(drive="half-shaft")
        by_torque = one("launch", van(), model, rear_torque=3.6e6)
        g = 3.6e6 / 352 / 3.05 / G
        by_g = one("launch", van(), model, g=g)
        assert forces(by_torque, model)["rear_l"] == pytest.approx(forces(by_g, model)["rear_l"], rel=1e-12)
        assert by_torque.size is None
        assert by_torque.field == pytest.approx(by_g.field)

    def test_both_axles_share_as_their_loads(self):
        model = axles(BOTH, drive="half-shaft")
        wheels = forces(one("launch", van(), model, g=0.4), model)
        assert wheels["front_l"][0] / wheels["front_l"][2] == pytest.approx(0.4)
        assert wheels["rear_l"][0] / wheels["rear_l"][2] == pytest.approx(0.4)

    def test_an_axle_outside_the_model_speeds_the_vehicle_up(self):
        model = axles(drive="half-shaft")
        case = one("launch", van(), model, rear_torque=2.0e6, front_torque=1.0e6)
        assert case.field[0] == pytest.approx(-3.0e6 / 352 / 3.05)
        assert forces(case, model)["rear_l"][0] == pytest.approx(1.0e6 / 352)
        assert any("no front wheel" in n for n in case.notes)

    def test_too_much_torque_is_told(self):
        """1.2 × 0.54 / (1 - 1.2 × 760 / 3320) = 0.893 g."""
        case = one("launch", van(), axles(drive="half-shaft"), g=0.95)
        assert any("ends at 0.89 g" in n for n in case.notes)
        assert any(n.startswith("rear_l, rear_r would need a friction of") for n in case.notes)
        assert not one("launch", van(), axles(drive="half-shaft"), g=0.89).notes

    def test_wheels_of_an_axle_get_the_same_torque_in_a_turn(self):
        model = axles(drive="half-shaft")
        wheels = forces(one("combined", van(), model, longitudinal=0.3, lateral=0.5), model)
        assert wheels["rear_l"][0] == pytest.approx(wheels["rear_r"][0])
        assert wheels["rear_l"][2] > 1.5 * wheels["rear_r"][2]


class TestBraking:
    def test_same_friction_on_all_wheels(self):
        model = axles(BOTH)
        for wheel in forces(one("braking", van(), model, g=0.9), model).values():
            assert -wheel[0] / wheel[2] == pytest.approx(0.9)

    def test_front_share(self):
        model = axles(BOTH)
        wheels = forces(one("braking", van(), model, g=0.9, front_share=0.8), model)
        total = 3.05 * 0.9 * G
        assert wheels["front_l"][0] == pytest.approx(-0.8 * total / 2)
        assert wheels["rear_l"][0] == pytest.approx(-0.2 * total / 2)

    def test_field_points_the_way_the_vehicle_goes(self):
        assert one("braking", g=0.8).field[0] == pytest.approx(0.8 * G)
        assert one("reverse braking", g=0.8).field[0] == pytest.approx(-0.8 * G)

    def test_more_than_tyres_give_is_told(self):
        assert any("friction of 1.30" in n for n in one("braking", g=1.3).notes)
        assert not one("braking", g=1.1).notes


class TestCombined:
    def test_is_braking_and_cornering_at_once(self):
        model = axles(BOTH)
        both = forces(one("combined", van(), model, longitudinal=-0.5, lateral=0.4), model)
        brake = forces(one("braking", van(), model, g=0.5), model)
        turn = forces(one("cornering", van(), model, g=0.4), model)
        rest = forces(one("static", van(), model), model)
        for wheel in both:
            expected = brake[wheel][2] + turn[wheel][2] - rest[wheel][2]
            assert both[wheel][2] == pytest.approx(expected)

    def test_unequal_brakes_leave_a_yaw_moment_that_is_told(self):
        """Every wheel brakes with 0.5 of its load: 0.5 m a h of roll moment, about the vertical."""
        case = one("combined", van(), axles(BOTH), longitudinal=-0.5, lateral=0.4)
        moment = 0.5 * 3.05 * 0.4 * G * 760 / 1e6
        assert any(f"{moment:.2f} kN·m about the vertical" in n for n in case.notes)

    def test_by_the_brakes_while_reversing(self):
        model = axles(drive="half-shaft")
        case = one("combined", van(), model, longitudinal=0.8, by="brakes")
        same = one("reverse braking", van(), model, g=0.8)
        assert forces(case, model)["rear_l"] == pytest.approx(forces(same, model)["rear_l"])
        assert {w.at for w in case.wheel_loads} == {"contact patch"}


class TestSum:
    def build(self, factors, **more):
        specs = {
            "all": KINDS["sum"](factors=factors),
            "up": KINDS["bump"](g=2.0),
            "turn": KINDS["cornering"](g=0.4),
            "hole": KINDS["pothole"](),
        }
        return build(specs, van(roll_stiffness=2e8), axles())

    def test_is_linear(self):
        cases = self.build({"up": 0.5, "turn": 0.5})
        total, up, turn = cases["all"], cases["up"], cases["turn"]
        assert next(iter(cases)) == "all"
        assert total.field == pytest.approx(0.5 * up.field + 0.5 * turn.field)
        assert total.roll == pytest.approx(0.5 * turn.roll)
        assert total.roll != 0
        for a, b, c in zip(total.wheel_loads, up.wheel_loads, turn.wheel_loads, strict=True):
            assert a.force == pytest.approx(0.5 * b.force + 0.5 * c.force)
            assert sum(v for _, v in a.terms) == pytest.approx(a.force.sum())
        assert len(total.loads) == len(up.loads) + len(turn.loads)
        assert sum(p.force for p in total.loads) == pytest.approx(sum(w.force for w in total.wheel_loads))
        assert not any("add to" in note for note in total.notes)

    def test_gravity_taken_twice_is_told(self):
        notes = self.build({"up": 1.0, "turn": 1.0})["all"].notes
        assert any("add to 2" in n for n in notes)

    def test_a_difference_is_an_increment(self):
        total = self.build({"hole": 1.0, "up": -1.0})["all"]
        assert {w.at for w in total.wheel_loads} == {"contact patch and wheel centre"}
        assert total.field[2] == pytest.approx(-2 * G)

    def test_what_stands_by_itself_is_summed_too(self):
        """Wind-up of the pose and pushes of stops and dampers: none in a difference, twice in a double."""
        for factors, share in (
            ({"up": 1.0, "turn": -1.0}, 0.0),
            ({"up": 2.0}, 2.0),
            ({"up": 0.5, "turn": 0.5}, 1.0),
        ):
            total = self.build(factors)["all"]
            assert (total.strain, total.pushes) == (share, share)

    def test_pulling_wheels_are_told(self):
        assert any("pulls the ground" in n for n in self.build({"up": -1.0})["all"].notes)

    def test_sums_of_sums(self):
        specs = {
            "outer": KINDS["sum"](factors={"inner": 2.0}),
            "inner": KINDS["sum"](factors={"rest": 0.5}),
            "rest": KINDS["static"](),
        }
        cases = build(specs, van(), axles())
        assert cases["outer"].field == pytest.approx(cases["rest"].field)


class TestGiven:
    def test_needs_no_vehicle(self):
        model = axles(axes=BACKWARD)
        forces_ = (
            GivenForce(wheel="rear_l", force=(100.0, 0.0, 700.0)),
            GivenForce(wheel="rear_l", at="wheel centre", force=(-50.0, 0.0, 0.0)),
            GivenForce(part="rear_unit", point="rear_unit", moment=(0.0, 1e5, 0.0)),
        )
        spec = KINDS["given"](forces=forces_, acceleration=(0.5, 0.0, 0.0))
        case = build({"it": spec}, None, model)["it"]
        assert case.field == pytest.approx([-0.5 * G, 0, -G])
        patch, centre, moment = case.loads
        assert patch.position == pytest.approx([0, -845, 0], abs=1e-9)
        assert centre.position == pytest.approx([0, -845, 352])
        assert patch.force == pytest.approx([100, 0, 700])
        assert moment.moment == pytest.approx([0, 1e5, 0])
        (load,) = case.wheel_loads
        assert load.at == "contact patch and wheel centre"
        assert dict(load.terms) == {
            "forward: given at the contact patch": -100.0,
            "up: given at the contact patch": 700.0,
            "forward: given at the wheel centre": 50.0,
        }

    def test_gravity_off(self):
        case = build({"it": KINDS["given"](gravity=0.0)}, None, axles())["it"]
        assert not case.field.any()
        assert case.loads == ()
