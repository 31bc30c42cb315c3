"""Frames, links and rigid bodies of the model."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.case.errors import is_within, listed, shown
from loadpath.case.profiles import Profiles
from loadpath.case.space import SHORTEST, Space, square_to
from loadpath.case.tables import BracketTable, EndTable, FrameTable, LinkTable, MemberTable, RigidTable
from loadpath.case.words import join
from loadpath.model import Bracket, EndFixity, Material, Member, Part, Split

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class PartMaker:
    """Makes parts. `twins` are the paths of generated tables."""

    space: Space
    profiles: Profiles
    materials: Mapping[str, Material]
    twins: frozenset[str]

    def part(self, name: str, table: FrameTable | LinkTable | RigidTable) -> Part | None:
        """One part, or None where it cannot be made."""
        path = join("parts", name)
        if isinstance(table, RigidTable):
            return Part(name, "rigid")
        if isinstance(table, LinkTable):
            return self._link(name, table, path)
        return self._frame(name, table, path)

    def _link(self, name: str, table: LinkTable, path: str) -> Part | None:
        as_member = MemberTable(path=table.ends, section=table.section, up=table.up, material=table.material)
        member = self._member(name, as_member, None, path, "ends")
        return None if member is None else Part(name, "link", (member,))

    def _frame(self, name: str, table: FrameTable, path: str) -> Part | None:
        log = self.space.log
        if not table.members and log.clean(path):
            log.mistake(path, "has no members", f"{path}.members.NAME, at least one")
        members = [
            self._member(m, t, table.material, join(path, "members", m), "path")
            for m, t in table.members.items()
        ]
        good = tuple(m for m in members if m is not None)
        if not log.clean(join(path, "members")) or len(good) < len(members):
            return None
        brackets = self._brackets(table.brackets, {p for m in good for p in m.path}, join(path, "brackets"))
        pieces = _pieces(good)
        if len(pieces) > 1:
            words = " | ".join(listed(p, 4) for p in pieces)
            log.mistake(
                path, f"its members are {len(pieces)} pieces that share no point: {words}", "one piece"
            )
        split = self._split(table, good, join(path, "split"))
        return Part(name, "frame", good, brackets, split) if log.clean(path) else None

    def _split(self, table: FrameTable, members: Sequence[Member], path: str) -> Split | None:
        """Where a frame is cut in two halves that turn against each other."""
        if table.split is None:
            return None
        at, inner = table.split.at, [p for m in members for p in m.path[1:-1]]
        if at not in inner:
            self.space.log.unknown(path, "point inside its members", at, inner)
            return None
        axis = table.split.axis
        return Split(at, None if axis is None else self.space.looking(axis, at, join(path, "axis")))

    def _brackets(
        self, brackets: Mapping[str, BracketTable], on_members: set[str], path: str
    ) -> tuple[Bracket, ...]:
        """The good ones of a frame's brackets."""
        log, good = self.space.log, []
        for point, bracket in brackets.items():
            if point in on_members:
                log.mistake(join(path, point), f"{point} is on a member itself", "a point beside the members")
            elif bracket.carried_by not in on_members:
                log.unknown(join(path, point), "point on its members", bracket.carried_by, sorted(on_members))
            else:
                good.append(Bracket(point, bracket.carried_by))
        return tuple(good)

    def _member(
        self, name: str, table: MemberTable, material: str | None, path: str, along: str
    ) -> Member | None:
        """A member; `along` is the key of its path in the file."""
        names = (table.section,) if isinstance(table.section, str) else table.section
        grade = table.material or material
        up = self._shape_of_path(table, path, join(path, along))
        if grade is None:
            self.space.log.mistake(join(path, "material"), "is missing", "a material here or of the part")
        if len(names) not in (1, len(table.path)):
            what = f"{len(names)} sections for {len(table.path)} points"
            self.space.log.mistake(join(path, "section"), what, "one section, or one for each point")
            return None
        if up is None or grade is None or grade not in self.materials:
            return None
        reflect = is_within(path, self.twins)
        made = self.profiles.segments(
            names, len(table.path) - 1, self.materials[grade], reflect, join(path, "section")
        )
        if made is None:
            return None
        return Member(
            name=name,
            path=table.path,
            sections=made,
            section_names=names,
            material=self.materials[grade],
            up=up,
            offset=np.array(table.offset),
            warping=None if table.warping is None else (table.warping.first, table.warping.last),
            ends=(_fixity(table.first_end), _fixity(table.last_end)),
        )

    def _shape_of_path(self, table: MemberTable, path: str, place: str) -> Array | None:
        """(3,) up direction of a member, once its path is found to be good."""
        log, names = self.space.log, table.path
        if len(names) < 2:
            log.mistake(place, f"{len(names)} points", "two points or more, in order")
            return None
        twice = [n for n in dict.fromkeys(names) if names.count(n) > 1]
        if twice:
            log.mistake(place, f"{listed(twice)} stands twice", "each point once")
            return None
        if not self.space.known(names):
            return None
        up = self.space.looking(table.up, names[0], join(path, "up"))
        points = [self.space.points[n] for n in names]
        for a, b, p, q in zip(names, names[1:], points, points[1:], strict=False):
            length = float(np.linalg.norm(q - p))
            if length < SHORTEST:
                log.mistake(place, f"{a} and {b} are at one place", "points apart from each other")
                return None
            if up is not None and square_to(up, (q - p) / length) is None:
                what = f"{shown(table.up)} is parallel to {a} - {b}"
                log.mistake(join(path, "up"), what, "a direction across the member")
                return None
        return up


def _fixity(end: EndTable) -> EndFixity:
    return EndFixity((end.along, end.across_y, end.across_z, end.about_x, end.about_y, end.about_z))


def _pieces(members: Sequence[Member]) -> list[list[str]]:
    """Names of members that hang together, piece by piece."""
    pieces: list[tuple[set[str], list[str]]] = []
    for member in members:
        points, names = set(member.path), [member.name]
        apart = []
        for piece in pieces:
            if piece[0] & points:
                points |= piece[0]
                names = piece[1] + names
            else:
                apart.append(piece)
        pieces = [*apart, (points, names)]
    return [names for _, names in pieces]
