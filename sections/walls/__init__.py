"""Thin-walled engine: flows in the mid-line graph, stress on both faces."""

from sections.walls.engine import walls_section
from sections.walls.faces import wall_outlines
from sections.walls.kernel import ThinWalls, solve_walls
from sections.walls.stations import Stations, stations
from sections.walls.surface import surface_peak

__all__ = [
    "Stations",
    "ThinWalls",
    "solve_walls",
    "stations",
    "surface_peak",
    "wall_outlines",
    "walls_section",
]
