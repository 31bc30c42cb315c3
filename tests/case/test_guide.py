"""The case-file guide: its blocks are a case that runs, and it lists every key."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from case_files import mistakes, read

from loadpath.case import guide
from loadpath.case.declare import Choice, items, table_of
from loadpath.case.guide import refreshed
from loadpath.case.tables import CaseTable
from loadpath.loads import KINDS
from loadpath.loads import build as build_loads
from loadpath.materials import grades
from sections import SHAPES

GUIDE = (Path(__file__).parents[2] / "cases" / "README.md").read_text(encoding="utf-8")
BLOCKS = "\n".join(re.findall(r"```toml\n(.*?)```", GUIDE, re.DOTALL))


def test_the_blocks_of_the_guide_are_a_case_that_runs():
    case = read(BLOCKS)
    assert case.warnings == ("written over the standard load cases: load_cases.braking.g",)
    assert len(build_loads(case.load_specs, case.vehicle, case.model)) == 16
    assert case.tolerances == {
        "points.mount_rear_l[2]": pytest.approx(2),
        "points.mount_rear_r[2]": pytest.approx(2),
        "sections.rail.gauge": pytest.approx(0.1),
    }


def test_the_message_in_the_guide_is_what_is_said():
    (shown,) = re.findall(r"```text\n(.*?)```", GUIDE, re.DOTALL)
    text = BLOCKS.replace('gauge  = "2.5 ± 0.1"', 'gage = 2.5\ngauge  = "2.5 ± 0.1"')
    text = text.replace('between = ["upper_arm_l", "body"]', 'between = ["upper_arm_l", "bodi"]', 1)
    for line, mistake in zip(shown.splitlines()[1:], mistakes(text), strict=True):
        assert line.strip() == str(mistake)


def test_the_tables_are_fresh():
    assert refreshed(GUIDE) == GUIDE, "make the tables again, as the comment in cases/README.md says"


def test_every_key_has_its_row():
    wanted = [CaseTable, *SHAPES.values(), *KINDS.values()]
    wanted += [
        t for i in items(CaseTable) if isinstance(i.entries, Choice) for t in i.entries.options.values()
    ]
    wanted += [i.entries for i in items(CaseTable) if isinstance(i.entries, type)]
    for table in wanted:
        for item in items(table):
            assert re.search(rf"^\| `{item.key}` \|.*\| `.+` \| .+ \|$", GUIDE, re.MULTILINE), (
                table,
                item.key,
            )


def test_every_grade_has_its_row():
    assert all(f"| `{name}` |" in GUIDE for name in grades())


@pytest.mark.parametrize("kind", [i.key for i in items(CaseTable) if isinstance(i.entries, Choice)])
def test_the_example_of_each_value_is_valid_toml_of_its_type(kind):
    """Every example of a value in the key tables is read without a word against the value itself."""
    choice = next(i for i in items(CaseTable) if i.key == kind).entries
    for word, table in choice.options.items():
        values = [guide._example(i, f"{kind}.NAME") for i in items(table)]
        lines = [v for v in values if not v.startswith("[")]
        text = f'format = 1\n[{kind}.one]\n{choice.tag} = "{word}"\n' + "\n".join(lines)
        wrong = [
            m
            for m in mistakes(text)
            if re.search(r"does not fit|is not a|unknown key|has \d+ entries", m.what)
        ]
        assert not wrong, "\n".join(map(str, wrong))
        assert table_of(choice, {choice.tag: word}) is table


def test_marks_are_needed():
    with pytest.raises(ValueError, match="key tables: begin"):
        refreshed("no marks")
