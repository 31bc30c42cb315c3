"""Outline engine: two-dimensional finite elements on the section's true shape."""

from sections.solid.engine import outline_section
from sections.solid.inside import Inside, stress_inside

__all__ = ["Inside", "outline_section", "stress_inside"]
