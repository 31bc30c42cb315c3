"""`loadpath section`."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from loadpath.case import Case, changed_shape, read_case, thickness_warnings, varied_shape
from loadpath.cli.common import check_picture, default_lines, head, print_tables, say, write_files
from loadpath.cli.failures import Failure, unknown
from loadpath.report import (
    CAUTION,
    RANGED,
    Table,
    Use,
    change_table,
    in_short,
    properties,
    range_table,
    section_table,
    tradeoff_picture,
    uses,
    wrapped,
)
from sections import Section, Shape, compare, notes_of, of_material, section

AGAINST = ("Iyy", "J")


def print_section(
    path: Path,
    name: str,
    changes: Sequence[str],
    varied: str | None,
    against: Sequence[str],
    picture: Path | None,
    csv: Path | None,
    json: Path | None,
) -> None:
    """Print a section's properties, what a change makes of them, or what a range does."""
    if against and varied is None:
        raise Failure("--mass-against is for the plot of a range: it needs --vary KEY=FIRST:LAST:STEP")
    kind = None if picture is None else _kind(picture)
    case = read_case(path)
    if name not in case.shapes:
        raise unknown("section", name, list(case.shapes))
    shape = changed_shape(case, name, changes) if changes else case.shapes[name]
    if varied is not None:
        found = _over_range(case, name, shape, varied, against)
    elif changes:
        found = _changed(case, name, shape, changes)
    else:
        found = _as_it_stands(case, name, shape)
    drawn = None if kind is None else found.draw(kind)
    said = [*default_lines(case, f"sections.{name}."), CAUTION]
    told = [case.title, case.path.name, *found.known, *said]
    written = write_files([found.table], csv, json, told)
    if picture is not None and drawn is not None:
        written.append(_write(picture, drawn))
    say(head(case, found.known))
    print_tables([found.shown])
    say(wrapped([*written, *said]))


@dataclass(frozen=True, eq=False)
class _Found:
    """What one of the ways of this command makes: a table to write and as it is printed, a picture by its kind, and
    what must be known before the numbers."""

    table: Table
    shown: Table
    draw: Callable[[str], bytes]
    known: list[str]


def _as_it_stands(case: Case, name: str, shape: Shape) -> _Found:
    used = uses(case.model, name)
    shape = _of_members(shape, used)
    both = compare(shape, used[0].material.nu)
    made = both.walls if shape.serves == "walls" else both.outline
    table = section_table(name, shape, both, used)
    return _Found(table, table, _drawing(name, shape, made), _warnings(case, name, shape))


def _changed(case: Case, name: str, shape: Shape, changes: Sequence[str]) -> _Found:
    used = uses(case.model, name)
    nu, said = used[0].material.nu, ", ".join(changes)
    old, shape = _of_members(case.shapes[name], used), _of_members(shape, used)
    before, after = section(old, nu), section(shape, nu)
    table = change_table(name, said, before, after, used)
    return _Found(table, table, _drawing(f"{name} with {said}", shape, after), _warnings(case, name, shape))


def _over_range(case: Case, name: str, shape: Shape, change: str, against: Sequence[str]) -> _Found:
    wanted = tuple(against) or AGAINST
    for word in wanted:
        if word not in RANGED:
            raise unknown("property", word, list(RANGED))
    found = varied_shape(case, name, shape, change)
    used = uses(case.model, name)
    nu = used[0].material.nu
    made = [section(_of_members(one, used), nu) for one in found.shapes]
    table = range_table(name, found.key, found.unit, found.values, made, used)
    standing = properties(section(_of_members(shape, used), nu), used)

    now = "its default" if found.now is None else f"{found.now:g} {found.unit}".strip()

    def draw(kind: str) -> bytes:
        over = [properties(one, used) for one in made]
        title, mark = f"{name}: {shape.name}, over {found.key}", f"as it stands, {now}"
        return tradeoff_picture(
            kind, title, found.key, found.unit, found.values, over, standing, wanted, mark
        )

    known = [f"As it stands, {found.key} is {now}.", *_warnings(case, name, *found.shapes)]
    return _Found(table, in_short(table), draw, known)


def _of_members(shape: Shape, used: Sequence[Use]) -> Shape:
    """The shape in the first material of its members."""
    return of_material(shape, used[0].material.nu, used[0].material.G)


def _drawing(title: str, shape: Shape, made: Section | None) -> Callable[[str], bytes]:
    def draw(kind: str) -> bytes:
        import io

        from sections.drawing import draw as drawn

        stream = io.BytesIO()
        drawn(shape, stream, kind=kind, made=made, title=title)
        return stream.getvalue()

    return draw


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


def _kind(picture: Path) -> str:
    check_picture(picture)
    if not picture.absolute().parent.is_dir():
        raise Failure(f"cannot write {picture}: there is no folder {picture.parent}")
    return picture.suffix.lower()[1:]


def _write(file: Path, content: bytes) -> str:
    replaced = file.exists()
    try:
        file.write_bytes(content)
    except OSError as error:
        raise Failure(f"cannot write {file}: {error.strerror}") from error
    return f"Picture written to {file}{', in place of the one there' if replaced else ''}."
