"""Numbers of the case file: a bare number in its key's unit, or a string with unit and tolerance.

Inside everything is mm, N, MPa, rad and tonne. pint is imported only where a string carries a unit.
"""

from __future__ import annotations

import math
import re
from functools import cache
from typing import Any

from loadpath.case.errors import nearest, shown

LARGEST = 1e15
"""Numbers beyond this are refused: no case needs them, and they would overflow later."""

_DEG = math.pi / 180
# Unit of a key -> (factor to internal units, the same for pint, what a message calls it).
_UNITS: dict[str, tuple[float, str, str]] = {
    "": (1.0, "", "a plain number"),
    "g": (1.0, "", "a plain number of g"),
    "%": (1.0, "", "a plain number of per cent"),
    "mm": (1.0, "mm", "a length"),
    "mm2": (1.0, "mm**2", "an area"),
    "mm3": (1.0, "mm**3", "a volume"),
    "N": (1.0, "N", "a force"),
    "N*mm": (1.0, "N*mm", "a moment"),
    "N/mm": (1.0, "N/mm", "a rate"),
    "MPa": (1.0, "MPa", "a stress"),
    "deg": (_DEG, "rad", "an angle"),
    "N*mm/deg": (1 / _DEG, "N*mm/rad", "a rotational rate"),
    "kg": (1e-3, "t", "a mass"),
    "kg*mm2": (1e-3, "t*mm**2", "a moment of inertia"),
    "kg/m3": (1e-12, "t/mm**3", "a density"),
    "m/s2": (1e3, "mm/s**2", "an acceleration"),
}

# Own units for pint: few, quick to load, and with the angle as a dimension of its own, so that a moment
# is never taken for a rotational rate.
_PREFIXES = {"giga": "1e9 = G-", "mega": "1e6 = M-", "kilo": "1e3 = k-", "centi": "1e-2 = c-"}
_PREFIXES |= {"milli": "1e-3 = m-", "micro": "1e-6 = µ- = u-"}
_DEFINITIONS = {
    "meter": "[length] = m",
    "gram": "[mass] = g",
    "second": "[time] = s",
    "radian": "[angle] = rad",
    "degree": f"{_DEG!r} * radian = deg",
    "tonne": "1000 * kilogram = t",
    "newton": "kilogram * meter / second ** 2 = N",
    "pascal": "newton / meter ** 2 = Pa",
    "bar": "100000 * pascal",
    "inch": "0.0254 * meter = in",
    "foot": "0.3048 * meter = ft",
    "pound": "0.45359237 * kilogram = lb",
    "pound_force": "4.4482216152605 * newton = lbf",
    "psi": "pound_force / inch ** 2",
    "ksi": "1000 * psi",
}
UNIT_WORDS: tuple[str, ...] = ("µm", "mm", "cm", "m", "in", "ft", "N", "kN", "lbf", "Pa", "kPa", "MPa", "GPa")
UNIT_WORDS += ("bar", "psi", "ksi", "g", "kg", "t", "lb", "deg", "rad", "s", "%")
"""What a string may be written in, with *, / and powers."""

_NUMBER = r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"
_UNIT = r"%|[A-Za-zµμ°][A-Za-z0-9µμ°²³/*·.^ ]*?"
_WIDTH = _NUMBER.removeprefix("[+-]?")
_QUANTITY = re.compile(rf"\s*({_NUMBER})\s*({_UNIT})?\s*(?:(?:±|\+-|\+/-)\s*({_WIDTH})\s*({_UNIT})?)?\s*")

_PLAIN = str.maketrans({"²": "2", "³": "3", "·": "*", ".": "*", "°": "deg", "μ": "µ"})
_WORD = r"[A-Za-zµ]+(?:\^?[234])?"
_PRODUCT = re.compile(rf"{_WORD}(?:[*/]{_WORD})*")


class Measured(float):
    """A number with its half-width at 95 %, both in internal units."""

    half_width: float

    def __new__(cls, value: float, half_width: float) -> Measured:
        number = super().__new__(cls, value)
        number.half_width = half_width
        return number


class NoQuantity(ValueError):
    """Not a number that fits; `expected` says what does."""

    def __init__(self, what: str, expected: str, near: str = "") -> None:
        self.what, self.expected, self.near = what, expected, near
        super().__init__(what)


def is_unit(unit: str) -> bool:
    """True for a unit that a key may be declared in."""
    return unit in _UNITS


def factor(unit: str) -> float:
    """What one of a key's unit is in internal units."""
    return _UNITS[unit][0]


def internal_unit(unit: str) -> str:
    """The internal unit that stands for a key's unit."""
    return _UNITS[unit][1].replace("**", "")


def with_unit(value: float, unit: str) -> str:
    """An internal value as text in the key's own unit."""
    number = f"{value / factor(unit):.6g}"
    return f"{number} {unit}" if unit else number


def read_quantity(value: Any, unit: str) -> float:
    """Value in internal units; a `Measured` where a tolerance is given.

    Parameters
    ----------
    value : number or string, such as 2.6, "4.5 kN", "0.25 in", "2.6 ± 0.1 mm", "9500 +- 10 %".
    unit : of a bare number.

    Raises
    ------
    NoQuantity : for anything else.
    """
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise NoQuantity(f"{shown(value)} is not a number", _example(unit))
    if isinstance(value, str):
        return _read_text(value, unit)
    return _checked(value, value, unit) * factor(unit)


def _checked(number: float, value: Any, unit: str) -> float:
    if not abs(number) <= LARGEST:
        raise NoQuantity(f"{shown(value)} is not a usable number", f"{_example(unit)}, at most {LARGEST:g}")
    return float(number)


def _example(unit: str) -> str:
    name = _UNITS[unit][2]
    return f'{name}, such as 2.6 or "2.6 {unit}"' if _UNITS[unit][1] else f"{name}, such as 2.6"


def _read_text(text: str, unit: str) -> float:
    match = _QUANTITY.fullmatch(text) if len(text) <= 80 else None
    if match is None:
        hint = " (a decimal point, no comma)" if "," in text else ""
        raise NoQuantity(f"{shown(text)} is not a number{hint}", _example(unit))
    number, own, half, half_unit = match.groups()
    scale = _scale(own, unit, text)
    value = _checked(float(number), text, unit) * scale
    if half is None:
        return value
    width = _checked(float(half), text, unit)
    if half_unit == "%" and own != "%" and unit != "%":
        return Measured(value, abs(value) * width / 100)
    return Measured(value, width * (_scale(half_unit, unit, text) if half_unit else scale))


def _scale(own: str | None, unit: str, text: str) -> float:
    """What one of the string's unit is in internal units."""
    if own is None or own == unit:
        return factor(unit)
    found = _pint_factor(own, _UNITS[unit][1])
    if isinstance(found, float):
        return found
    near = nearest(own, UNIT_WORDS) if "unknown" in found else ""
    raise NoQuantity(f"{shown(text)} {found}", _example(unit), near)


@cache
def _pint_factor(own: str, internal: str) -> float | str:
    """Factor to internal units, or what is wrong with the unit."""
    if own == "%":
        return 0.01 if internal == "" else "is in per cent"
    unknown = f"has the unknown unit {shown(own)}"
    written = own.translate(_PLAIN).replace(" ", "")
    if not _PRODUCT.fullmatch(written):
        return unknown
    import pint

    try:
        quantity = _registry().Quantity(1.0, re.sub(r"\^?([234])", r"**\1", written))
    except pint.UndefinedUnitError:
        return unknown
    if quantity.is_compatible_with(internal):
        return float(quantity.to(internal).magnitude)
    kinds = (name for _, other, name in _UNITS.values() if other and quantity.is_compatible_with(other))
    return f"is {next(kinds, f'in {own}')}"


@cache
def _registry() -> Any:
    import pint

    prefixes = [f"{name}- = {rest}" for name, rest in _PREFIXES.items()]
    return pint.UnitRegistry([*prefixes, *(f"{name} = {rest}" for name, rest in _DEFINITIONS.items())])
