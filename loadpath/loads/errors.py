"""What the loads room refuses: collected over all load cases, told together.

Exception
├── LoadCaseError   carries every Fault of a set of load cases
└── NoSteadyState   the vehicle cannot be in the state asked for; `build` turns it into a Fault
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches


@dataclass(frozen=True)
class Fault:
    """One thing to put right.

    Attributes
    ----------
    case : name of the load case; "" where the vehicle data are at fault for several.
    key : the key in it, such as "g" or "forces[1].point"; "" for the load case as a whole.
    what : what is wrong. expected : what is allowed. nearest : the nearest valid name, or "".
    lacking : the case has not got what this kind of load case is about, such as a driven wheel; its numbers may
        be right.
    """

    case: str
    key: str
    what: str
    expected: str
    nearest: str = ""
    lacking: bool = False

    @property
    def place(self) -> str:
        """Key path in the case file."""
        return ".".join(filter(None, ("load_cases" if self.case else "", self.case, self.key)))

    def __str__(self) -> str:
        text = f"{self.place}: {self.what}; expected {self.expected}"
        return f"{text}; nearest: {self.nearest}" if self.nearest else text


class LoadCaseError(Exception):
    """Load cases that cannot be built; `faults` says why, vehicle data first, then by load case."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__(self.faults)

    def __str__(self) -> str:
        return "\n".join(str(f) for f in self.faults)


class NoSteadyState(Exception):
    """Wheels that only push cannot balance the vehicle in this state."""

    def __init__(self, what: str, expected: str) -> None:
        self.what, self.expected = what, expected
        super().__init__(f"{what}; expected {expected}")


def nearest(name: str, names: Iterable[str]) -> str:
    """The valid name that looks most like the given one, or ""."""
    return next(iter(get_close_matches(name, list(names), n=1, cutoff=0.55)), "")
