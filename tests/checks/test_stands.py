"""Load cases in several poses: their results stand side by side in the order of the case file."""

from pathlib import Path

import numpy as np
import pytest
from small_models import build, case, frame, member, push

from loadpath.case import read_case
from loadpath.checks import analyse, analyse_stands, capacities, run_checks
from loadpath.cli.common import stands_of
from loadpath.model import Stand
from sections import SHAPES, section

TUBE = section(SHAPES["round tube"](diameter=40.0, gauge=3.0))


def cantilever():
    points = {"root": (0, 0, 0), "tip": (800, 0, 0)}
    return build(
        points, [frame("beam", member("rod", ("root", "tip"), TUBE))], supports={"root": ("beam", "welded")}
    )


def loads(model):
    return tuple(case(push(model, "beam", "tip", (0, 0, -100.0 * n)), name=f"load_{n}") for n in (1, 2, 3, 4))


def test_cases_apart_are_as_cases_together():
    model = cantilever()
    every = loads(model)
    whole = analyse(model, {c.name: c for c in every})
    apart = analyse_stands(
        model, [Stand(model, (every[3], every[1]), (3, 1)), Stand(model, (every[0], every[2]), (0, 2))]
    )
    assert [c.name for c in apart.cases] == [c.name for c in every]
    assert [c.case for c in apart.checks] == [c.name for c in every]
    assert apart.joint_forces == pytest.approx(whole.joint_forces, rel=1e-12)
    assert apart.peaks.von_mises == pytest.approx(whole.peaks.von_mises, rel=1e-12)
    solved, k = apart.at(1)
    assert solved.solution.cases[k].name == "load_2"
    utilisations = [{r.case: r.utilisation for r in run_checks(a) if r.utilisation} for a in (whole, apart)]
    assert utilisations[0] == pytest.approx(utilisations[1], rel=1e-12)
    assert np.all(np.diff(list(utilisations[0].values())) > 0)


def test_a_bar_that_twists_with_the_roll_has_no_more_left_than_in_proportion():
    """With the pose held the bar would seem to bear any turn; its twist grows with the roll that the load makes."""
    van = read_case(Path(__file__).parents[2] / "cases" / "light_van_rear.toml")
    analysis = analyse_stands(van.model, stands_of(van), van.targets)
    rows = run_checks(analysis)
    left = {c.case: c for c in capacities(analysis, rows)}["cornering_left"]
    bar = max(r.utilisation for r in rows if r.case == "cornering_left" and r.kind == "member stress")
    assert left.factor == pytest.approx(1 / bar)
    assert "with the pose staying" in left.reason
