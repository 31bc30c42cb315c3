"""Properties and stress of many sets of dimensions of one thin-walled shape as arrays."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from sections.columns import Column, Mixed, OneByOne, spread
from sections.errors import Fault, ShapeError
from sections.geometry.walls import IntArray, Walls
from sections.result import Array
from sections.shapes.base import Shape
from sections.walls import Stations, ThinWalls, solve_walls, stations, surface_peak

_CHUNK = 500
"""Sets solved at once: their arrays stay in the processor's cache."""
_SCALARS = ("area", "weighed_area", "Iyy", "Izz", "Iyz", "J", "Cw")
_VARIED = (
    "nodes",
    "thickness",
    "seam_conductance",
    "strength",
    "shear_rise",
    "idle_area",
    "E_ratio",
    "G_ratio",
    "density_ratio",
)


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


def bulk(shape: type[Shape], **dimensions: Any) -> Bulk:
    """Properties of many sets of dimensions of one shape by the wall engine, equal to those of `section`.

    The shape's own code runs once for all sets that take the same branches in it, and so have walls of one topology;
    where they part (another number of chords in a bend, a default radius cut short, a faulty set) the sets are
    grouped, and each group is worked out by itself. Code that cannot do with columns of numbers is run set by set,
    with the same results but some hundred times slower: that of heat-affected zones (`haz_strength`). The result's
    `singly` counts such sets.

    Parameters
    ----------
    dimensions : the shape's parameters, each one value for all sets or an array (b,); arrays that are not of floats
        (counts, words) group the sets.

    Raises
    ------
    ValueError : no array among the dimensions, arrays of unequal length, or a shape that the wall engine does not
        serve. A set that makes no shape is no error: see `faults`.
    """
    given = _Given.of(shape, dimensions)
    found = {name: np.full(given.count, np.nan) for name in _SCALARS}
    found |= {name: np.full((given.count, 2), np.nan) for name in ("centroid", "shear_centre")}
    found["shear_tensor"] = np.full((given.count, 2, 2), np.nan)
    faults, graphs, singly = list[tuple[IntArray, ShapeError]](), 0, 0
    for group in _groups(given):
        if isinstance(group.walls, ShapeError):
            faults.append((group.sets, group.walls))
            continue
        graphs, singly = graphs + 1, singly + group.singly
        try:
            for sets, numbers in _chunks(group):
                _store(found, sets, numbers, numbers.solved())
        except np.linalg.LinAlgError:
            fault = Fault("", "", "all walls lie on one straight line")
            faults.append((group.sets, ShapeError(shape.name, [fault])))
    return Bulk(**found, faults=tuple(faults), graphs=graphs, singly=singly)


def bulk_stress(shape: type[Shape], forces: Array, **dimensions: Any) -> Array:
    """Largest von Mises stress on the surface of many sets of dimensions of one shape, equal to that of `section`.

    Where walls have less strength the stress is divided by it, so that one allowable serves all points. Stress of
    restrained warping is not in it.

    Parameters
    ----------
    forces : (6, m), or (b, 6, m) for each set its own: N, Vy, Vz [N], T, My, Mz [N·mm] at the centroid.
    dimensions : as in `bulk`.

    Returns
    -------
    (b, m) [MPa], NaN where a set makes no shape.

    Raises
    ------
    ValueError : as `bulk`, or forces of another shape.
    """
    given = _Given.of(shape, dimensions)
    acting = np.asarray(forces, dtype=float)
    if acting.ndim not in (2, 3) or acting.shape[-2] != 6 or acting.shape[:-2] not in ((), (given.count,)):
        raise ValueError(f"forces {acting.shape}: must be (6, m) or ({given.count}, 6, m)")
    found = np.full((given.count, acting.shape[-1]), np.nan)
    for group in _groups(given, stationed=True):
        if isinstance(group.walls, ShapeError):
            continue
        try:
            for sets, numbers in _chunks(group):
                own = acting if acting.ndim == 2 else acting[sets]
                found[sets] = numbers.von_mises(numbers.solved(), own)
        except np.linalg.LinAlgError:
            continue
    return found


@dataclass(frozen=True, eq=False)
class _Given:
    """Dimensions for all sets, and (b,) of each set."""

    shape: type[Shape]
    plain: Mapping[str, Any]
    columns: Mapping[str, NDArray[Any]]
    count: int

    @staticmethod
    def of(shape: type[Shape], dimensions: Mapping[str, Any]) -> _Given:
        columns = {name: np.asarray(value) for name, value in dimensions.items() if np.ndim(value) > 0}
        sizes = {name: values.shape for name, values in columns.items()}
        if len(set(sizes.values())) != 1 or any(len(size) != 1 for size in sizes.values()):
            raise ValueError(f"dimensions: give arrays of one length, not {sizes or 'single values only'}")
        plain = {name: value for name, value in dimensions.items() if name not in columns}
        return _Given(shape, plain, columns, next(iter(sizes.values()))[0])


@dataclass(frozen=True, eq=False)
class _Group:
    """Sets (k,) with walls of one topology, or what is wrong with all of them; stations where they were asked for."""

    sets: IntArray
    walls: Walls | ShapeError
    places: Stations | None
    singly: bool


@dataclass(frozen=True, eq=False)
class _Numbers:
    """Numbers of many sets of walls of one topology, as in `Walls`; each has a leading dimension of the sets or 1."""

    ends: IntArray
    seams: IntArray
    places: Stations | None
    nodes: Array
    thickness: Array
    seam_conductance: Array
    strength: Array
    shear_rise: Array
    idle_area: Array
    E_ratio: Array
    G_ratio: Array
    density_ratio: Array

    def solved(self) -> ThinWalls:
        return solve_walls(
            self.nodes,
            self.ends,
            self.thickness,
            self.seams,
            self.seam_conductance,
            self.E_ratio,
            self.G_ratio,
        )

    def weighed_area(self, thin: ThinWalls) -> Array:
        run = self.nodes[:, self.ends[:, 1]] - self.nodes[:, self.ends[:, 0]]
        area = np.hypot(run[..., 0], run[..., 1]) * self.thickness
        return np.asarray(
            thin.area + (area * (self.density_ratio - self.E_ratio)).sum(axis=1) + self.idle_area
        )

    def von_mises(self, thin: ThinWalls, forces: Array) -> Array:
        """(k, m) largest over the surface, over the strength there."""
        assert self.places is not None
        return surface_peak(self, thin, self.places, forces)


def _groups(given: _Given, stationed: bool = False) -> Iterator[_Group]:
    """Sets parted until each group has one topology, and one pattern of stations where they are asked for."""
    words = [name for name, values in given.columns.items() if values.dtype.kind != "f"]
    whole = np.arange(given.count)
    queue = [(sets, False) for sets in _parted([given.columns[name] for name in words], whole)]
    while queue:
        sets, singly = queue.pop()
        dimensions = dict(given.plain)
        for name, values in given.columns.items():
            alone = len(sets) == 1 or name in words
            dimensions[name] = values[sets[0]].item() if alone else Column(values[sets])
        try:
            walls = _walls(given.shape, dimensions)
            yield _Group(sets, walls, stations(walls) if stationed else None, singly)
        except Mixed as parted:
            queue += [(sets[parted.mask], singly), (sets[~parted.mask], singly)]
        except ShapeError as error:
            yield _Group(sets, error, None, singly)
        except (TypeError, AttributeError) as error:  # what numpy raises for columns that it cannot take
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


def _walls(shape: type[Shape], dimensions: Mapping[str, Any]) -> Walls:
    made = shape(**dimensions)
    walls = made.walls() if made.serves == "walls" else None
    if walls is None:
        raise ValueError(f"{shape.name}: served by its outline, of which there is no fast way for many sets")
    return walls


def _chunks(group: _Group) -> Iterator[tuple[IntArray, _Numbers]]:
    """Some sets of a group at a time, with their numbers."""
    walls = group.walls
    assert isinstance(walls, Walls)
    every = {name: spread(getattr(walls, name)) for name in _VARIED}
    places = group.places
    lines = {} if places is None else {name: spread(getattr(places, name)) for name in ("tangent", "reach")}
    for start in range(0, len(group.sets), _CHUNK):
        part = slice(start, start + _CHUNK)
        own = {name: values if len(values) == 1 else values[part] for name, values in every.items()}
        along = {name: values if len(values) == 1 else values[part] for name, values in lines.items()}
        there = None if places is None else replace(places, **along)
        yield group.sets[part], _Numbers(walls.ends, walls.seams, there, **own)


def _store(found: Mapping[str, Array], sets: IntArray, numbers: _Numbers, thin: ThinWalls) -> None:
    found["weighed_area"][sets] = numbers.weighed_area(thin)
    found["Izz"][sets], found["Iyy"][sets] = thin.inertia[:, 0, 0], thin.inertia[:, 1, 1]
    found["Iyz"][sets] = thin.inertia[:, 0, 1]
    for name in ("area", "J", "Cw", "centroid", "shear_centre", "shear_tensor"):
        found[name][sets] = getattr(thin, name)
