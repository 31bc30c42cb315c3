"""What a case takes of the standard load cases."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Literal

from loadpath.loads import Place
from sections.fields import parameter


@dataclass(frozen=True, kw_only=True)
class StandardLoadsTable:
    """Standard load cases, beside those that the file writes; `loadpath loads` lists them.

    They are as if they were written in the file, before everything that the file writes of them.
    """

    shorthand: ClassVar[str] = "rows"
    rows: Literal["all"] | tuple[str, ...] = parameter(
        'the rows that the case takes, by name, or "all"', default="all", tell=False
    )
    leave_out: tuple[str, ...] = parameter("rows that it does not take after all", default=(), tell=False)
    states: tuple[str, ...] = parameter(
        "loading states that the rows are made in; with several, a row's name is followed by the state's; "
        "default: design",
        default=(),
        refers="state",
        tell=False,
    )
    poses: Literal["own", "standing"] = parameter(
        "the rows act each in its own pose, or all as the vehicle stands in its loading state: quicker, and good "
        "for a first look",
        default="own",
        tell=False,
    )
    jack_at: tuple[Place, ...] = parameter("jacking points", default=(), tell=False)
    tow_at: tuple[Place, ...] = parameter("towing points", default=(), tell=False)
    lash_at: tuple[Place, ...] = parameter("lashing points", default=(), tell=False)
    file: str | None = parameter(
        "a set of your own in place of the built-in one, TOML", refers="file", default=None, tell=False
    )
