"""Mistakes in a case file: collected while reading, told together.

Exception
└── CaseError    carries every Mistake of the file
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches


@dataclass(frozen=True)
class Mistake:
    """One thing to put right.

    Attributes
    ----------
    file : name of the file. path : key path such as `joints.upper_l.radial`, "" for the file as a whole.
    what : what is wrong. expected : what is allowed, or "". nearest : the nearest valid name, or "".
    """

    file: str
    path: str
    what: str
    expected: str = ""
    nearest: str = ""

    def __str__(self) -> str:
        text = f"{self.path}: {self.what}" if self.path else self.what
        if self.expected:
            text += f"; expected {self.expected}"
        if self.nearest:
            text += f"; nearest: {self.nearest}"
        return text


class CaseError(Exception):
    """The case file cannot be used; `mistakes` says why, in the order of the file as far as it goes."""

    def __init__(self, mistakes: Iterable[Mistake]) -> None:
        self.mistakes = tuple(mistakes)
        super().__init__(self.mistakes)

    def __str__(self) -> str:
        lines: list[str] = []
        for file in dict.fromkeys(m.file for m in self.mistakes):
            here = [m for m in self.mistakes if m.file == file]
            lines.append(f"{file}: {len(here)} mistake{'s' if len(here) > 1 else ''}")
            lines.extend(f"  {m}" for m in here)
        return "\n".join(lines)


def nearest(name: object, names: Iterable[str]) -> str:
    """The valid name that looks most like the given one, or ""."""
    word, every = str(name)[:100], list(names)
    same = [n for n in every if n.casefold() == word.casefold()]
    found = same or get_close_matches(word, every, n=1, cutoff=0.55)
    return found[0] if found else ""


def listed(names: Iterable[str], most: int = 12) -> str:
    """Names with commas, cut short where there are many."""
    every = list(names)
    return ", ".join(every[:most]) + (f" and {len(every) - most} more" if len(every) > most else "")


def shown(value: object) -> str:
    """A value of the file as a message quotes it."""
    text = repr(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


@dataclass
class Log:
    """What reading notes down: the one thing of this room that changes while it works.

    Attributes
    ----------
    file : name of the case file. elsewhere : (path, file) of entries that stand in another file.
    mistakes, warnings : found so far. defaults : path -> value as text, of defaults used.
    tolerances : path -> half-width [internal units]. used : (what it is, name) of every name referred to.
    """

    file: str
    elsewhere: dict[str, str] = field(default_factory=dict)
    mistakes: list[Mistake] = field(default_factory=list)
    warnings: list[str] = field(default_factory=list)
    defaults: dict[str, str] = field(default_factory=dict)
    tolerances: dict[str, float] = field(default_factory=dict)
    used: set[tuple[str, str]] = field(default_factory=set)

    def mistake(self, path: str, what: str, expected: str = "", near: str = "") -> None:
        """Note a mistake down."""
        file = next((f for p, f in self.elsewhere.items() if belongs(path, p)), self.file)
        self.mistakes.append(Mistake(file, path, what, expected, near))

    def mistake_in(self, file: str, place: str, what: str, expected: str = "") -> None:
        """Note down a mistake at a place of another file."""
        self.mistakes.append(Mistake(file, place, what, expected))

    def unknown(self, path: str, kind: str, name: object, valid: Iterable[str]) -> None:
        """Note down a name that names nothing."""
        every = list(valid)
        expected = f"one of {listed(every)}" if every else f"a {kind}, but the case has none"
        self.mistake(path, f"there is no {kind} {shown(name)}", expected, nearest(name, every))

    def clean(self, path: str) -> bool:
        """True where nothing is wrong at the path or below it."""
        return not any(belongs(m.path, path) for m in self.mistakes)


def is_within(path: str, parents: Collection[str]) -> bool:
    """True where the path is one of the parents or lies below one."""
    steps = path.split("[")[0].split(".")
    return any(".".join(steps[:k]) in parents for k in range(1, len(steps) + 1))


def belongs(path: str, parent: str) -> bool:
    """True where the path is the parent or lies below it."""
    return path.startswith(parent) and path[len(parent) : len(parent) + 1] in ("", ".", "[")
