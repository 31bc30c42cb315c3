"""What a user can cause: told in words, exit code 2."""

from __future__ import annotations


class Failure(Exception):
    """A command that cannot do what was asked; the message says why and what is possible."""


def failures() -> tuple[type[Exception], ...]:
    """All errors that mean bad input rather than a fault of this program."""
    from loadpath.case import CaseError
    from loadpath.frame import FrameError
    from loadpath.loads import LoadCaseError
    from sections import ShapeError

    return Failure, CaseError, FrameError, LoadCaseError, ShapeError, OSError, MemoryError


def fault(error: Exception) -> str:
    """What is said of an error that no input should be able to cause."""
    import traceback

    told = "".join(traceback.format_exception(error))
    return (
        f"{told}\nThis is a fault of the program, not of your input: please report it with the case file.\n"
    )


def unknown(what: str, name: str, valid: list[str]) -> Failure:
    """A name that is not there, with the nearest that is."""
    from difflib import get_close_matches

    near = get_close_matches(name, valid, 1)
    hint = f"; nearest: {near[0]}" if near else ""
    between = "; " if any("," in each for each in valid) else ", "
    return Failure(f"no {what} {name!r}; there are: {between.join(valid) or 'none'}{hint}")
