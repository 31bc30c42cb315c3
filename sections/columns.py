"""One number of many sets of dimensions at once, so that a shape is worked out for all of them by the same code.

A `Column` stands wherever a shape's code expects a number, alone or in an array of objects. Arithmetic goes through
all sets; a comparison gives one answer where all sets agree and raises `Mixed` where they do not, so that whoever
called can part them: sets that take the same branches everywhere have walls of one topology.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from sections.midline import Array

Mask = NDArray[np.bool_]


class Mixed(Exception):
    """Sets that do not agree on a branch; `mask` (b,) tells which of them take it."""

    def __init__(self, mask: Mask) -> None:
        super().__init__("sets of dimensions that have to be worked out apart")
        self.mask = mask


class OneByOne(TypeError):
    """Code that needs a plain number was given a column."""


def agreed(mask: Mask) -> bool:
    """The one truth of all sets.

    Raises
    ------
    Mixed : where they differ.
    """
    if mask.all():
        return True
    if not mask.any():
        return False
    raise Mixed(mask)


class Column:
    """A number of each of b sets: values (b,)."""

    __slots__ = ("values",)

    def __init__(self, values: Array) -> None:
        self.values = values

    def __add__(self, other: object) -> Any:
        return self._with(np.add, other)

    def __sub__(self, other: object) -> Any:
        return self._with(np.subtract, other)

    def __mul__(self, other: object) -> Any:
        return self._with(np.multiply, other)

    def __truediv__(self, other: object) -> Any:
        return self._with(np.divide, other)

    def __pow__(self, other: object) -> Any:
        return self._with(np.power, other)

    __radd__ = __add__
    __rmul__ = __mul__

    def __rsub__(self, other: object) -> Any:
        return (-self)._with(np.add, other)

    def __rtruediv__(self, other: object) -> Any:
        return self._with(lambda a, b: np.divide(b, a), other)

    def __neg__(self) -> Column:
        return Column(-self.values)

    def __abs__(self) -> Column:
        return Column(np.abs(self.values))

    def __lt__(self, other: object) -> Any:
        return self._compared(np.less, other)

    def __le__(self, other: object) -> Any:
        return self._compared(np.less_equal, other)

    def __gt__(self, other: object) -> Any:
        return self._compared(np.greater, other)

    def __ge__(self, other: object) -> Any:
        return self._compared(np.greater_equal, other)

    def __eq__(self, other: object) -> Any:
        return self._compared(np.equal, other)

    def __ne__(self, other: object) -> Any:
        return self._compared(np.not_equal, other)

    # Two columns of equal numbers may stand apart in a set; only code that allows for that may use one.
    __hash__ = object.__hash__

    # numpy's functions of single numbers call these.
    def sqrt(self) -> Column:
        return Column(np.sqrt(self.values))

    def sin(self) -> Column:
        return Column(np.sin(self.values))

    def cos(self) -> Column:
        return Column(np.cos(self.values))

    def tan(self) -> Column:
        return Column(np.tan(self.values))

    def hypot(self, other: object) -> Any:
        return self._with(np.hypot, other)

    def arctan2(self, other: object) -> Any:
        return self._with(np.arctan2, other)

    def __bool__(self) -> bool:
        return agreed(self.values != 0)

    def __int__(self) -> int:
        whole = np.trunc(self.values)
        agreed(whole == whole[0])
        return int(whole[0])

    def __ceil__(self) -> int:
        return int(Column(np.ceil(self.values)))

    def __floor__(self) -> int:
        return int(Column(np.floor(self.values)))

    def __float__(self) -> float:
        raise OneByOne("a column of numbers is no single one")

    def __format__(self, spec: str) -> str:
        return f"{float(self.values[0]):{spec}}"

    def __repr__(self) -> str:
        return f"Column({self.values!r})"

    def _with(self, operate: Callable[..., Array], other: object) -> Any:
        value = _value(other)
        return NotImplemented if value is None else Column(operate(self.values, value))

    def _compared(self, operate: Callable[..., Mask], other: object) -> Any:
        value = _value(other)
        return NotImplemented if value is None else agreed(operate(self.values, value))


def _value(other: object) -> Array | float | None:
    if isinstance(other, Column):
        return other.values
    return float(other) if isinstance(other, int | float | np.integer | np.floating) else None


def numbers(values: Any) -> Any:
    """An array of floats, or of objects where columns are among the values."""
    made = np.array(values)
    return made if made.dtype == object else made.astype(float)


def spread(values: Any) -> Any:
    """(b, *shape) floats of an array of numbers and columns, each set for itself; b is 1 where there is no column."""
    made = np.asarray(values)
    if made.dtype != object:
        return made.astype(float)[None]
    rows = np.broadcast_arrays(*(i.values if isinstance(i, Column) else float(i) for i in made.ravel()))
    return np.stack([np.atleast_1d(row) for row in rows], axis=-1).reshape(-1, *made.shape)


def gathered(values: Array) -> Any:
    """A column of values (b,), or the plain number where there is one set."""
    return Column(values) if len(values) > 1 else float(values[0])


def _each_way(function: Callable[..., Any], inputs: int) -> Callable[..., Any]:
    """A numpy function that also takes columns and arrays of them."""

    def one(*items: Any) -> Any:
        if any(isinstance(item, Column) for item in items):
            return Column(function(*(item.values if isinstance(item, Column) else item for item in items)))
        return function(*(float(item) for item in items))

    over = np.frompyfunc(one, inputs, 1)

    def either(*items: Any) -> Any:
        plain = all(not isinstance(item, Column) and np.asarray(item).dtype != object for item in items)
        return function(*items) if plain else over(*items)

    return either


sqrt = _each_way(np.sqrt, 1)
sin = _each_way(np.sin, 1)
cos = _each_way(np.cos, 1)
tan = _each_way(np.tan, 1)
arctan2 = _each_way(np.arctan2, 2)
hypot = _each_way(np.hypot, 2)
