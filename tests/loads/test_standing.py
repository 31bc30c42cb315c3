"""The pose that a load case asks for, and loading states."""

from dataclasses import replace
from types import MappingProxyType

import pytest
from loads.vehicles import BOTH, G, axles, forces, leaning_van, one, van

from loadpath.loads import KINDS, LoadCaseError, build, pose_words, with_parts
from loadpath.model import Coil, ForceElement, PoseWish


def states(base=None):
    """Design, kerb (lighter, stands 12 mm lower behind: rebound is negative) and gross."""
    base = base or van()
    kerb = replace(base, mass=2.3, front_share=0.55, state="kerb", rear=replace(base.rear, travel=-12.0))
    gross = replace(
        base,
        mass=3.8,
        front_share=0.42,
        cg_height=820.0,
        state="gross",
        front=replace(base.front, travel=4.0),
        rear=replace(base.rear, travel=18.0),
    )
    return replace(base, states=MappingProxyType({"kerb": kerb, "gross": gross}))


def sprung(model):
    """The same on struts that tell what they push with."""
    coil = Coil(60.0, 8000.0, None)
    elements = {
        w.name: ForceElement(w.name, (w.part, "body"), (w.centre, w.centre), w.name, True, 0.0, 60.0, coil)
        for w in model.wheels.values()
    }
    return replace(model, force_elements=elements)


class TestStates:
    @pytest.mark.parametrize(
        ("state", "load"),
        [(None, 3.05 * 0.54), ("design", 3.05 * 0.54), ("kerb", 2.3 * 0.45), ("gross", 3.8 * 0.58)],
    )
    def test_a_state_has_its_own_wheel_loads(self, state, load):
        model = axles()
        case = one("bump", states(), model, g=3.0, state=state)
        assert forces(case, model)["rear_l"][2] == pytest.approx(3 * load * G / 2)
        (name, _), _ = case.wheel_loads[0].terms
        assert name == f"up: static in {state or 'design'}"

    def test_transfer_with_the_height_of_the_state(self):
        model = axles()
        found = forces(one("braking", states(), model, g=1.0, state="gross"), model)["rear_l"][2]
        assert found == pytest.approx(3.8 * G * (0.58 - 820 / 3320) / 2)

    def test_unknown_and_meaningless_states(self):
        for kind, keys, word in (
            ("bump", {"state": "gros"}, "gros"),
            ("given", {"state": "gross"}, "no meaning"),
        ):
            with pytest.raises(LoadCaseError, match=word):
                one(kind, states(), axles(), **keys)


class TestPose:
    def test_without_a_word_as_the_state_stands(self):
        model = axles(BOTH)
        cases = {
            s: build({"it": KINDS["static"](state=s)}, states(), model)["it"]
            for s in ("design", "kerb", "gross")
        }
        assert (cases["design"].pose, cases["design"].strain) == (None, 1.0)
        assert cases["kerb"].pose.wheels == {"front_l": 0.0, "front_r": 0.0, "rear_l": -12.0, "rear_r": -12.0}
        assert cases["gross"].pose.wheels == {"front_l": 4.0, "front_r": 4.0, "rear_l": 18.0, "rear_r": 18.0}
        assert cases["gross"].strain == 1.0

    def test_a_word_of_its_own_wins(self):
        wish = PoseWish(jounce=70.0)
        assert one("bump", states(), axles(), state="gross", pose=wish).pose == wish
        assert one("static", states(), axles(), state="gross", pose=PoseWish(by="design")).pose.by == "design"

    def test_roll_about_where_the_state_stands(self):
        wish = PoseWish(by="from roll")
        case = one("cornering", states(leaning_van()), axles(), g=0.5, state="gross", pose=wish)
        assert case.pose == PoseWish(by="from roll", wheels={"rear_l": 18.0, "rear_r": 18.0})

    def test_from_load_needs_springs_that_tell(self):
        spec = {"it": KINDS["bump"](pose=PoseWish(by="from load"))}
        with pytest.raises(LoadCaseError, match="no strut of rear_l, rear_r says") as caught:
            build(spec, van(), axles())
        (fault,) = caught.value.faults
        assert fault.place == "load_cases.it.pose"
        assert build(spec, van(), sprung(axles()))["it"].pose.by == "from load"

    def test_a_travel_of_its_own_twists_the_bar(self):
        """What is told of the bar at one height does not hold where each wheel has its travel."""
        model = sprung(axles())
        for kind, keys in (("bump", {"side": "left"}), ("twist", {})):
            for pose, told in (
                (None, True),
                (PoseWish(by="from load"), False),
                (PoseWish(jounce=20.0), False),
            ):
                notes = one(kind, van(), model, pose=pose, **keys).notes
                assert any("anti-roll bar" in note for note in notes) == told, (kind, pose)

    def test_travels_of_wheels_that_there_are(self):
        wish = PoseWish(wheels={"rear_x": 10.0}, jounce=float("nan"))
        with pytest.raises(LoadCaseError) as caught:
            one("static", van(), axles(), pose=wish)
        assert [f.key for f in caught.value.faults] == ["pose.wheels", "pose"]

    def test_words(self):
        assert pose_words(None) == "design height"
        assert pose_words(PoseWish(jounce=70.0)) == "jounce 70 mm"
        assert pose_words(PoseWish(wheels={"a": 18.0, "b": 18.0})) == "jounce 18 mm"
        assert (
            pose_words(PoseWish(wheels={"a": 18.0, "b": 4.0}, rack=5.0)) == "jounce a 18, b 4 mm, rack 5 mm"
        )
        assert pose_words(PoseWish(by="from roll")) == "body roll"


class TestSums:
    def build(self, *poses, own=None):
        specs = {f"c{k}": KINDS["bump"](pose=pose) for k, pose in enumerate(poses)}
        specs["all"] = KINDS["sum"](factors=dict.fromkeys(specs, 0.5), pose=own)
        return build(specs, van(), sprung(axles()))["all"]

    def test_in_the_pose_of_its_load_cases(self):
        wish = PoseWish(jounce=30.0)
        total = self.build(wish, wish)
        assert (total.pose, total.strain) == (wish, 1.0)

    def test_of_an_increment_nothing_is_wound_up(self):
        wish = PoseWish(jounce=30.0)
        specs = {
            "a": KINDS["bump"](pose=wish),
            "b": KINDS["static"](pose=wish),
            "more": KINDS["sum"](factors={"a": 1.0, "b": -1.0}),
        }
        assert build(specs, van(), axles())["more"].strain == 0.0

    def test_different_poses_have_no_sum(self):
        for poses in (
            (PoseWish(jounce=30.0), None),
            (PoseWish(by="from load"), PoseWish(by="from load")),
        ):
            with pytest.raises(LoadCaseError, match="each in its own pose"):
                self.build(*poses)

    def test_unless_it_says_its_own(self):
        wish = PoseWish(by="design")
        total = self.build(PoseWish(jounce=30.0), None, own=wish)
        assert (total.pose, total.strain) == (wish, 1.0)


def test_some_load_cases_with_what_their_sums_are_made_of():
    specs = {
        "total": KINDS["sum"](factors={"inner": 2.0}),
        "inner": KINDS["sum"](factors={"rest": 0.5}),
        "other": KINDS["braking"](),
        "rest": KINDS["static"](),
    }
    assert list(with_parts(specs, ["total"])) == ["total", "inner", "rest"]
    assert list(with_parts(specs, ["rest", "nothing"])) == ["rest"]
    some, every = build(with_parts(specs, ["total"]), van(), axles()), build(specs, van(), axles())
    assert some["total"].field == pytest.approx(every["total"].field)
