"""Poses in words and tables."""

from __future__ import annotations

from loadpath.model import Model


def pose_words(model: Model) -> str:
    """Where the wheels stand, for headings."""
    return "design height" if model.pose is None else model.pose.words()
