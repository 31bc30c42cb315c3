"""Whatever is put into a file, reading gives a case or says what is wrong: never anything else."""

from __future__ import annotations

import copy
import datetime
import math
import random
import re
import tomllib
from pathlib import Path

import pytest
from case_files import GOOD, mistakes

from loadpath.case import Case, CaseError, read_case
from loadpath.case import case as case_module

GUIDE = (Path(__file__).parents[2] / "cases" / "README.md").read_text(encoding="utf-8")
FILES = [GOOD, "\n".join(re.findall(r"```toml\n(.*?)```", GUIDE, re.DOTALL))]

ODD = [
    *(
        0,
        -1,
        1,
        3.5,
        1e-300,
        1e-9,
        1e9,
        1e15,
        -1e15,
        1e300,
        10**30,
        math.nan,
        math.inf,
        -math.inf,
        True,
        False,
    ),
    *(
        "",
        "x",
        "4.5 kN",
        "1e3 mm",
        "± 1",
        "2 ± nan",
        "left",
        "-left",
        "+y",
        "body",
        "ball_l",
        "rail",
        "rigid",
        "rear_l",
    ),
    *(
        "S420MC",
        "bushing",
        "closed hat",
        "../x.csv",
        "a\0b",
        "é",
        "x_l",
        "_l",
        "9" * 5000,
        "static",
        "sum",
        "bump",
    ),
    *(
        [],
        [1],
        [1, 2],
        [1, 2, 3],
        [0, 0, 0],
        [1, 2, 3, 4],
        ["ball_l"],
        ["ball_l", "upper_l"],
        ["x", 1, {}],
        [[1]],
        [{}],
    ),
    *(
        {},
        {"at": [1, 2, 3]},
        {"kind": "rigid"},
        {"twin": False},
        {"rates": "rigid"},
        {"x_l": {}},
        {"shape": "hat"},
    ),
    *(datetime.date(2020, 1, 1), datetime.time(1, 2)),
]
NAMES = [
    "x",
    "x_l",
    "x_r",
    "ball_l",
    "ball_r",
    "twin",
    "kind",
    "shape",
    "at",
    "class",
    "body",
    "left",
    "",
    "É",
    "mass",
    "up",
]


def spots(value, found=None):
    """Every (container, key) of nested tables and lists."""
    found = [] if found is None else found
    keys = list(value) if isinstance(value, dict) else range(len(value)) if isinstance(value, list) else []
    for key in keys:
        found.append((value, key))
        spots(value[key], found)
    return found


def damage(raw, rng):
    """One change to raw tables, in place."""
    container, key = rng.choice(spots(raw))
    how = rng.randrange(5)
    if how == 0:
        del container[key]
    elif how == 1 and isinstance(container, dict):
        container[rng.choice(NAMES)] = container.pop(key)
    elif how == 2 and isinstance(container, dict):
        container[rng.choice(NAMES)] = copy.deepcopy(rng.choice(ODD))
    elif how == 3:
        container[key] = copy.deepcopy(rng.choice(spots(raw))[0])
    else:
        container[key] = copy.deepcopy(rng.choice(ODD))


def outcome(path):
    """The case, or the error that tells what is wrong."""
    try:
        return read_case(path)
    except CaseError as error:
        return error


@pytest.mark.parametrize("seed", range(8))
def test_damaged_tables(seed, monkeypatch, tmp_path):
    rng = random.Random(seed)
    tables = [tomllib.loads(text) for text in FILES]
    told = 0
    for _ in range(40):
        raw = copy.deepcopy(rng.choice(tables))
        for _ in range(rng.randint(1, 3)):
            damage(raw, rng)
        monkeypatch.setattr(case_module, "read_toml", lambda path, raw=raw: raw)
        found = outcome(tmp_path / "case.toml")
        if isinstance(found, CaseError):
            told += 1
            assert str(found)
            assert found.mistakes
            assert all(m.what and m.file for m in found.mistakes)
        else:
            assert isinstance(found, Case)
    assert told > 15


@pytest.mark.parametrize("seed", range(4))
def test_damaged_text(seed):
    rng = random.Random(seed)
    for _ in range(40):
        lines = rng.choice(FILES).splitlines()
        for _ in range(rng.randint(1, 3)):
            at = rng.randrange(len(lines))
            how = rng.randrange(4)
            if how == 0:
                del lines[at]
            elif how == 1:
                lines.insert(at, rng.choice(lines))
            elif how == 2:
                cut = rng.randrange(len(lines[at]) + 1)
                lines[at] = lines[at][:cut] + rng.choice('[]{}"=,.#\\é\t') + lines[at][cut:]
            else:
                lines[at] = re.sub(
                    r"[\d.]+", rng.choice(["-1", "0", "7", "nan", '"1 kg"', "true"]), lines[at]
                )
        mistakes("\n".join(lines))
