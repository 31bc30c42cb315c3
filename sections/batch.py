"""Properties of many sets of dimensions of one thin-walled shape as arrays."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from sections.columns import Column, Mixed, OneByOne, spread
from sections.errors import Fault, ShapeError
from sections.geometry.walls import IntArray, Walls
from sections.result import Array
from sections.shapes.base import Shape
from sections.walls import ThinWalls, solve_walls

_CHUNK = 500
"""Sets solved at once: their arrays stay in the processor's cache."""
_NAMES = ("area", "weighed_area", "Iyy", "Izz", "Iyz", "J", "Cw")


@dataclass(frozen=True, eq=False)
class Bulk:
    """Properties of b sets of dimensions, NaN where a set makes no shape; as in `Section`.

    Attributes
    ----------
    area, weighed_area : (b,) [mm²]. Iyy, Izz, Iyz, J : (b,) [mm⁴]. Cw : (b,) [mm⁶].
    centroid, shear_centre : (b, 2) [mm]. shear_tensor : (b, 2, 2) [1/mm²].
    faults : for sets that make no shape, their numbers and what is wrong, told for the first of them.
    graphs : how many topologies the sets fell into. singly : how many sets had to be worked out one by one.
    """

    area: Array
    weighed_area: Array
    Iyy: Array
    Izz: Array
    Iyz: Array
    J: Array
    Cw: Array
    centroid: Array
    shear_centre: Array
    shear_tensor: Array
    faults: tuple[tuple[IntArray, ShapeError], ...]
    graphs: int
    singly: int

    @property
    def valid(self) -> NDArray[np.bool_]:
        """(b,) whether a set makes a shape."""
        return np.isfinite(self.area)


@dataclass(frozen=True, eq=False)
class _Group:
    """Sets (k,) with walls of one topology, or what is wrong with all of them."""

    sets: IntArray
    walls: Walls | ShapeError
    singly: bool = False


def bulk(shape: type[Shape], **dimensions: Any) -> Bulk:
    """Properties of many sets of dimensions of one shape by the wall engine, equal to those of `section`.

    The shape's own code runs once for all sets that take the same branches in it, and so have walls of one topology;
    where they part (another number of chords in a bend, a default radius cut short, a faulty set) the sets are
    grouped, and each group is worked out by itself. Code that cannot do with columns of numbers is run set by set.

    Parameters
    ----------
    dimensions : the shape's parameters, each one value for all sets or an array (b,); arrays that are not of floats
        (counts, words) group the sets.

    Raises
    ------
    ValueError : no array among the dimensions, arrays of unequal length, or a shape that the wall engine does not
        serve. A set that makes no shape is no error: see `faults`.
    """
    columns = {name: np.asarray(value) for name, value in dimensions.items() if np.ndim(value) > 0}
    counts = {name: values.shape for name, values in columns.items()}
    if len(set(counts.values())) != 1 or any(len(size) != 1 for size in counts.values()):
        raise ValueError(f"dimensions: give arrays of one length, not {counts or 'single values only'}")
    (count,) = next(iter(counts.values()))
    plain = {name: value for name, value in dimensions.items() if name not in columns}
    found = {name: np.full(count, np.nan) for name in _NAMES}
    found |= {name: np.full((count, 2), np.nan) for name in ("centroid", "shear_centre")}
    found["shear_tensor"] = np.full((count, 2, 2), np.nan)
    faults, graphs, singly = [], 0, 0
    for group in _groups(shape, plain, columns, count):
        if isinstance(group.walls, ShapeError):
            faults.append((group.sets, group.walls))
            continue
        graphs, singly = graphs + 1, singly + group.singly
        try:
            for sets, thin, weighed in _solved(group.walls, group.sets):
                _store(found, sets, thin, weighed)
        except np.linalg.LinAlgError:
            fault = Fault("", "", "all walls lie on one straight line")
            faults.append((group.sets, ShapeError(shape.name, [fault])))
    return Bulk(**found, faults=tuple(faults), graphs=graphs, singly=singly)


def _groups(
    shape: type[Shape], plain: Mapping[str, Any], columns: Mapping[str, NDArray[Any]], count: int
) -> Iterator[_Group]:
    """Sets parted until each group has one topology."""
    words = [name for name, values in columns.items() if values.dtype.kind != "f"]
    queue = [(sets, False) for sets in _parted([columns[name] for name in words], np.arange(count))]
    while queue:
        sets, singly = queue.pop()
        given = dict(plain)
        for name, values in columns.items():
            alone = len(sets) == 1 or name in words
            given[name] = values[sets[0]].item() if alone else Column(values[sets])
        try:
            yield _Group(sets, _walls(shape, given), singly)
        except Mixed as parted:
            queue += [(sets[parted.mask], singly), (sets[~parted.mask], singly)]
        except ShapeError as error:
            yield _Group(sets, error)
        except TypeError as error:
            if len(sets) == 1 and not isinstance(error, OneByOne):
                raise
            queue += [(sets[k : k + 1], True) for k in range(len(sets))]


def _parted(values: Sequence[NDArray[Any]], sets: IntArray) -> Iterator[IntArray]:
    """Sets by distinct values of the first array, then of the next."""
    if not len(values):
        yield sets
        return
    for value in np.unique(values[0][sets]):
        yield from _parted(values[1:], sets[values[0][sets] == value])


def _walls(shape: type[Shape], given: Mapping[str, Any]) -> Walls:
    made = shape(**given)
    walls = made.walls() if made.serves == "walls" else None
    if walls is None:
        raise ValueError(f"{shape.name}: served by its outline, of which there is no fast way for many sets")
    return walls


def _solved(walls: Walls, sets: IntArray) -> Iterator[tuple[IntArray, ThinWalls, Array]]:
    """Chunks of sets with their properties and the area that counts for mass."""
    names = ("nodes", "thickness", "seam_conductance", "E_ratio", "G_ratio", "density_ratio")
    every = {name: spread(getattr(walls, name)) for name in names}
    idle = spread(walls.idle_area)
    for start in range(0, len(sets), _CHUNK):
        nodes, thickness, seams, E, G, density = (
            values if len(values) == 1 else values[start : start + _CHUNK] for values in every.values()
        )
        thin = solve_walls(nodes, walls.ends, thickness, walls.seams, seams, E, G)
        run = nodes[:, walls.ends[:, 1]] - nodes[:, walls.ends[:, 0]]
        heavier = (np.hypot(run[..., 0], run[..., 1]) * thickness * (density - E)).sum(axis=1)
        extra = heavier + (idle if len(idle) == 1 else idle[start : start + _CHUNK])
        yield sets[start : start + _CHUNK], thin, thin.area + extra


def _store(found: Mapping[str, Array], sets: IntArray, thin: ThinWalls, weighed: Array) -> None:
    found["weighed_area"][sets] = weighed
    found["Izz"][sets], found["Iyy"][sets] = thin.inertia[:, 0, 0], thin.inertia[:, 1, 1]
    found["Iyz"][sets] = thin.inertia[:, 0, 1]
    for name in ("area", "J", "Cw", "centroid", "shear_centre", "shear_tensor"):
        found[name][sets] = getattr(thin, name)
