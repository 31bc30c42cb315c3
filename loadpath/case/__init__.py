"""The case file: reading, units, twins, and mistakes that name their place."""

from loadpath.case.case import Case, read_case
from loadpath.case.changes import Varied, changed_shape, quantity, varied_shape
from loadpath.case.editor import json_schema
from loadpath.case.errors import CaseError, Mistake
from loadpath.case.gauges import thickness_warnings
from loadpath.case.telling import load_case_words, row_load_case

__all__ = [
    "Case",
    "CaseError",
    "Mistake",
    "Varied",
    "changed_shape",
    "json_schema",
    "load_case_words",
    "quantity",
    "read_case",
    "row_load_case",
    "thickness_warnings",
    "varied_shape",
]
