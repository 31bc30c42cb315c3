"""Base of every kind of load case, and what it is built from."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import ClassVar

import numpy as np
from numpy.typing import NDArray

from loadpath.loads.action import corner_of, point_loads, wheel_loads
from loadpath.loads.errors import Fault
from loadpath.loads.terms import Corner, Loads
from loadpath.model import LoadCase, LoadSpec, Model, Vehicle

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Site:
    """What a load case is built from.

    Attributes
    ----------
    name : of the load case. data : of the vehicle in the load case's state, None where the case has none.
    built : load cases that it is made of, by name.
    """

    name: str
    data: Vehicle | None
    model: Model
    built: Mapping[str, LoadCase]

    @property
    def vehicle(self) -> Vehicle:
        """The vehicle data, for kinds that need them."""
        if self.data is None:
            raise ValueError(f"load case {self.name} needs vehicle data")
        return self.data

    def fault(self, key: str, what: str, expected: str, nearest: str = "") -> Fault:
        """A fault of this load case."""
        return Fault(self.name, key, what, expected, nearest)

    def lacks(self, key: str, what: str, expected: str) -> Fault:
        """A fault of this load case: the case file has not got what it is about."""
        return Fault(self.name, key, what, expected, lacking=True)

    def wheel_names(self) -> dict[Corner, str]:
        """Names of the model's wheels by corner."""
        return {corner_of(w): w.name for w in self.model.wheels.values()}

    def corner_names(self, corners: Iterable[Corner]) -> tuple[str, ...]:
        """The wheels' names, or words for corners that the model does not hold."""
        names = self.wheel_names()
        return tuple(names.get(c, str(c)) for c in corners)


class LoadKind(LoadSpec, ABC):
    """One kind of load case: what the case file says of it, and how it is built.

    A subclass is a frozen, keyword-only dataclass (see `LoadSpec`) with its word in the case file as `kind`.
    """

    kind: ClassVar[str]
    on_wheels: ClassVar[bool] = True
    """Needs vehicle data and the model's wheels."""

    def parts(self) -> tuple[str, ...]:
        """Names of the load cases that it is made of."""
        return ()

    def multiplies(self) -> str:
        """The load that its numbers multiply, in words."""
        return "nothing, sizes are given"

    @abstractmethod
    def faults(self, site: Site) -> Iterator[Fault]:
        """Everything that is wrong with it; `build` may count on what is checked here."""

    @abstractmethod
    def build(self, site: Site) -> LoadCase:
        """The load case.

        Raises
        ------
        NoSteadyState : where the vehicle cannot be in this state.
        """


def on_wheels_case(
    spec: LoadKind,
    site: Site,
    field: Array,
    loads: Loads,
    *,
    size: tuple[str, float] | None = None,
    roll: float = 0.0,
    notes: tuple[str, ...] = (),
) -> LoadCase:
    """A load case whose loads all come in at the wheels."""
    return LoadCase(
        name=site.name,
        kind=spec.kind,
        cls=spec.cls,
        field=field,
        loads=point_loads(site.model, loads),
        wheel_loads=wheel_loads(site.model, loads),
        roll=roll,
        strain=1.0,
        size=size,
        notes=notes,
    )
