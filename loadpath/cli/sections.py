"""`loadpath section`."""

from __future__ import annotations

from pathlib import Path

from loadpath.case import read_case
from loadpath.cli.common import check_picture, default_lines, head, print_tables, say, write_files
from loadpath.cli.failures import Failure, unknown
from loadpath.report import CAUTION, section_table, wrapped
from sections import compare
from sections.drawing import draw


def print_section(path: Path, name: str, picture: Path | None, csv: Path | None, json: Path | None) -> None:
    """Print the properties and write the picture, `section_NAME.png` here where no file is given."""
    case = read_case(path)
    if name not in case.shapes:
        raise unknown("section", name, list(case.shapes))
    file = picture or Path(f"section_{name}.png")
    check_picture(file)
    shape = case.shapes[name]
    both = compare(shape)
    table = section_table(name, shape, both)
    say(head(case))
    print_tables([table])
    try:
        draw(shape, file, made=both.walls if shape.serves == "walls" else both.outline, title=name)
    except OSError as error:
        raise Failure(f"cannot write {file}: {error.strerror}") from error
    say(f"picture written to {file}\n")
    written = write_files([table], csv, json)
    say(wrapped([*written, *default_lines(case, f"sections.{name}."), CAUTION]))
