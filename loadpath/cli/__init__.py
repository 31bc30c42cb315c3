"""Command line: reads, calls, prints. No physics here; heavy rooms are imported where they are used."""

from loadpath.cli.app import run

__all__ = ["run"]
