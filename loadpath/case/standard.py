"""Standard load cases put among those of the file, before twins are made and anything is checked.

A row is as if the file had written it; what the file writes under the row's name, or under that of a load case
made of it, goes on top key by key. A load case of another kind takes the row's place.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from loadpath.case.lookup import Context
from loadpath.case.reflect import twin_name
from loadpath.case.standard_rows import KEY, chosen_rows, load_cases_of, places_of
from loadpath.case.words import join
from loadpath.loads import Fault, StandardRow


@dataclass(frozen=True, eq=False)
class Standard:
    """What a case takes of a set of load cases.

    Attributes
    ----------
    rows : row of each load case. touched : load cases on which the file writes. changed : paths of what it
        writes. left_out : load cases or rows that the case cannot have, with the reason.
    """

    rows: Mapping[str, StandardRow] = field(default_factory=dict)
    touched: frozenset[str] = frozenset()
    changed: tuple[str, ...] = ()
    left_out: Mapping[str, str] = field(default_factory=dict)

    def with_twins(self, made: Iterable[str]) -> Standard:
        """The same with the generated twins; `made` are paths of generated tables."""
        pairs = {n: twin_name(n) for n in self.rows if join("load_cases", twin_name(n)) in set(made)}
        rows = {**self.rows, **{twin: self.rows[name] for name, twin in pairs.items()}}
        touched = self.touched | {twin for name, twin in pairs.items() if name in self.touched}
        return replace(self, rows=rows, touched=touched)

    def without(self, faults: Iterable[Fault]) -> Standard:
        """The same without the rows that fail only for what the case has not got; those it writes on stay."""
        reasons: dict[str, list[Fault]] = {}
        for fault in faults:
            reasons.setdefault(fault.case, []).append(fault)
        missing = {
            name: found[0].what
            for name, found in reasons.items()
            if name in self.rows and name not in self.touched and all(f.lacking for f in found)
        }
        rows = {name: row for name, row in self.rows.items() if name not in missing}
        return replace(self, rows=rows, left_out={**self.left_out, **missing})

    def notes(self) -> Iterator[str]:
        """What the output says of it."""
        if self.changed:
            yield f"written over the standard load cases: {', '.join(self.changed)}"
        reasons: dict[str, list[str]] = {}
        for name, reason in self.left_out.items():
            reasons.setdefault(reason, []).append(name)
        for reason, names in reasons.items():
            yield f"standard load cases left out: {', '.join(names)}: {reason}"


def with_standard(raw: dict[str, Any], context: Context) -> tuple[dict[str, Any], Standard]:
    """Raw tables with the chosen rows among the load cases."""
    asked, written = raw.get(KEY), raw.get("load_cases", {})
    if asked is None or not isinstance(written, dict):
        return raw, Standard()
    asked = asked if isinstance(asked, dict) else {"rows": asked}
    rows = chosen_rows(asked, context)
    empty = {row.name: reason for row in rows if (reason := _nowhere(row, asked, written))}
    laid = [_lay(row, dict(load_cases_of(row, asked)), written) for row in rows if row.name not in empty]
    used = frozenset(name for one in laid for name in one.used)
    own = {name: table for name, table in written.items() if name not in used}
    load_cases = {name: table for one in laid for name, table in one.load_cases.items()}
    replaced = [join("load_cases", name) for name in own if name in load_cases]
    standard = Standard(
        rows={name: one.row for one in laid for name in one.load_cases if name not in own},
        touched=frozenset(name for one in laid for name in one.touched),
        changed=tuple(dict.fromkeys([path for one in laid for path in one.changed] + replaced)),
        left_out=empty,
    )
    _tell_file(asked, standard, context)
    return {**raw, "load_cases": {**load_cases, **own}}, standard


def _nowhere(row: StandardRow, asked: Mapping[str, Any], written: Mapping[str, Any]) -> str:
    """Why a row has no place to act at, or "": the list that it is made of is empty and the file writes none."""
    if not row.places or places_of(row, asked) or _goes_on_top(written.get(row.name), row):
        return ""
    return f"{KEY}.{row.places} names no point"


def _tell_file(asked: Mapping[str, Any], standard: Standard, context: Context) -> None:
    """What is wrong in a row of the file's own set is told of that set."""
    if isinstance(asked.get("file"), str):
        names = standard.rows.keys() - standard.touched
        context.log.elsewhere.update({join("load_cases", name): asked["file"] for name in names})


@dataclass(frozen=True)
class _Laid:
    """The load cases of one row under what the file writes.

    used : written tables that went on top. touched : load cases under them. changed : paths of new values.
    """

    row: StandardRow
    load_cases: Mapping[str, Any]
    used: tuple[str, ...]
    touched: tuple[str, ...]
    changed: tuple[str, ...]


def _lay(row: StandardRow, made: dict[str, Any], written: Mapping[str, Any]) -> _Laid:
    """What is written under the row's name goes on all of its load cases, what under one of theirs on that one."""
    used = [n for n in dict.fromkeys((row.name, *made)) if _goes_on_top(written.get(n), row)]
    touched: list[str] = []
    changed: list[str] = []
    for name in used:
        under = [name] if name in made else list(made)
        touched += under
        for one in under:
            made[one] = _deep(made[one], written[name], join("load_cases", name), changed)
    return _Laid(row, made, tuple(used), tuple(touched), tuple(changed))


def _goes_on_top(written: Any, row: StandardRow) -> bool:
    """True for a table without a kind or with the row's."""
    return isinstance(written, dict) and written.get("kind", row.load_case["kind"]) == row.load_case["kind"]


def _deep(made: Any, written: Any, path: str, changed: list[str]) -> Any:
    """What is written on top of what was made, key by key; lists are replaced as a whole."""
    if not isinstance(made, dict) or not isinstance(written, dict):
        if written != made:
            changed.append(path)
        return written
    merged = dict(made)
    for key, value in written.items():
        merged[key] = _deep(made.get(key), value, join(path, key), changed)
    return merged
