"""Standard load cases put among those of the file, before twins are made and anything is checked.

A row is as if the file had written it; what the file writes under the row's name, or under that of a load case
made of it, goes on top key by key. A load case of another kind takes the row's place.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from loadpath.case.declare import LEFT
from loadpath.case.lookup import Context
from loadpath.case.reflect import twin_name
from loadpath.case.standard_rows import KEY, POSE, chosen_rows, load_cases_of, places_of, set_rows
from loadpath.case.words import join
from loadpath.loads import Fault, StandardRow
from loadpath.model import LoadSpec, PoseWish, in_short


@dataclass(frozen=True, eq=False)
class Standard:
    """What a case takes of a set of load cases.

    Attributes
    ----------
    rows : row of each load case. touched : load cases on which the file writes. changed : paths of what it
        writes. left_out : load cases or rows that the case cannot have, with the reason. standing : load cases that
    act as the vehicle stands, as it cannot have their row's pose, with the reason. untaken : load cases without a
        kind that have the name of a row that the case does not take: mistakes, told.
    """

    rows: Mapping[str, StandardRow] = field(default_factory=dict)
    touched: frozenset[str] = frozenset()
    changed: tuple[str, ...] = ()
    left_out: Mapping[str, str] = field(default_factory=dict)
    standing: dict[str, str] = field(default_factory=dict)
    untaken: frozenset[str] = frozenset()

    def with_twins(self, made: Iterable[str]) -> Standard:
        """The same with the generated twins; `made` are paths of generated tables."""
        pairs = {n: twin_name(n) for n in self.rows if join("load_cases", twin_name(n)) in set(made)}
        rows = {**self.rows, **{twin: self.rows[name] for name, twin in pairs.items()}}
        touched = self.touched | {twin for name, twin in pairs.items() if name in self.touched}
        return replace(self, rows=rows, touched=touched)

    def fitted(self, specs: Mapping[str, LoadSpec], faults: Iterable[Fault]) -> Standard:
        """The same for what the case has got; no change where that does not help.

        A row that fails only for the pose that it brings is to act as the vehicle stands; one that fails only for
        what the case has not got is left out. Where the file asks for it, it stays, and is a mistake.
        """
        reasons: dict[str, list[Fault]] = {}
        for fault in faults:
            reasons.setdefault(fault.case, []).append(fault)
        lacking = {n: found for n, found in reasons.items() if all(f.lacking for f in found)}
        own = {n: f for n, f in lacking.items() if n in self.rows}
        standing = {n: _of_pose(f) for n, f in own.items() if _of_pose(f) and self._brings_pose(n, specs[n])}
        missing = {
            n: found[0].what
            for n, found in own.items()
            if n not in self.touched and not any(f.key == POSE for f in found)
        }
        return replace(
            self,
            rows={name: row for name, row in self.rows.items() if name not in missing},
            left_out={**self.left_out, **missing},
            standing={n: why for n, why in (self.standing | standing).items() if n not in missing},
        )

    def _brings_pose(self, name: str, spec: LoadSpec) -> bool:
        """True where the load case has the pose of its row."""
        wish = self.rows[name].load_case.get(POSE)
        return spec.pose is not None and spec.pose == PoseWish(by=wish)

    def repeats(self, path: str, told: Iterable[str]) -> bool:
        """True where a mistake in a load case follows from one in what the file asks for, which is told."""
        table, _, rest = path.partition(".")
        name, _, key = rest.partition(".")
        if table == "load_cases" and key == "kind" and name in self.untaken:
            return True
        asked = any(one.partition(".")[0] == KEY for one in told)
        return asked and table == "load_cases" and name in self.rows and name not in self.touched

    def notes(self) -> Iterator[str]:
        """What the output says of it."""
        if self.changed:
            yield f"written over the standard load cases: {', '.join(self.changed)}"
        for what, reasons in (("left out", self.left_out), ("taken as the vehicle stands", self.standing)):
            if reasons:
                yield f"standard load cases {what}: {'; '.join(_grouped(reasons))}"


def _of_pose(faults: Iterable[Fault]) -> str:
    """What is wrong with the pose, or ""."""
    return next((fault.what for fault in faults if fault.key == POSE), "")


def _grouped(reasons: Mapping[str, str]) -> Iterator[str]:
    """Names with the reason that they share."""
    names: dict[str, list[str]] = {}
    for name, reason in reasons.items():
        names.setdefault(reason, []).append(name)
    return (f"{in_short(own)} ({reason})" for reason, own in names.items())


def with_standard(raw: dict[str, Any], context: Context) -> tuple[dict[str, Any], Standard]:
    """Raw tables with the chosen rows among the load cases."""
    asked, written = raw.get(KEY), raw.get("load_cases", {})
    if asked is None or not isinstance(written, dict):
        return raw, Standard()
    asked = asked if isinstance(asked, dict) else {"rows": asked}
    every = set_rows(asked, context)
    rows = chosen_rows(every, asked, context)
    empty = {row.name: reason for row in rows if (reason := _nowhere(row, asked, written))}
    laid = [_lay(row, dict(load_cases_of(row, asked)), written) for row in rows if row.name not in empty]
    used = frozenset(name for one in laid for name in one.used)
    own = {name: table for name, table in written.items() if name not in used}
    load_cases = {name: table for one in laid for name, table in one.load_cases.items()}
    replaced = [join("load_cases", name) for name in own if name in load_cases]
    standard = Standard(
        rows={name: one.row for one in laid for name in one.load_cases if name not in own},
        touched=frozenset(name for one in laid for name in one.touched) | _written_twins(load_cases, written),
        changed=tuple(dict.fromkeys([path for one in laid for path in one.changed] + replaced)),
        left_out=empty,
        untaken=_untaken(own, asked, [row for row in every.values() if row not in rows], context),
    )
    _tell_file(asked, standard, context)
    return {**raw, "load_cases": {**load_cases, **own}}, standard


def _untaken(
    own: Any, asked: Mapping[str, Any], rows: Iterable[StandardRow], context: Context
) -> frozenset[str]:
    """Load cases of the file without a kind that have the name of a row not taken, each told as a mistake."""
    bare = [n for n, t in own.items() if isinstance(t, dict) and "kind" not in t]
    if not bare:
        return frozenset()
    names = {
        n
        for row in rows
        for one in (row.name, *dict(load_cases_of(row, asked)))
        for n in (one, twin_name(one))
    }
    found = frozenset(names.intersection(bare))
    for name in (n for n in bare if n in found):
        what = "has no kind, and the standard load case of this name is not taken"
        context.log.mistake(
            join("load_cases", name), what, f"a kind, or {name} taken by {KEY} (rows, leave_out)"
        )
    return found


def _written_twins(load_cases: Mapping[str, Any], written: Mapping[str, Any]) -> frozenset[str]:
    """Twins of standard load cases that the file writes over."""
    return frozenset(twin_name(n) for n in load_cases if n.endswith(LEFT) and twin_name(n) in written)


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
