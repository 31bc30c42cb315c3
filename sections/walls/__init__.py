"""Thin-walled engine: one weighted Laplacian on the mid-line graph."""

from sections.walls.engine import walls_section
from sections.walls.faces import wall_outlines
from sections.walls.kernel import ThinWalls, solve_walls

__all__ = ["ThinWalls", "solve_walls", "wall_outlines", "walls_section"]
