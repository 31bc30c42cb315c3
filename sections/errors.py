"""What is wrong with a shape, told together."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Fault:
    """One thing wrong with a shape.

    Attributes
    ----------
    parameter : the dimension or column at fault, "" where the geometry as a whole is meant.
    given : its value as text, "" where there is none.
    allowed : what is allowed ("must be above 0 mm"), or what is wrong where no value is given ("has no area").
    """

    parameter: str
    given: str
    allowed: str

    def __str__(self) -> str:
        if self.given:
            return f"{self.parameter} = {self.given}: {self.allowed}"
        return f"{self.parameter}: {self.allowed}" if self.parameter else self.allowed


class ShapeError(ValueError):
    """A shape that cannot be made; `faults` holds everything that is wrong with it.

    `file` is the file at fault, "" where none is; then the parameters are places in it.
    """

    def __init__(self, subject: str, faults: Sequence[Fault], file: str = "") -> None:
        self.subject = subject
        self.file = file
        self.faults = tuple(faults)
        super().__init__(f"{subject}: " + "; ".join(map(str, self.faults)))


class FaultList:
    """Collects faults of one shape, then raises them as one error."""

    def __init__(self, subject: str) -> None:
        self.subject = subject
        self.faults: list[Fault] = []

    def add(self, parameter: str, given: str, allowed: str) -> None:
        self.faults.append(Fault(parameter, given, allowed))

    def positive(self, **dimensions: float | None) -> bool:
        """Each given length must be a number above zero; True where all of them are. None is one that takes its
        default from another, which is told once."""
        given = [(name, value) for name, value in dimensions.items() if value is not None]
        good = [self.inside(name, value, 0.0, open_low=True) for name, value in given]
        return all(good)

    def inside(
        self,
        name: str,
        value: float,
        low: float = -math.inf,
        high: float = math.inf,
        why: str = "",
        *,
        open_low: bool = False,
        open_high: bool = False,
        unit: str = "mm",
    ) -> bool:
        """low ≤ value ≤ high with a small allowance for rounding; ends excluded where open."""
        slack = 1e-9 * max(1.0, abs(value))
        above = value > low + slack if open_low else value >= low - slack
        below = value < high - slack if open_high else value <= high + slack
        if abs(value) < math.inf and above and below:
            return True
        words = []
        if abs(low) < math.inf:
            words.append(f"{'above' if open_low else 'at least'} {_text(low, unit)}")
        if abs(high) < math.inf:
            words.append(f"{'under' if open_high else 'at most'} {_text(high, unit)}")
        self.add(name, _text(value, unit), f"must be {' and '.join(words)}" + (f" ({why})" if why else ""))
        return False

    def under(self, name: str, value: float, limit: float, why: str) -> bool:
        """value < limit [mm]."""
        return self.inside(name, value, high=limit, why=why, open_high=True)

    def radius(self, given: float | None, room: float | None, why: str) -> None:
        """A bend radius of at least 0 and at most the room for it; no fault where none is given, and only the
        lower bound where the room is not known."""
        if given is not None:
            self.inside("radius", given, 0.0, math.inf if room is None else room, "" if room is None else why)

    def raise_any(self) -> None:
        if self.faults:
            raise ShapeError(self.subject, self.faults)


def _text(value: float, unit: str) -> str:
    return f"{value:.6g} {unit}".strip() if abs(value) < math.inf else f"{value}"
