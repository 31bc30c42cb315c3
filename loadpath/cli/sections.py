"""`loadpath section`."""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from loadpath.case import Case, changed_shape, read_case, thickness_warnings, varied_shape
from loadpath.cli.common import default_lines, head, print_tables, say, write_files
from loadpath.cli.failures import Failure, unknown
from loadpath.cli.pictures import picture_kind, write_picture
from loadpath.cli.sectionforces import NOT_VALID, acting_on
from loadpath.report import CAUTION, Table, wrapped
from loadpath.report.section import (
    RANGED,
    Use,
    change_table,
    in_short,
    properties,
    range_table,
    resistance_table,
    section_table,
    stress_table,
    tradeoff_picture,
    uses,
)
from sections import COLOURS, Shape, compare, notes_of, of_material, section

AGAINST = ("Iyy", "J")


@dataclass(frozen=True)
class Request:
    """What of a section is asked for: the options of `loadpath section`."""

    changes: Sequence[str] = ()
    varied: str | None = None
    against: Sequence[str] = ()
    under: Sequence[str] = ()
    member: str | None = None
    colour: str | None = None
    picture: Path | None = None


@dataclass(frozen=True, eq=False)
class _Found:
    """What is told: tables to write and as they are printed, what must be known before the numbers, and a picture,
    made once its kind is known."""

    tables: list[Table]
    shown: list[Table]
    known: list[str]
    draw: Callable[[str], bytes]


def print_section(path: Path, name: str, asked: Request, csv: Path | None, json: Path | None) -> None:
    """Print a section's properties, what a change makes of them, or what a range does; and stress, where asked."""
    _check(asked)
    kind = None if asked.picture is None else picture_kind(asked.picture)
    case = read_case(path)
    if name not in case.shapes:
        raise unknown("section", name, list(case.shapes))
    shape = changed_shape(case, name, asked.changes) if asked.changes else case.shapes[name]
    make = _one if asked.varied is None else _over_range
    found = make(case, name, shape, asked)
    drawn = None if kind is None else found.draw(kind)
    said = [*_defaults(case, name, asked), CAUTION]
    told = [case.title, case.path.name, *found.known, *said]
    written = write_files(found.tables, csv, json, told)
    if asked.picture is not None and drawn is not None:
        written.append(write_picture(asked.picture, drawn))
    say(head(case, found.known))
    print_tables(found.shown)
    say(wrapped([*written, *said]))


def _defaults(case: Case, name: str, asked: Request) -> list[str]:
    """Defaults of the section in the file; what a change makes of them stands in its picture."""
    lines = default_lines(case, f"sections.{name}.")
    if not (asked.changes or asked.varied):
        return lines
    stood = "Defaults used in the file as it stands, some of which follow what is changed"
    return [line.replace("Defaults used", stood, 1) for line in lines]


def _check(asked: Request) -> None:
    """Options that need another one, or do not go with it."""
    if asked.against and asked.varied is None:
        raise Failure("--mass-against is for the plot of a range: it needs --vary KEY=FIRST:LAST:STEP")
    if asked.under and asked.varied is not None:
        raise Failure("--under goes with one section, not with a range of them (--vary)")
    if (asked.member or asked.colour) and not asked.under:
        word = "--member" if asked.member else "--colour"
        raise Failure(f"{word} needs --under: a load case, or forces such as Vz=4kN,My=1.2kN*m")
    if asked.colour is not None and asked.colour not in COLOURS:
        raise unknown("colour", asked.colour, list(COLOURS))
    if asked.colour is not None and asked.picture is None:
        raise Failure("--colour is for the picture: it needs --picture FILE")


def _one(case: Case, name: str, shape: Shape, asked: Request) -> _Found:
    """One section, as it stands or changed, with the stress of what acts."""
    used = uses(case.model, name)
    nu, said = used[0].material.nu, ", ".join(asked.changes)
    standing, shape = _of_members(case.shapes[name], used), _of_members(shape, used)
    if asked.changes:
        before, after = section(standing, nu), section(shape, nu)
        tables = [change_table(name, said, before, after, used)]
    else:
        both = compare(shape, nu)
        made = both.walls if shape.serves == "walls" else both.outline
        if made is None:
            raise ValueError(f"{shape.name} has no geometry for the engine that serves it")
        before = after = made
        tables = [section_table(name, shape, both, used)]
    carried = resistance_table(name, after, used, said)
    tables += [] if carried is None else [carried]
    acting, known = None, _warnings(case, name, shape)
    if asked.under:
        acting, more = acting_on(case, name, asked.under, asked.member, before, after)
        known = list(dict.fromkeys([*more, *known]))
        tables.append(stress_table(name, acting, before, after if asked.changes else None))
    title = _titled(name, asked)
    colour: Any = asked.colour or "stress"

    def draw(kind: str) -> bytes:
        from sections.drawing import draw

        stream = io.BytesIO()
        draw(
            shape,
            stream,
            kind=kind,
            made=after,
            acting=acting,
            colour=colour,
            title=title,
            notes=[line for line in known if line.startswith(NOT_VALID)],
            nu=nu,
        )
        return stream.getvalue()

    return _Found(tables, tables, known, draw)


def _over_range(case: Case, name: str, shape: Shape, asked: Request) -> _Found:
    """A section, changed before or not, over a range of a dimension."""
    wanted = tuple(word for text in asked.against for word in _properties(text)) or AGAINST
    found = varied_shape(case, name, shape, asked.varied or "")
    used = uses(case.model, name)
    nu = used[0].material.nu
    made = [section(_of_members(one, used), nu) for one in found.shapes]
    table = range_table(name, found.key, found.unit, found.values, made, used)
    standing = properties(section(_of_members(shape, used), nu), used)
    titled = _titled(name, asked)
    now = "its default" if found.now is None else f"{found.now:g} {found.unit}".strip()

    def draw(kind: str) -> bytes:
        over = [properties(one, used) for one in made]
        title, mark = f"{titled}: {shape.name}, over {found.key}", f"as it stands, {now}"
        return tradeoff_picture(
            kind, title, found.key, found.unit, found.values, over, standing, wanted, mark
        )

    known = [f"As it stands, {found.key} is {now}.", *_warnings(case, name, *found.shapes)]
    return _Found([table], [in_short(table)], known, draw)


def _properties(text: str) -> list[str]:
    """The properties that a text lists with commas; some names, such as "Wel y, top", hold one themselves."""
    pieces, found = [piece.strip() for piece in text.split(",")], list[str]()
    while pieces:
        both = ", ".join(pieces[:2])
        name = both if both in RANGED else pieces[0]
        if name not in RANGED:
            raise unknown("property", name, list(RANGED))
        found.append(name)
        pieces = pieces[2:] if name == both and "," in both else pieces[1:]
    return found


def _titled(name: str, asked: Request) -> str:
    return f"{name} with {', '.join(asked.changes)}" if asked.changes else name


def _of_members(shape: Shape, used: Sequence[Use]) -> Shape:
    """The shape in the first material of its members."""
    return of_material(shape, used[0].material.nu, used[0].material.G)


def _warnings(case: Case, name: str, *shapes: Shape) -> list[str]:
    """What one shape says of itself, and gauges outside the range for which the strength of the member's grade holds;
    over a range, the first one."""
    notes = [f"Note: sections.{name}: {n}." for n in notes_of(shapes[0])] if len(shapes) == 1 else []
    place, found = f"sections.{name}.", list[list[str]]()
    for one in shapes:
        told = thickness_warnings({**case.shapes, name: one}, case.model)
        found += [here] if (here := [w for w in told if w.startswith(place)]) else []
    if not found:
        return notes
    more = f"; values of the range to which this applies: {len(found)}" if len(found) > 1 else ""
    return [*notes, *(f"Note: {w}{more}." for w in found[0])]
