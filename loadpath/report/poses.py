"""Poses in words and tables."""

from __future__ import annotations

from loadpath.checks import Analysis
from loadpath.model import Model


def pose_words(model: Model) -> str:
    """Where the wheels stand, for headings."""
    return "design height" if model.pose is None else model.pose.words()


def case_words(analysis: Analysis, c: int) -> str:
    """A load case with its pose where that is not design height, for titles."""
    model, name = analysis.at(c)[0].model, analysis.cases[c].name
    return name if model.pose is None else f"{name}, {model.pose.words()}"
