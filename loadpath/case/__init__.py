"""The case file: reading, units, twins, and mistakes that name their place."""

from loadpath.case.case import Case, read_case
from loadpath.case.editor import json_schema
from loadpath.case.errors import CaseError, Mistake
from loadpath.case.telling import load_case_words, row_words

__all__ = ["Case", "CaseError", "Mistake", "json_schema", "load_case_words", "read_case", "row_words"]
