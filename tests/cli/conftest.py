"""Runs the command line in this process."""

import sys
from pathlib import Path
from typing import NamedTuple

import pytest

from loadpath.cli import run

CASES = Path(__file__).parents[2] / "cases"


class Outcome(NamedTuple):
    code: int
    out: str
    err: str


@pytest.fixture
def loadpath(monkeypatch, capsys):
    """A function that runs `loadpath` with arguments and gives exit code and output."""

    def invoke(*arguments) -> Outcome:
        monkeypatch.setattr(sys, "argv", ["loadpath", *map(str, arguments)])
        with pytest.raises(SystemExit) as ended:
            run()
        out, err = capsys.readouterr()
        return Outcome(int(ended.value.code or 0), out, err)

    return invoke


@pytest.fixture(scope="session")
def cases() -> Path:
    return CASES


class Told(NamedTuple):
    code: int
    out: str
    err: str
    words: str  # of the output, however its lines are broken


@pytest.fixture
def section(loadpath, cases):
    def invoke(*arguments, case=cases / "light_van_rear.toml"):
        code, out, err = loadpath("section", case, *arguments)
        return Told(code, out, err, " ".join(out.split()))

    return invoke
