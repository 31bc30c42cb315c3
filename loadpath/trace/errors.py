"""What the load path cannot be asked."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches


class TraceError(Exception):
    """A question about the load path that has no answer; the message says why and what is possible."""


def unknown(what: str, name: str, valid: Iterable[str]) -> TraceError:
    """A name that is not there, with the nearest that is."""
    names = list(valid)
    near = get_close_matches(name, names, 1)
    hint = f"; nearest: {near[0]}" if near else ""
    return TraceError(f"no {what} {name!r}; there are: {', '.join(names) or 'none'}{hint}")
