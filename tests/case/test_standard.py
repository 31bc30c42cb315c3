"""How a case takes the standard load cases: all, some, changed, in states, at points, from a set of its own."""

from __future__ import annotations

import tomllib
from dataclasses import replace

import numpy as np
import pytest
from case_files import GOOD, edited, mistakes, read
from loads.vehicles import BOTH, G, axles, leaning_van, local, resultant

from loadpath.case import load_case_words, row_load_case
from loadpath.loads import build, standard_set
from loadpath.model import LumpedMass

_BEFORE, _, _REST = GOOD.partition("[load_cases.bump]")
BARE = _BEFORE + "[targets" + _REST.partition("[targets")[2]
"""The good file without load cases."""

DRIVEN = edited(
    ('axle = "rear"\n', 'axle = "rear"\ndrive = "half-shaft"\nunit = "unit"\n'),
    (
        "[joints.mount_l]",
        '[parts.unit]\nkind = "rigid"\n[joints.unit_l]\nbetween = ["unit", "cradle"]\nkind = "bolted"\n'
        '[joints.unit_l.at]\npoint = "rail_rear_l"\n[joints.mount_l]',
    ),
    base=BARE,
).replace('[joints.unit_l.at]\npoint = "rail_rear_l"\n', 'point = "rail_rear_l"\n')


def taken(words: str, more: str = "", base: str = BARE, **files: str):
    """A case that takes standard load cases by `words` at its head, with more tables at its end."""
    return read(base.replace("[vehicle]", f"{words}\n[vehicle]", 1) + more, **files)


def told(words: str, more: str = "", base: str = BARE, **files: str) -> list[str]:
    """Mistakes of such a case as texts."""
    text = base.replace("[vehicle]", f"{words}\n[vehicle]", 1) + more
    return [f"{m.file} {m}" for m in mistakes(text, **files)]


class TestTheSet:
    def test_every_row_says_what_and_where_from(self):
        for name, row in standard_set().items():
            spec = row_load_case(row)
            assert all((row.text.what, row.text.source, row.text.acts_at, row.text.others)), name
            assert spec.multiplies(), name
            assert load_case_words(spec).startswith(spec.kind), name
            assert spec.cls == row.load_case["class"], name
            assert spec.cls in ("rare", "abuse"), name

    def test_common_practice_is_called_so(self):
        """A source is a work, a rule of statics, another row, or is said to be none."""
        known = ("Brown", "Regulation", "Garrett", "common practice, no source", "definition", "friction")
        for name, row in standard_set().items():
            reference = row.text.source.removeprefix("as ").split(";")[0].split(",")[0]
            assert reference in standard_set() or any(k in row.text.source for k in known), name

    def test_it_holds_the_states_that_a_review_asks_for(self):
        kinds = {row.load_case["kind"] for row in standard_set().values()}
        assert kinds == {
            *("static", "bump", "rebound", "pothole", "braking", "reverse braking", "cornering", "combined"),
            *("launch", "park lock", "kerb strike", "kerb climb", "twist", "jacking", "towing", "tie-down"),
        }
        factors = [
            row.load_case.get("factor") for n, row in standard_set().items() if "launch" in n or "torque" in n
        ]
        assert {f > 0 for f in factors} == {True, False}


def test_every_row_balances_wheels_against_mass_times_field():
    """All four wheels, drive and masses of a whole vehicle; rows at points have loads of their own."""
    model = axles(BOTH, drive="half-shaft")
    heavy = {w.part: LumpedMass(w.part, w.part, w.centre, 0.04, np.eye(3)) for w in model.wheels.values()}
    model = replace(model, masses=heavy)
    rows = {n: replace(row_load_case(r), pose=None) for n, r in standard_set().items() if r.places is None}
    built = build(rows, leaning_van(roll_stiffness=3e8), model)
    assert len(built) == len(rows)
    for name, case in built.items():
        force, _ = resultant(case, model)
        assert force + 3.05 * local(model, case.field) == pytest.approx(np.zeros(3), abs=1e-9 * 3.05 * G), (
            name
        )


class TestTaking:
    def test_all_with_their_twins(self):
        case = taken('standard_loads = "all"', base=DRIVEN)
        rows = [name for name, row in standard_set().items() if row.places is None]
        twins = [name.removesuffix("_l") + "_r" for name in rows if name.endswith("_l")]
        assert set(case.load_specs) == {*rows, *twins}
        left, right = case.load_specs["bump_in_corner_l"], case.load_specs["bump_in_corner_r"]
        assert (left.side, left.turn, right.side, right.turn) == ("right", "left", "left", "right")

    def test_some_beside_those_of_the_file(self):
        case = taken('standard_loads = ["static", "cornering_l"]', '[load_cases.mine]\nkind = "braking"\n')
        assert list(case.load_specs) == ["static", "cornering_l", "cornering_r", "mine"]

    def test_all_but_some(self):
        case = taken("", '[standard_loads]\nleave_out = ["twist_l", "static"]\n')
        assert "bump" in case.load_specs
        assert not {"twist_l", "twist_r", "static"} & case.load_specs.keys()

    def test_what_the_file_writes_goes_on_top(self):
        more = (
            "[load_cases.bump]\ng = 3.5\n[load_cases.cornering_l]\ng = 0.8\n[load_cases.bump_one_r]\ng = 4\n"
        )
        case = taken('standard_loads = ["bump", "cornering_l", "bump_one_l", "static"]', more)
        g = {name: spec.g for name, spec in case.load_specs.items() if hasattr(spec, "g")}
        expected = {"bump": 3.5, "cornering_l": 0.8, "cornering_r": 0.8, "bump_one_l": 3.0, "bump_one_r": 4.0}
        assert g == expected
        assert "load_cases.bump.g, load_cases.cornering_l.g" in " ".join(case.warnings)
        assert case.overrides == ("load_cases.bump_one_r.g",)
        assert case.standard.touched == {"bump", "cornering_l", "cornering_r", "bump_one_r"}

    def test_a_table_on_a_row_that_is_not_taken_says_so(self):
        words = "the standard load case of this name is not taken; expected a kind, or braking taken by"
        (mistake,) = told('standard_loads = ["static"]', "[load_cases.braking]\ng = 0.9\n")
        assert "load_cases.braking: " in mistake
        assert words in mistake
        (mistake,) = told('standard_loads = ["static"]', "[load_cases.own]\ng = 0.9\n")
        assert "load_cases.own.kind: is missing" in mistake
        (mistake,) = told('standard_loads = ["static"]', "[load_cases.cornering_l]\ng = 0.9\n")
        assert "load_cases.cornering_l: " in mistake

    def test_another_kind_takes_the_rows_place(self):
        case = taken('standard_loads = ["bump", "static"]', '[load_cases.bump]\nkind = "braking"\n')
        assert case.load_specs["bump"].kind == "braking"
        assert case.load_specs["bump"].g == 1.1
        assert "bump" not in case.standard.rows

    def test_unknown_rows_have_their_nearest(self):
        (mistake,) = told('standard_loads = ["static", "corner_l"]')
        assert "standard_loads.rows[1]: there is no standard load case 'corner_l'" in mistake
        assert mistake.endswith("nearest: cornering_l")

    def test_a_wrong_key_on_top_is_told_where_it_stands(self):
        (mistake,) = told('standard_loads = ["bump"]', "[load_cases.bump]\ngg = 3\n")
        assert "case.toml load_cases.bump.gg: unknown key" in mistake


class TestWhatACaseCannotHave:
    def test_is_left_out_and_told(self):
        case = taken('standard_loads = ["launch", "park_lock", "bump", "jacking", "tie_down_left"]')
        assert list(case.load_specs) == ["bump"]
        words = " ".join(case.warnings)
        assert "left out: jacking (standard_loads.jack_at names no point)" in words
        assert "launch, park_lock (no wheel of the case is driven)" in words
        assert "tie_down_left (standard_loads.lash_at names no point)" in words

    def test_stays_a_mistake_where_the_file_asks_for_it(self):
        (mistake,) = told('standard_loads = ["launch", "bump"]', "[load_cases.launch]\nfactor = 1.5\n")
        assert "no wheel of the case is driven" in mistake
        (mistake,) = told("", '[load_cases.drive]\nkind = "launch"\nfriction = 1.0\n')
        assert "no wheel of the case is driven" in mistake

    def test_hanging_wheels_need_a_mass(self):
        light = edited(('kind = "rigid"\nmass = 20\ncentre = "wheel_l"', 'kind = "rigid"'), base=BARE)
        case = taken('standard_loads = ["rebound", "static"]', base=light)
        assert list(case.load_specs) == ["static"]
        assert "no mass on knuckle_l, knuckle_r" in " ".join(case.warnings)

    def test_a_pose_that_springs_would_have_to_find(self):
        case = taken('standard_loads = ["bump", "cornering_l"]')
        assert {name: spec.pose for name, spec in case.load_specs.items()} == dict.fromkeys(case.load_specs)
        said = " ".join(case.warnings)
        assert "taken as the vehicle stands: bump, cornering_l/r (no strut of rear_l, rear_r says" in said

    def test_but_not_where_the_file_gives_the_pose(self):
        case = taken('standard_loads = ["bump"]', "[load_cases.bump]\npose = { jounce = 50 }\n")
        assert case.load_specs["bump"].pose.jounce == 50
        assert "as the vehicle stands" not in " ".join(case.warnings)
        (mistake,) = told("", '[load_cases.own]\nkind = "bump"\npose = "from load"\n')
        assert "load_cases.own.pose: no strut of rear_l, rear_r says" in mistake

    def test_a_state_that_the_wheels_cannot_balance_is_a_mistake(self):
        tall = BARE.replace("cg_height = 760", "cg_height = 1000")
        (mistake, *_) = told('standard_loads = ["cornering_l"]', base=tall)
        assert "load_cases.cornering_l: the vehicle overturns at 1.00 g" in mistake
        case = taken('standard_loads = ["cornering_l"]', "[load_cases.cornering_l]\ng = 0.7\n", base=tall)
        assert case.load_specs["cornering_r"].g == 0.7


STATES = "[vehicle.states.kerb]\nmass = 2300\n[vehicle.states.gross]\nmass = 3800\nrear_travel = 20\n"


class TestStatesAndPoses:
    def test_one_load_case_for_each_state(self):
        words = '[standard_loads]\nrows = ["static", "bump_one_l"]\nstates = ["kerb", "gross"]\n'
        case = taken("", words + STATES + "[load_cases.bump_one_gross_l]\ng = 3.5\n")
        assert {name: spec.state for name, spec in case.load_specs.items()} == {
            "static_kerb": "kerb",
            "static_gross": "gross",
            **{f"bump_one_kerb_{side}": "kerb" for side in "lr"},
            **{f"bump_one_gross_{side}": "gross" for side in "lr"},
        }
        assert case.load_specs["bump_one_gross_r"].g == 3.5
        assert case.load_specs["bump_one_kerb_l"].g == 3.0

    def test_a_single_state_keeps_the_names(self):
        case = taken("", '[standard_loads]\nrows = ["static"]\nstates = ["gross"]\n' + STATES)
        assert [(n, s.state) for n, s in case.load_specs.items()] == [("static", "gross")]

    def test_an_unknown_state_is_told_once(self):
        (mistake,) = told("", '[standard_loads]\nrows = ["bump", "static"]\nstates = ["gros"]\n' + STATES)
        assert "standard_loads.states[0]: there is no state 'gros'" in mistake
        assert mistake.endswith("nearest: gross")

    def test_all_as_the_vehicle_stands(self):
        words = '[standard_loads]\nrows = ["bump", "cornering_l"]\nposes = "standing"\n'
        case = taken("", words)
        assert {spec.pose for spec in case.load_specs.values()} == {None}
        assert not any("as the vehicle stands" in note for note in case.warnings)


PLACES = """[standard_loads]
rows = ["jacking", "towing_forward", "tie_down_left"]
jack_at = [{ part = "cradle", point = "rail_front_l" }, { part = "cradle", point = "rail_front_r" }]
tow_at = [{ part = "cradle", point = "mount_l" }]
lash_at = [{ part = "cradle", point = "mount_l" }, { part = "cradle", point = "mount_r" }]
"""


class TestPoints:
    def test_one_load_case_for_each_point_or_one_of_all(self):
        case = taken("", PLACES)
        assert list(case.load_specs) == [
            "jacking_rail_front_l",
            "jacking_rail_front_r",
            "towing_forward_mount_l",
            "tie_down_left",
        ]
        assert case.load_specs["jacking_rail_front_r"].point == "rail_front_r"
        assert [p.point for p in case.load_specs["tie_down_left"].places] == ["mount_l", "mount_r"]

    def test_points_on_the_left_in_several_states(self):
        words = PLACES.replace("[standard_loads]\n", '[standard_loads]\nstates = ["kerb", "gross"]\n')
        case = taken("", words + STATES)
        assert [name for name in case.load_specs if name.startswith("towing")] == [
            "towing_forward_mount_l_kerb",
            "towing_forward_mount_l_gross",
        ]

    def test_changes_of_all_points_and_of_one(self):
        more = "[load_cases.jacking]\nfactor = 1.0\n[load_cases.jacking_rail_front_r]\nsideways = 0.2\n"
        case = taken("", PLACES + more)
        found = {n: (s.factor, s.sideways) for n, s in case.load_specs.items() if n.startswith("jacking")}
        assert found == {"jacking_rail_front_l": (1.0, 0.1), "jacking_rail_front_r": (1.0, 0.2)}

    def test_faulty_places_are_told_where_they_stand(self):
        wrong = PLACES.replace('"rail_front_r"', '"nowhere"').replace(
            '"cradle", point = "rail_front_l"', '"x", point = "rail_front_l"'
        )
        found = told("", wrong)
        assert [m.split(": ")[0] for m in found] == [
            "case.toml standard_loads.jack_at[0].part",
            "case.toml standard_loads.jack_at[1].point",
        ]


OWN = """[hump]
what = "speed hump"
load_case = { kind = "bump", g = 2.2 }
acts_at = "contact patch"
others = "static"
source = "own tests"
"""


class TestASetOfYourOwn:
    FILE = '[standard_loads]\nfile = "set.toml"\n'

    def test_takes_the_place_of_the_built_in_one(self):
        case = taken("", self.FILE, set_toml=OWN)
        assert {name: spec.g for name, spec in case.load_specs.items()} == {"hump": 2.2}
        assert case.standard.rows["hump"].text.source == "own tests"

    def test_the_built_in_set_is_such_a_file(self, pytestconfig):
        text = (pytestconfig.rootpath / "loadpath" / "loads" / "standard.toml").read_text("utf-8")
        assert list(tomllib.loads(text)) == list(standard_set())
        case = taken("", self.FILE, set_toml=text, base=DRIVEN)
        assert case.load_specs == taken('standard_loads = "all"', base=DRIVEN).load_specs

    @pytest.mark.parametrize(
        ("old", "new", "words"),
        [
            ("source", "sauce", "set.toml hump.source: is missing"),
            ("g = 2.2", "gg = 2.2", "set.toml load_cases.hump.gg: unknown key"),
            ('"bump"', '"bumpy"', "set.toml load_cases.hump.kind: there is no kind 'bumpy'"),
            ("load_case", "load_cas", "set.toml hump.load_case: is missing"),
        ],
    )
    def test_mistakes_in_it_name_it(self, old, new, words):
        found = told("", self.FILE, set_toml=OWN.replace(old, new, 1))
        assert any(words in mistake for mistake in found), found

    def test_a_file_that_is_not_there(self):
        (mistake,) = told("", '[standard_loads]\nfile = "sets.toml"\n', set_toml=OWN)
        assert "there is no file 'sets.toml'" in mistake
