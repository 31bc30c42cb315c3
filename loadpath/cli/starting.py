"""`loadpath new` and `loadpath schema`."""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path

from loadpath.cli.common import say
from loadpath.cli.failures import Failure


def write_new(file: Path) -> None:
    """Write the starter case; an existing file is left alone."""
    text = files("loadpath.cli").joinpath("starter.toml").read_text(encoding="utf-8")
    try:
        with file.open("x", encoding="utf-8") as stream:
            stream.write(text)
    except FileExistsError:
        raise Failure(f"{file} exists already and is left as it is; give another name") from None
    except OSError as error:
        raise Failure(f"cannot write {file}: {error.strerror}") from error
    say(f"{file} written; next: loadpath check {file}\n")


def print_schema() -> None:
    """Print the JSON Schema of the case file."""
    from loadpath.case import json_schema

    say(json.dumps(json_schema(), indent=1) + "\n")
