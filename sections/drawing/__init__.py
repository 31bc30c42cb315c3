"""Pictures of sections: PNG or SVG. Importing this loads nothing heavy; drawing loads matplotlib."""

from sections.acting import COLOURS, Acting, Colour
from sections.drawing.picture import draw

__all__ = ["COLOURS", "Acting", "Colour", "draw"]
