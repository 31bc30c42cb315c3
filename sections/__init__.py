"""Cross-sections: from a shape or a traced outline to properties and stresses. Usable on its own."""

from sections.acting import COLOURS, Acting, Colour, at_surface, largest_flow, welds_among
from sections.api import Comparison, compare, section
from sections.batch import Bulk, bulk, bulk_stress
from sections.errors import Fault, ShapeError
from sections.geometry import Outline, Walls
from sections.midline import Midline
from sections.result import ACTIONS, Section
from sections.shapes import SHAPES, Shape
from sections.shapes.base import assumed_of, notes_of, of_material
from sections.solid import outline_section
from sections.walls import ThinWalls, solve_walls, walls_section

__all__ = [
    "ACTIONS",
    "COLOURS",
    "SHAPES",
    "Acting",
    "Bulk",
    "Colour",
    "Comparison",
    "Fault",
    "Midline",
    "Outline",
    "Section",
    "Shape",
    "ShapeError",
    "ThinWalls",
    "Walls",
    "assumed_of",
    "at_surface",
    "bulk",
    "bulk_stress",
    "compare",
    "largest_flow",
    "notes_of",
    "of_material",
    "outline_section",
    "section",
    "solve_walls",
    "walls_section",
    "welds_among",
]
