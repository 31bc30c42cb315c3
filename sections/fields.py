"""One way to declare a parameter with its unit, so that readers and guides can be made from it."""

from __future__ import annotations

from dataclasses import MISSING, Field, field, fields
from typing import Any


def parameter(
    doc: str,
    unit: str = "",
    default: Any = MISSING,
    *,
    refers: str | None = None,
    vector: str | None = None,
    tell: bool = True,
    thickness: bool = False,
) -> Any:
    """A dataclass field that says what it is.

    Parameters
    ----------
    doc : one line for the guide and for error messages.
    unit : unit of a bare number, such as "mm" or "N*mm/deg"; "" for a pure number.
    default : value where none is given; without it the parameter must be given.
    refers : what a string names: "point", "part", "wheel", "load case" or "file".
    vector : "polar" (forces, directions) or "axial" (moments) for components in case-file axes, "reversed" for a
        table of force over travel that runs the other way round at the other side of the vehicle.
    tell : list the default in the output when it was used.
    thickness : a thickness on which a grade's strength may depend; of several sides the smallest counts.
    """
    metadata = {
        "doc": doc,
        "unit": unit,
        "refers": refers,
        "vector": vector,
        "tell": tell,
        "thickness": thickness,
    }
    if default is MISSING:
        return field(metadata=metadata)
    return field(default=default, metadata=metadata)


def parameters_of(made: Any) -> tuple[Field[Any], ...]:
    """The fields of a dataclass that were declared by `parameter`, in order; of a class or of what it made."""
    return tuple(declared for declared in fields(made) if "doc" in declared.metadata)
