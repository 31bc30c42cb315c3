"""Picture files that commands write."""

from __future__ import annotations

from pathlib import Path

from loadpath.cli.common import check_picture
from loadpath.cli.failures import Failure


def picture_kind(picture: Path) -> str:
    """The kind by the file's ending; a file that cannot become a picture is refused before anything is worked out."""
    check_picture(picture)
    return picture.suffix.lower()[1:]


def write_picture(file: Path, content: bytes) -> str:
    """Write a picture that was asked for by name; a sentence that says where, and whether one was there."""
    replaced = file.exists()
    try:
        file.write_bytes(content)
    except OSError as error:
        raise Failure(f"cannot write {file}: {error.strerror}") from error
    return f"Picture written to {file}{', in place of the one there' if replaced else ''}."
