"""Geometry of a section: thin walls along a mid-line graph, and outlines with holes."""

from sections.geometry.bends import FILLET_STEP, circle, rounded
from sections.geometry.outline import Outline
from sections.geometry.sheet import Sheet, fused, joined_walls
from sections.geometry.walls import Walls

__all__ = ["FILLET_STEP", "Outline", "Sheet", "Walls", "circle", "fused", "joined_walls", "rounded"]
