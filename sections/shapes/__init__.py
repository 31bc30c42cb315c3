"""Shapes by name. A new shape is one file here and one line below."""

from collections.abc import Mapping
from types import MappingProxyType

from sections.shapes.base import Shape
from sections.shapes.cast_i import CastI
from sections.shapes.cast_ribbed_channel import CastRibbedChannel
from sections.shapes.channel import Channel
from sections.shapes.closed_hat import ClosedHat
from sections.shapes.hat import Hat
from sections.shapes.lipped_channel import LippedChannel
from sections.shapes.rectangular_tube import RectangularTube
from sections.shapes.round_tube import RoundTube
from sections.shapes.solid_rectangle import SolidRectangle
from sections.shapes.solid_round import SolidRound
from sections.shapes.traced import Traced
from sections.shapes.two_shell_box import TwoShellBox

_ALL: tuple[type[Shape], ...] = (
    RoundTube,
    RectangularTube,
    Channel,
    LippedChannel,
    Hat,
    ClosedHat,
    TwoShellBox,
    CastI,
    CastRibbedChannel,
    SolidRound,
    SolidRectangle,
    Traced,
)

SHAPES: Mapping[str, type[Shape]] = MappingProxyType({shape.name: shape for shape in _ALL})
"""Every shape class by the name that a case file uses."""

__all__ = [
    "SHAPES",
    "CastI",
    "CastRibbedChannel",
    "Channel",
    "ClosedHat",
    "Hat",
    "LippedChannel",
    "RectangularTube",
    "RoundTube",
    "Shape",
    "SolidRectangle",
    "SolidRound",
    "Traced",
    "TwoShellBox",
]
