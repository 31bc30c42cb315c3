"""Outline engine: two-dimensional finite elements on the section's true shape."""

from sections.solid.engine import outline_section

__all__ = ["outline_section"]
