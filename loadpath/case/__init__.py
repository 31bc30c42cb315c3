"""The case file: reading, units, twins, and mistakes that name their place."""

from loadpath.case.case import Case, read_case
from loadpath.case.editor import json_schema
from loadpath.case.errors import CaseError, Mistake

__all__ = ["Case", "CaseError", "Mistake", "json_schema", "read_case"]
