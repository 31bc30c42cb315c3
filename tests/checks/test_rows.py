"""Verdicts: which check says what, and when it says nothing."""

from dataclasses import replace

import numpy as np
import pytest
from small_models import bare_section, build, case, frame, grade, joint, member, push

from loadpath.checks import (
    analyse,
    capacities,
    governing,
    part_masses,
    point_stiffness,
    run_checks,
    unjudged,
)
from loadpath.checks.plastic import plastic_demand
from loadpath.model import BushingRates, ForceElement, LumpedMass, MassTarget, StiffnessTarget
from sections import SHAPES, section
from sections.plates import effective_section

UP = np.array([0, 0, 1.0])
TUBE = SHAPES["round tube"](diameter=40, gauge=4)


def beam(shape=TUBE, steel=None, cls="rare", length=1000.0, targets=(), force=(0, 0, -1000.0), **more):
    points = {"root": (0, 0, 0), "tip": (length, 0, 0)}
    part = frame("beam", member("m", ("root", "tip"), section(shape), steel or grade(density=7.85e-9)))
    model = build(points, [part], supports={"root": ("beam", "welded")}, **more)
    load = replace(case(push(model, "beam", "tip", force), name="load"), cls=cls)
    return analyse(model, {"load": load}, targets)


def row(analysis, kind="member stress"):
    (found,) = [r for r in run_checks(analysis) if r.kind == kind]
    return found


def test_a_stress_above_the_limit_exceeds():
    weak = replace(grade(), proof=50.0)
    assert row(beam(steel=weak)).verdict == "exceeds"
    assert row(beam(steel=weak)).utilisation > 1


def test_repeated_is_not_checked():
    found = row(beam(cls="repeated"))
    assert found.verdict == "not checked"
    assert "fatigue" in found.reason
    assert found.utilisation is None


def test_no_proof_stress_is_not_checked():
    found = row(beam(steel=replace(grade(), proof=None)))
    assert (found.verdict, found.utilisation) == ("not checked", None)


def test_abuse_never_lies_below_rare():
    """A hollow section where shear makes the linear sum stricter than the elastic stress."""
    for force in ((0, 0, -1000.0), (50_000.0, 0, 0), (0, 300.0, -500.0)):
        assert row(beam(cls="abuse", force=force)).utilisation <= row(beam(force=force)).utilisation * (
            1 + 1e-9
        )


def test_brittle_material_gets_no_plastic_allowance():
    brittle = replace(grade(), elongation=4.0)
    found = row(beam(steel=brittle, cls="abuse"))
    assert found.utilisation == pytest.approx(row(beam(steel=brittle)).utilisation)
    assert "no plastic allowance" in found.reason


def test_short_member_is_not_valid():
    found = row(beam(length=70.0))
    assert found.verdict == "not valid"
    assert "too short for a beam" in found.reason


def channel_beam(warping, force=(0, 0, -50.0), middle=None):
    made = section(SHAPES["channel"](width=40, height=60, gauge=2, radius=3))
    points = {"root": (0, 0, 0), "mid": (500, 0, 0), "tip": (1000, 0, 0)}
    bar = replace(member("m", tuple(points), made, grade(density=7.85e-9)), warping=warping)
    model = build(points, [frame("beam", bar)], supports={"root": ("beam", "welded")})
    loads = [push(model, "beam", "tip", force)]
    if middle is not None:
        loads.append(push(model, "beam", "mid", moment=(middle, 0, 0)))
    return analyse(model, {"load": case(*loads, name="load")})


def test_open_section_in_torsion_is_not_valid_without_a_statement():
    found = row(channel_beam(None))
    assert found.verdict == "not valid"
    assert "without a statement of its warping" in found.reason


def test_open_section_with_held_warping_is_judged_with_its_bimoment():
    free, held = row(channel_beam(("free", "free"))), row(channel_beam(("held", "free")))
    assert free.verdict in ("holds", "exceeds")
    assert held.verdict in ("holds", "exceeds")
    assert held.demand > 1.2 * free.demand


def test_open_section_whose_torque_changes_is_not_valid():
    found = row(channel_beam(("held", "free"), middle=2000.0))
    assert found.verdict == "not valid"
    assert "torque changes along the member" in found.reason


def test_open_section_without_torsion_is_judged():
    points = {"root": (0, 0, 0), "tip": (1000, 0, 0)}
    made = section(SHAPES["channel"](width=40, height=60, gauge=2, radius=3))
    part = frame("beam", member("m", ("root", "tip"), made))
    model = build(points, [part], supports={"root": ("beam", "welded")})
    analysis = analyse(model, {"pull": case(push(model, "beam", "tip", (1000.0, 0, 0)), name="pull")})
    assert row(analysis).verdict == "holds"


def test_mass_against_budget():
    target = MassTarget("budget", ("beam",), 3e-3, "case file")
    analysis = beam(targets=[target], masses=[LumpedMass("lug", "beam", "tip", 1e-3, np.zeros((3, 3)))])
    area = np.pi * (40**2 - 32**2) / 4
    mass = area * 1000 * 7.85e-9 + 1e-3
    assert part_masses(analysis)["beam"] == pytest.approx(mass, rel=2e-3)
    found = row(analysis, "mass")
    assert found.verdict == "exceeds"
    assert found.demand == pytest.approx(1e3 * mass, rel=2e-3)


def two_mounts(**points):
    """A beam on two bushings and a body that gives; further points stand beside it on members."""
    at = {"a": (0, 0, 0), "m": (500, 0, 0), "b": (1000, 0, 0), **points}
    bar = bare_section(1e3, 1e6, 1e6)
    members = [member("m", ("a", "m", "b"), bar), *(member(p, ("m", p), bar) for p in points)]
    rates = BushingRates(4000, (4000, 4000), 0, (0, 0))
    joints = [joint(p, "bushing", "f", "body", p, (0, 0, 1), rates) for p in "ab"]
    return build(at, [frame("f", *members)], joints, body_rates=dict.fromkeys("ab", (10_000,) * 3))


def test_pickup_stiffness_says_what_is_held():
    """Beam on two supports 48 E I/L^3, in series with two bodies and two bushings (closed form)."""
    model, beam_alone = two_mounts(), 48 * 210000 * 1e6 / 1000**3
    expected = {
        "mounts rigid": beam_alone,
        "body rates": 1 / (1 / beam_alone + 1 / 20_000),
        "as mounted": 1 / (1 / beam_alone + 1 / 20_000 + 1 / 8000),
    }
    for held, stiffness in expected.items():
        assert point_stiffness(model, "f", held, ["m"], [UP])[0] == pytest.approx(stiffness, rel=1e-9)


def test_a_part_that_cannot_stand_on_its_mounts_is_not_valid():
    model = two_mounts(side=(500, 300, 0))
    held_there = joint("rest", "ball", "f", "body", "side")
    mounts = model.body_mounts | {"side": replace(model.body_mounts["a"], point="side")}
    supported = replace(model, joints=model.joints | {"rest": held_there}, body_mounts=mounts)
    target = StiffnessTarget("t", "f", "m", UP, "up", "body rates", 1000.0, "case file")
    analysis = analyse(supported, {"g": case(field=(0, 0, -9806.65), name="g")}, [target])
    assert row(analysis, "pickup stiffness").verdict == "holds"
    alone = replace(analysis, model=model)
    found = row(alone, "pickup stiffness")
    assert found.verdict == "not valid"
    assert "f turns about the line a - b: nothing holds it" in found.reason


def test_stiffness_target():
    target = StiffnessTarget("t", "beam", "tip", UP, "up", "as mounted", 100.0, "case file")
    analysis = beam(targets=[target])
    inertia = np.pi * (40**4 - 32**4) / 64
    found = row(analysis, "pickup stiffness")
    assert found.allowable == pytest.approx(3 * 210000 * inertia / 1000**3 / 1e3, rel=0.01)
    assert found.verdict == "exceeds"  # 0.047 kN/mm by hand against 0.1


def test_capacity_is_where_the_first_check_reaches_its_limit():
    analysis = beam()
    (capacity,) = capacities(analysis, run_checks(analysis))
    again = beam(force=(0, 0, -1000.0 * capacity.factor))
    assert row(again).utilisation == pytest.approx(1.0, rel=1e-9)
    assert capacity.first.subject == "beam.m"


def test_capacity_of_an_abuse_case_is_exact_too():
    analysis = beam(cls="abuse")
    (capacity,) = capacities(analysis, run_checks(analysis))
    again = beam(cls="abuse", force=(0, 0, -1000.0 * capacity.factor))
    assert row(again).utilisation == pytest.approx(1.0, rel=1e-9)


def test_worst_comes_first_and_one_row_for_each_subject():
    analysis = beam(targets=[MassTarget("budget", ("beam",), 1e-4, "case file")])
    rows = governing(run_checks(analysis))
    assert rows[0].verdict == "exceeds"
    assert len({(r.kind, r.subject) for r in rows}) == len(rows)


def test_a_refused_load_case_gives_no_result():
    points = {"p": (0, 0, 0), "q": (300, 0, 0)}
    rod = frame("rod", member("m", ("p", "q"), section(TUBE)))
    model = build(points, [rod], [joint(n, "ball", "rod", "body", n) for n in points])
    turned = case(push(model, "rod", "p", (0, 0, 100), moment=(5e4, 0, 0)), name="turned")
    fine = case(push(model, "rod", "p", (0, 0, 100)), name="fine")
    analysis = analyse(model, {"turned": turned, "fine": fine})
    assert analysis.refused == {"turned"}
    rows = run_checks(analysis)
    assert {r.case for r in rows if r.kind == "member stress"} == {"fine"}
    assert any(r.kind == "self-check" and r.verdict == "not valid" for r in rows)


def test_brackets_and_joints_are_named_as_not_checked():
    points = {"root": (0, 0, 0), "tip": (500, 0, 0), "lug": (500, 0, 40)}
    part = frame("beam", member("m", ("root", "tip"), section(TUBE)), brackets={"lug": "tip"})
    model = build(points, [part], supports={"root": ("beam", "welded")})
    analysis = analyse(model, {"load": case(push(model, "beam", "lug", (0, 0, 10)), name="load")})
    kinds = {r.kind for r in run_checks(analysis) if r.verdict == "not checked"}
    assert kinds == {"bracket", "joint", "buckling"}


def test_a_given_push_stays_while_the_loads_grow():
    """A damper's 500 N bend the beam with the load of 100 N: at the limit the load is what is left beside them."""
    points = {"root": (0, 0, 0), "tip": (800, 0, 0), "top": (800, 0, 300)}
    part = frame("beam", member("m", ("root", "tip"), section(TUBE)))
    damper = ForceElement("damper", ("beam", "body"), ("tip", "top"), "w", False, 500.0, 0.0)
    model = build(points, [part], supports={"root": ("beam", "welded")}, forces=[damper])
    analysis = analyse(model, {"load": case(push(model, "beam", "tip", (0, 0, -100.0)), name="load")})
    rows = run_checks(analysis)
    (capacity,) = capacities(analysis, rows)
    (whole,) = (r.utilisation for r in rows if r.kind == "member stress")
    assert capacity.factor == pytest.approx((600.0 / whole - 500.0) / 100.0, rel=2e-3)
    assert "the push of damper staying" in capacity.reason


def test_capacity_names_what_it_could_not_count():
    analysis = beam(length=70.0)
    (capacity,) = capacities(analysis, run_checks(analysis))
    assert capacity.factor is None
    assert capacity.reason == "without beam.m, not valid"


def test_what_nothing_stands_for_is_named():
    assert unjudged(run_checks(beam(length=70.0))) == ["beam.m"]
    assert unjudged(run_checks(beam(cls="repeated"))) == ["beam.m"]
    assert unjudged(run_checks(beam())) == []


def test_stiffness_of_a_held_point_is_no_stiffness():
    target = StiffnessTarget("t", "beam", "root", UP, "up", "as mounted", 100.0, "case file")
    found = row(beam(targets=[target]), "pickup stiffness")
    assert (found.verdict, found.utilisation) == ("not valid", None)
    assert "it is held there" in found.reason


def thin_hat(gauge=1.0):
    return SHAPES["hat"](width=80, height=60, gauge=gauge, flange=20)


def test_slender_walls_get_no_plastic_allowance():
    """80 mm crown and 60 mm webs of 1 mm, far beyond class 2 (38 ε = 28 evenly pressed)."""
    slender = row(beam(thin_hat(), cls="abuse", force=(0, 0, 300.0)))
    assert "no plastic allowance: section class 4, flat 74.0 x 1.0 mm, c/t 74.0" in slender.reason
    elastic = row(beam(thin_hat(), force=(0, 0, 300.0)))
    assert slender.utilisation == pytest.approx(elastic.utilisation)


def test_stocky_walls_get_their_plastic_resistance():
    """5 mm gauge, crown pressed: 62/5 = 12.4 under 33 ε, flanges in tension."""
    stocky = row(beam(thin_hat(5.0), cls="abuse", force=(0, 0, 300.0)))
    assert "walls of class 1 or 2" in stocky.basis
    assert stocky.utilisation < row(beam(thin_hat(5.0), force=(0, 0, 300.0))).utilisation


def test_unknown_walls_are_said_to_be_taken_as_compact():
    bar = row(beam(SHAPES["solid rectangle"](width=20, height=40), cls="abuse"))
    assert "walls, if any, taken as class 1 or 2" in bar.basis


def test_walls_that_buckle_exceed():
    """Evenly pressed, the crown of 74 x 1 mm holds 42² 235/74² = 75.7 MPa and the free flanges of 18 x 1 mm
    (21² 0.43) 235/18² = 137.5 MPa (EN 1993-1-1 table 5.2, class 3)."""
    crown = row(beam(thin_hat(), force=(0, 0, 300.0)), "wall buckling")
    assert crown.allowable == pytest.approx(75.7, rel=0.001)
    assert crown.utilisation == pytest.approx(crown.demand / crown.allowable)
    assert (crown.subject, crown.verdict, crown.reason) == ("beam.m", "holds", "")
    flange = row(beam(thin_hat(), force=(0, 0, -300.0)), "wall buckling")
    assert flange.allowable == pytest.approx(137.5, rel=0.001)
    buckled = row(beam(thin_hat(), force=(0, 0, 500.0)), "wall buckling")
    assert buckled.verdict == "exceeds"
    assert buckled.utilisation == pytest.approx(crown.utilisation * 5 / 3)
    made = section(thin_hat()).midline
    left = effective_section(made, (0, -1, 0), 420.0)
    assert f"normal stress reaches {500e3 / left.factor:.2f} of the proof stress" in buckled.reason


def test_walls_that_yield_before_they_buckle_have_no_row():
    for shape, force in ((thin_hat(), (900.0, 0, 0)), (thin_hat(3.0), (0, 0, 300.0)), (TUBE, (0, 0, 300.0))):
        assert not [r for r in run_checks(beam(shape, force=force)) if r.kind == "wall buckling"]


def test_bimoment_counts_in_the_plastic_resistance():
    made = section(SHAPES["channel"](width=40, height=60, gauge=2, radius=3))
    forces = np.array([[0.0], [0], [0], [0], [1e5], [0]])
    plain = plastic_demand(made, grade(), forces, np.zeros(1)).stress[0]
    warped = plastic_demand(made, grade(), forces, np.array([1e6])).stress[0]
    assert warped == pytest.approx(plain + 1e6 * np.abs(made.warping).max() / made.Cw)


def test_a_weak_zone_has_an_allowable_of_its_own():
    """Bent up and down a box peaks in its plates; with weak corners those govern, at their share of the proof stress,
    though the middle of a plate sees as much."""
    given = {"width": 80, "height": 60, "top": 4, "web": 4}
    whole = row(beam(SHAPES["fabricated box"](**given)))
    weak = row(beam(SHAPES["fabricated box"](**given, haz_strength=0.5, haz_width=15)))
    assert whole.allowable == 420
    assert weak.allowable == pytest.approx(210)
    assert weak.demand == pytest.approx(whole.demand, rel=0.02)
    assert weak.utilisation == pytest.approx(2 * whole.utilisation, rel=0.02)
    assert weak.basis.startswith("0.5 × proof stress of test")
    everywhere = SHAPES["fabricated box"](**given, haz_strength=0.5, haz_width=100)
    plastic, half = (row(beam(one, cls="abuse")) for one in (SHAPES["fabricated box"](**given), everywhere))
    assert half.utilisation == pytest.approx(2 * plastic.utilisation, rel=0.01)
    assert half.basis.startswith("plastic section resistance")
