"""Names in sentences."""

from __future__ import annotations

from collections.abc import Iterable

LEFT, RIGHT = "_l", "_r"


def in_short(names: Iterable[str]) -> str:
    """Names one after another; a left one and its twin as one, "bump_l/r"."""
    every = list(dict.fromkeys(names))
    known = set(every)

    def short(name: str) -> str:
        stem = name[: -len(LEFT)]
        if name.endswith(LEFT) and stem + RIGHT in known:
            return f"{name}/{RIGHT[1:]}"
        return "" if name.endswith(RIGHT) and stem + LEFT in known else name

    return ", ".join(filter(None, map(short, every)))
