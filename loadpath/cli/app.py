"""The commands and what happens when one cannot do its work."""

from __future__ import annotations

import gc
import io
import os
import sys
from pathlib import Path
from typing import Annotated

import typer

app = typer.Typer(
    help="Wheel loads through a suspension cradle, from one case file.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)

CaseFile = Annotated[Path, typer.Argument(help="case file (TOML)", metavar="CASE")]
CsvFolder = Annotated[Path | None, typer.Option("--csv", help="also write the tables as CSV here")]
JsonFolder = Annotated[Path | None, typer.Option("--json", help="also write the tables as JSON here")]
PictureFile = Annotated[Path | None, typer.Option(metavar="FILE", help="picture file, .png or .svg")]
Along = Annotated[str | None, typer.Option(metavar="DIRECTION", help="forward, left or up only")]
OneCase = Annotated[str | None, typer.Option("--case", metavar="NAME", help="one load case only")]


@app.command()
def check(
    case: CaseFile,
    load_case: OneCase = None,
    csv: CsvFolder = None,
    json: JsonFolder = None,
) -> None:
    """Verdicts on strength, stiffness and mass, worst first; exit code 1 when anything exceeds.

    Exit codes: 0 all judged and nothing exceeds, 1 something exceeds, 2 the input cannot be used, 3 nothing
    exceeds but something could not be judged, 4 a fault of this program.
    """
    from loadpath.cli.checking import print_check

    raise typer.Exit(print_check(case, load_case, csv, json))


@app.command()
def solve(
    case: CaseFile,
    load_case: Annotated[str | None, typer.Option("--case", help="one load case in full")] = None,
    at: Annotated[str | None, typer.Option(help="everything at one point")] = None,
    csv: CsvFolder = None,
    json: JsonFolder = None,
) -> None:
    """Joint, mount and member forces: envelopes, or one load case, or one point."""
    from loadpath.cli.solving import print_solve

    print_solve(case, load_case, at, csv, json)


@app.command()
def trace(
    case: CaseFile,
    load_case: Annotated[
        str | None, typer.Option("--case", metavar="NAME", help="one load case in full")
    ] = None,
    part: Annotated[
        str | None, typer.Option(metavar="NAME", help="one part: free body, what comes in and goes where")
    ] = None,
    along: Along = None,
    about: Annotated[
        str | None, typer.Option(metavar="POINT", help="count moments about axes through this point")
    ] = None,
    toward: Annotated[
        str | None, typer.Option(metavar="POINT", help="with --about: about the line to this point")
    ] = None,
    around: Annotated[
        list[str] | None, typer.Option(metavar="PART", help="cut round this part; several allowed")
    ] = None,
    picture: PictureFile = None,
    csv: CsvFolder = None,
    json: JsonFolder = None,
) -> None:
    """Load path: which joint carries what share, from the wheels to the arms, the cradle and the body."""
    from loadpath.cli.tracing import Question, print_trace

    asked = Question(load_case, part, along, about, toward, tuple(around or ()), picture)
    print_trace(case, asked, csv, json)


@app.command()
def whatif(
    case: CaseFile,
    without: Annotated[
        list[str] | None, typer.Option(metavar="NAME", help="take this member, joint, strut or part out")
    ] = None,
    stiffness: Annotated[
        list[str] | None,
        typer.Option(metavar="NAME=FACTOR", help="multiply a stiffness; 0.5 is half as stiff"),
    ] = None,
    load_case: OneCase = None,
    along: Along = None,
    picture: PictureFile = None,
    csv: CsvFolder = None,
    json: JsonFolder = None,
) -> None:
    """What others gain or lose when something is taken out or made softer."""
    from loadpath.cli.changing import Show, print_whatif

    show = Show(load_case, along, picture, csv, json)
    print_whatif(case, without or (), stiffness or (), show)


@app.command()
def compare(
    before: Annotated[Path, typer.Argument(help="case file (TOML)", metavar="BEFORE")],
    after: Annotated[Path, typer.Argument(help="another case file", metavar="AFTER")],
    load_case: OneCase = None,
    along: Along = None,
    picture: PictureFile = None,
    csv: CsvFolder = None,
    json: JsonFolder = None,
) -> None:
    """Load paths of two cases side by side: onto the body, at joints, in members."""
    from loadpath.cli.changing import Show, print_compare

    print_compare(before, after, Show(load_case, along, picture, csv, json))


@app.command()
def mounts(
    case: CaseFile,
    joint: Annotated[str | None, typer.Option(help="this joint or strut only")] = None,
    axes: Annotated[str, typer.Option(help="file, vehicle, or own (of each joint)")] = "file",
    csv: CsvFolder = None,
    json: JsonFolder = None,
) -> None:
    """Mount sheet: extremes of every component with the others at that moment; unit loads as files."""
    from loadpath.cli.mounts import print_mounts

    print_mounts(case, joint, axes, csv, json)


@app.command()
def loads(
    case: Annotated[
        Path | None, typer.Argument(help="case file (TOML); without one, the standard set", metavar="CASE")
    ] = None,
    csv: CsvFolder = None,
    json: JsonFolder = None,
) -> None:
    """Load cases with their numbers and sources: the standard set, or what a case file makes of it."""
    from loadpath.cli.loadcases import print_loads

    print_loads(case, csv, json)


@app.command()
def compliance(
    case: CaseFile,
    loaded: Annotated[
        str, typer.Option(help="wheels of an axle loaded: together, alone, or opposite")
    ] = "together",
    jounce: Annotated[float, typer.Option(help="all wheels at this jounce [mm]")] = 0.0,
    rack: Annotated[float, typer.Option(help="steering racks at this travel to the left [mm]")] = 0.0,
    locked: Annotated[bool, typer.Option("--locked", help="hold the springs at their length")] = False,
    each: Annotated[
        bool, typer.Option("--each", help="also make every bushing, part and body point rigid in turn")
    ] = False,
    picture: Annotated[Path | None, typer.Option(help="picture file, .png or .svg")] = None,
    csv: CsvFolder = None,
    json: JsonFolder = None,
) -> None:
    """Toe, camber and movement of the wheels per kN and kN·m, and what gives way."""
    from loadpath.cli.complying import Wish, print_compliance

    print_compliance(case, Wish(loaded, jounce, rack, locked, each, picture), csv, json)


@app.command()
def travel(
    case: CaseFile,
    motion: Annotated[str, typer.Option(help="heave, roll, left, right (one side alone) or steer")] = "heave",
    step: Annotated[float, typer.Option(help="step of the travel [mm]")] = 20.0,
    jounce: Annotated[float, typer.Option(help="travel of wheels that the motion does not move [mm]")] = 0.0,
    rack: Annotated[float, typer.Option(help="travel of racks that the motion does not move [mm]")] = 0.0,
    picture: Annotated[Path | None, typer.Option(help="picture file, .png or .svg")] = None,
    csv: CsvFolder = None,
    json: JsonFolder = None,
) -> None:
    """Kinematics over the travel: alignment, roll centre, anti-dive, motion ratios, angles of every joint.

    Exit code 1 when a joint or half-shaft exceeds a limit of the case.
    """
    from loadpath.cli.travelling import Asked, print_travel

    raise typer.Exit(print_travel(case, Asked(motion, step, jounce, rack, picture), csv, json))


@app.command()
def room(
    case: CaseFile,
    clearance: Annotated[float, typer.Option(help="to keep between wheels and members [mm]")] = 15.0,
    shaft_clearance: Annotated[
        float, typer.Option(help="to keep between half-shafts and members [mm]")
    ] = 15.0,
    picture: Annotated[Path | None, typer.Option(help="picture file, .png or .svg")] = None,
    csv: CsvFolder = None,
    json: JsonFolder = None,
) -> None:
    """Clearances of wheels and half-shafts over full travel and steer, and the room left for sections.

    Exit code 1 when a clearance is less than the one asked for.
    """
    from loadpath.cli.rooms import Asked, print_room

    raise typer.Exit(print_room(case, Asked(clearance, shaft_clearance, picture), csv, json))


@app.command()
def section(
    case: CaseFile,
    name: Annotated[str, typer.Argument(help="section in the case file")],
    change: Annotated[
        list[str] | None,
        typer.Option(
            "--set", metavar="KEY=VALUE", help="try another value of a key, as the case file writes it"
        ),
    ] = None,
    vary: Annotated[
        str | None, typer.Option(metavar="KEY=FIRST:LAST:STEP", help="a table over a range of a dimension")
    ] = None,
    against: Annotated[
        list[str] | None,
        typer.Option(
            "--mass-against",
            metavar="PROPERTY",
            help="with --vary: what the plot shows, several with commas or given again (default Iyy,J)",
        ),
    ] = None,
    under: Annotated[
        list[str] | None,
        typer.Option(
            metavar="FORCES",
            help="stress under a load case of the file, where it peaks, or under forces such as Vz=4kN,My=1.2kN*m",
        ),
    ] = None,
    member: Annotated[
        str | None, typer.Option(help="with a load case in --under: this member, PART.MEMBER, only")
    ] = None,
    colour: Annotated[
        str | None, typer.Option(help="with --under: what the picture shows: stress, normal, shear or flow")
    ] = None,
    picture: Annotated[
        Path | None,
        typer.Option(metavar="FILE", help="draw it here, .png or .svg; with --vary the plot of mass"),
    ] = None,
    csv: CsvFolder = None,
    json: JsonFolder = None,
) -> None:
    """Properties of one section by both theories; with --set before and after, with --vary over a range."""
    from loadpath.cli.sections import Request, print_section

    asked = Request(
        changes=change or (),
        varied=vary,
        against=against or (),
        under=under or (),
        member=member,
        colour=colour,
        picture=picture,
    )
    print_section(case, name, asked, csv, json)


@app.command()
def new(file: Annotated[Path, typer.Argument(help="case file to write")]) -> None:
    """Write a small commented case that runs."""
    from loadpath.cli.starting import write_new

    write_new(file)


@app.command()
def schema() -> None:
    """Print the JSON Schema of the case file, for editors."""
    from loadpath.cli.starting import print_schema

    print_schema()


def run() -> None:
    """Entry point: bad input ends with one clear message and exit code 2; 4 is a fault of this program."""
    from loadpath.cli.failures import failures, fault

    gc.disable()  # a short run that makes no cycles: collecting would cost a fifth of it
    _plain_output()
    try:
        app()
    except failures() as failure:
        sys.stderr.write(f"{failure}\n")
        sys.exit(2)
    except Exception as error:  # the outermost place: what nobody foresaw is told as a fault of the program
        sys.stderr.write(fault(error))
        sys.exit(4)
    finally:
        gc.freeze()
        gc.enable()


def _plain_output() -> None:
    """Output that cannot show a sign shows a question mark; no output at all is taken as it is."""
    if sys.stdout is None:
        sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115
    if sys.stderr is None:
        sys.stderr = sys.stdout
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
